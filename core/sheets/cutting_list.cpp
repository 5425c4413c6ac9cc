#include "sheets/page.h"
#include "sheets/sheet_kinds.h"
#include "units/chance.h"

#include <fmt/format.h>

#include <algorithm>

namespace treadfold {

namespace {

struct Place {
  const RollLayout* roll = nullptr;
  const Placement* at = nullptr;
};

Place place_of(const Plan& plan, const std::string& piece) {
  for (const Layout& layout : plan.layouts)
    for (const RollLayout& roll : layout.rolls)
      for (const Placement& p : roll.placements)
        if (p.piece == piece) return {&roll, &p};
  return {};
}

/// "5", "14 to 12"; of a floor its name.
std::string steps_of(const Reader& reader, const Piece& piece) {
  if (piece.steps.empty()) return piece.flight;
  const std::string first = std::to_string(piece.steps.front());
  return piece.steps.size() == 1 ? first : reader.say("{} to {}", first, piece.steps.back());
}

/// For a table whose head names the unit: metric numbers stand without it.
std::string number(Length x, LengthUnit unit, bool feet = false) {
  const std::string text = show_length(x, unit, feet);
  return unit == LengthUnit::inch ? text : text.substr(0, text.find(' '));
}

std::string size(Length width, Length length, LengthUnit unit) {
  return number(width, unit) + " × " + number(length, unit);
}

/// How sure the cut is, of one stair, and of which piece least if that is worth a look.
std::string how_sure(const StairCertainty& stair, const Job& job) {
  const Reader reader = job.reader();
  const auto show = [&](Length x) { return show_length(x, reader); };
  const auto chance = [&](double of) { return reader.said(show_chance(of)); };
  const auto& t = job.tolerances;
  std::string text = reader.say(
      "How sure, {}: with a tape good to {}, a knife to {} and steps not measured to {}, the chance that any "
      "piece comes up short is {}.",
      stair.stair, show(t.tape), show(t.knife), show(t.spread), chance(stair.chance));
  const auto least_sure = std::max_element(stair.pieces.begin(), stair.pieces.end(),
                                           [](const auto& a, const auto& b) { return a.chance < b.chance; });
  if (stair.chance >= kShortChance)
    text += " " + reader.say("{} is the likeliest, {}.", least_sure->piece, chance(least_sure->chance));
  return text + " " +
         reader.say("{} across and {} along over the net size would do for less than {}.",
                    show(stair.least_across), show(stair.least_along), chance(kShortChance));
}

/// Of a piece coming up short, for the table; "" if it was not judged.
std::string chance_of(const Plan& plan, const std::string& id) {
  for (const auto& stair : plan.certainty)
    for (const auto& piece : stair.pieces)
      if (piece.piece == id) return plan.job.reader().said(show_chance(piece.chance));
  return "";
}

} // namespace

Sheet cutting_list(const Plan& plan) {
  const LengthUnit unit = plan.job.unit;
  const Reader reader = plan.job.reader();
  const std::string in = unit == LengthUnit::inch         ? " (in)"
                         : unit == LengthUnit::millimetre ? " (mm)"
                                                          : " (cm)";
  Sheet sheet{"cutting-list", reader.say("Cutting list"), {}, {}};
  sheet.table.header = {
      reader.say("piece"),           reader.say("goods"),          reader.say("flight"),
      reader.say("steps"),           reader.say("kind"),           reader.say("net width") + in,
      reader.say("net length") + in, reader.say("trim left") + in, reader.say("trim right") + in,
      reader.say("trim back") + in,  reader.say("trim foot") + in, reader.say("cut width") + in,
      reader.say("cut length") + in, reader.say("from"),           reader.say("across") + in,
      reader.say("along") + in,      reader.say("proof"),          reader.say("chance short")};
  Flow flow(plan.job.paper);
  const std::string sizes = unit == LengthUnit::inch         ? reader.say("Sizes are width × length")
                            : unit == LengthUnit::millimetre ? reader.say("Sizes are width × length in mm")
                                                             : reader.say("Sizes are width × length in cm");
  flow.paragraph(reader.say(
      "{}, length along the pile. Cut size = net size + trim, rounded up; the trims stand on each piece's "
      "sheet. Across is taken from the roll's left "
      "edge as seen from the pile, along from its end. Pile one way: the arrow on each piece's back points "
      "down the stair.",
      sizes));
  for (const auto& stair : plan.certainty)
    if (!stair.pieces.empty()) flow.paragraph(how_sure(stair, plan.job));

  // One table a flight or floor, in the plan's order.
  for (std::size_t i = 0; i < plan.pieces.size();) {
    const Piece& first = plan.pieces[i].piece;
    Table table{{reader.say("Piece"), reader.say("Steps"), reader.say("Kind"), reader.say("Net size"),
                 reader.say("Cut size"), reader.say("Across"), reader.say("Along"), reader.say("From")},
                {}};
    std::size_t end = i;
    bool all_sound = true;
    for (; end < plan.pieces.size(); ++end) {
      const auto& [piece, steps, proof] = plan.pieces[end];
      if (piece.stair_index != first.stair_index || piece.flight_index != first.flight_index ||
          piece.floor_index != first.floor_index)
        break;
      all_sound = all_sound && proof.passed;
      const Place place = place_of(plan, piece.id);
      std::vector<std::string> where{"", "", reader.say("no roll")}, numbers(3);
      if (place.roll) {
        const auto stock = reader.said(place.roll->stock);
        where = {number(place.at->u, unit, true), number(place.at->v, unit, true), stock};
        numbers = {stock, print_length(place.at->u, unit), print_length(place.at->v, unit)};
      }
      const std::string cut_size = proof.passed ? size(piece.cut_width, piece.cut_length, unit)
                                                : reader.say("DO NOT CUT: {}", reader.said(proof.reason));
      table.rows.push_back({piece.id, steps_of(reader, piece), reader.said(piece.kind),
                            size(piece.net_width, piece.net_length, unit), cut_size, where[0], where[1],
                            where[2]});
      sheet.table.rows.push_back(
          {piece.id, piece.carpet, piece.flight, steps_of(reader, piece), reader.said(piece.kind),
           print_length(piece.net_width, unit), print_length(piece.net_length, unit),
           print_length(piece.trim_left, unit), print_length(piece.trim_right, unit),
           print_length(piece.trim_back, unit), print_length(piece.trim_foot, unit),
           print_length(piece.cut_width, unit), print_length(piece.cut_length, unit), numbers[0], numbers[1],
           numbers[2],
           proof.passed ? reader.say("passed") : reader.say("failed: {}", reader.said(proof.reason)),
           chance_of(plan, piece.id)});
    }
    const Stair& stair = plan.job.stairs[static_cast<std::size_t>(first.stair_index)];
    flow.heading(stair.name.empty() ? first.flight : stair.name + ", " + first.flight);
    const Column right{Anchor::right}, big{Anchor::left, false, true, kCutType}, words{Anchor::left, true};
    const Column cut_size{Anchor::left, !all_sound, true, kCutType};
    flow.table(table, {{big, {}, words, words, cut_size, right, right, words}, 3.3, true});
    i = end;
  }
  sheet.pages = flow.finish();
  return sheet;
}

} // namespace treadfold
