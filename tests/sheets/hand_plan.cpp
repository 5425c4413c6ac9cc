#include "hand_plan.h"

#include <string>

namespace treadfold::by_hand {

namespace {

PlannedPiece piece(const std::string& id, int step, const std::string& kind, Length width, Length length) {
  PlannedPiece planned;
  Piece& p = planned.piece;
  p.id = id;
  p.flight = "main";
  p.flight_index = 0;
  p.steps = {step};
  p.carpet = "main";
  p.kind = kind;
  p.net_width = width - inches(2);
  p.net_length = length - inches(1, 1, 2);
  p.trim_left = p.trim_right = inches(1);
  p.trim_back = p.trim_foot = inches(0, 3, 4);
  p.cut_width = width;
  p.cut_length = length;
  planned.proof.passed = true;
  return planned;
}

using Kind = Stroke::Kind;

} // namespace

Plan small_plan() {
  Plan plan;
  Job& job = plan.job;
  job.site = {"Weir Cottage, back stair",
              "A. Fenwick",
              "3 Weir Lane, Aldmouth",
              "555-0150",
              "Fernhill Floors",
              "555-0177",
              "June 2",
              {"Side door."},
              {"Pine treads, sound."}};
  job.carpets.push_back({});
  Carpet& carpet = job.carpets.back();
  carpet.id = "main";
  carpet.name = "Heather loop";
  carpet.dye_lot = "7";
  job.strip.stock_length = inches(48);
  Flight flight;
  flight.name = "main";
  flight.carpet = "main";
  for (int n = 1; n <= 5; ++n) {
    Step step;
    step.number = n;
    step.landing_edge = n == 5;
    flight.steps.push_back(step);
  }
  job.stairs.push_back({"Back stair", {flight}, {}, ""});
  plan.problems.push_back({Severity::warning, "/stairs/0/flights/0",
                           "risers 1/2\" apart once the carpet lies", "floors built up like the treads"});

  const Length w = inches(38), l = inches(21, 1, 2), edge = inches(15);
  plan.pieces.push_back(piece("A-05", 5, "landing edge", w, edge));
  for (int n = 4; n >= 1; --n)
    plan.pieces.push_back(piece("A-0" + std::to_string(n), n, "box step", w, l));

  RollLayout roll;
  roll.stock = "roll 12' 0\"";
  roll.width = kFoot * 12;
  roll.selvage = inches(0, 1, 2);
  roll.available = kFoot * 100;
  const Length at = roll.selvage;
  roll.placements = {{"A-04", at, {}, w, l},
                     {"A-03", at + w, {}, w, l},
                     {"A-02", at + w * 2, {}, w, l},
                     {"A-01", at, l, w, l},
                     {"A-05", at + w, l, w, edge}};
  roll.length_used = l * 2;
  roll.length_to_buy = kFoot * 4;
  roll.knife_order = {{Kind::cross_cut, l, {}, roll.width, "row 1"},
                      {Kind::rip, at, {}, l, "selvage"},
                      {Kind::rip, at + w, {}, l, "A-04"},
                      {Kind::rip, at + w * 2, {}, l, "A-03"},
                      {Kind::rip, at + w * 3, {}, l, "A-02"},
                      {Kind::cross_cut, l * 2, {}, roll.width, "row 2"},
                      {Kind::rip, at, l, l * 2, "selvage"},
                      {Kind::rip, at + w, l, l * 2, "A-01"},
                      {Kind::rip, at + w * 2, l, l * 2, "A-05, to be trimmed"},
                      {Kind::trim, l + edge, at + w, at + w * 2, "A-05"}};
  roll.offcuts = {{at + w * 2, l, roll.width - at * 2 - w * 2, l},
                  {at + w * 3, {}, roll.width - at * 2 - w * 3, l},
                  {at + w, l + edge, w, l - edge},
                  {at, l * 2, roll.width - at * 2, kFoot * 4 - l * 2}};
  Layout layout;
  layout.carpet = "main";
  layout.rolls = {roll};
  layout.offers = {{kFoot * 12, l * 2, kFoot * 4, 4.46, true, ""},
                   {kFoot * 15, l * 2, kFoot * 4, 5.57, true, ""},
                   {kFoot * 3, {}, {}, 0, false, "A-01 is 38\" wide, and 35\" can be used"}};
  layout.lower_bound = l * 2;
  layout.bound_name = "area, next sum of piece lengths";
  layout.proved_least = true;
  layout.whole_rows = l * 2;
  layout.length_without_pattern = l * 2;
  plan.layouts = {layout};

  plan.takeoff.lines = {
      {"Carpet, 'Heather loop'", "4' 0\" of 12' 0\" roll", "Five pieces.", 4, "ft of roll", true},
      {"Hot-melt", "3' of bead", "Not counted: say how long a bead one stick gives.", 0, "", false}};
  plan.takeoff.strip = {
      {{inches(36)}, inches(12)}, {{inches(36)}, inches(12)}, {{inches(24), inches(24)}, {}}};
  plan.takeoff.strip_lower_bound = 2;
  plan.takeoff.pad_cuts = {{1, "main", inches(36), inches(11)}, {2, "main", inches(36), inches(11)}};
  plan.takeoff.pad_roll_length = inches(22);

  Quote& quote = plan.quote;
  quote.currency = "$";
  quote.lines = {{"Heather loop", "5.333", "sq yd", {3150}, {16800}, true, true},
                 {"Fitting, a step", "5", "steps", {1100}, {5500}, false, false}};
  quote.subtotal = {22300};
  quote.uplift_name = "Markup 20 % on materials";
  quote.uplift = {3360};
  quote.tax_name = "Tax 6.25 %";
  quote.tax = {1260};
  quote.total = {26920};
  quote.deposit_name = "Deposit 30 %";
  quote.deposit = {8076};
  quote.balance = {18844};
  quote.net_against_ordered = "Ordered: 5.33 sq yd. The pieces alone measure 2.60 sq yd.";
  quote.scope = {"New strip, cushion and carpet on five steps."};
  quote.exclusions = {"Repairs of treads."};
  quote.offcuts = "Offcuts stay with the customer.";
  return plan;
}

Plan rows_plan(const std::vector<std::vector<Length>>& rows, Length row_length, LengthUnit unit,
               PaperSize paper) {
  Plan plan;
  plan.job.unit = unit;
  plan.job.paper = paper;
  plan.job.stairs.push_back({"stair", {{}}, {}, ""});
  RollLayout roll;
  roll.stock = "roll";
  roll.width = kFoot * 12;
  Length v;
  int number = 0;
  for (const auto& row : rows) {
    roll.knife_order.push_back({Kind::cross_cut, v + row_length, {}, roll.width, "row"});
    Length u;
    for (const Length width : row) {
      const std::string id = "A-" + std::to_string(++number);
      plan.pieces.push_back(piece(id, number, "box step", width, row_length));
      roll.placements.push_back({id, u, v, width, row_length});
      u += width;
      roll.knife_order.push_back({Kind::rip, u, v, v + row_length, id});
    }
    if (u < roll.width) roll.offcuts.push_back({u, v, roll.width - u, row_length});
    v += row_length;
  }
  roll.length_used = roll.length_to_buy = v;
  Layout layout;
  layout.carpet = "main";
  layout.rolls = {roll};
  plan.layouts = {layout};
  return plan;
}

} // namespace treadfold::by_hand
