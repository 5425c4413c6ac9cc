// A flight's runner, and whether it fits.

#include "job/read_parts.h"
#include "measure/runner_band.h"
#include "measure/tread_plan.h"
#include "measure/uprights.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr Length kZero{};
constexpr Length kFall = inches(0, 1, 8);
constexpr LengthRange kWidth{inches(6), inches(144)};
constexpr LengthRange kExposed{kZero, inches(144)};
constexpr LengthRange kEdge{kZero, inches(3)};
constexpr LengthRange kShift{kZero, inches(60)};
constexpr LengthRange kLongest{inches(12), kFoot * 500};

std::string numbered(const Step& step) { return fmt::format("step {}", step.number); }

/// Says what is wrong with a runner, at its place in the job.
class Judge {
public:
  Judge(ObjectReader& o, const Runner& runner, const Flight& flight)
      : o_(o), runner_(runner), flight_(flight) {}

  void refuse(std::string_view key, std::string found, std::string expected) {
    o_.context().findings.error(o_.at(key), std::move(found), std::move(expected));
    good_ = false;
  }
  /// What a flight with a runner cannot have.
  void refuse_beside(std::string where, std::string found) {
    o_.context().findings.error(std::move(where), std::move(found), "none");
    good_ = false;
  }
  std::string show(Length x) const { return show_length(x, o_.context().unit); }
  bool good() const { return good_; }

  void edges() {
    if (o_.has("binding") && runner_.edges != RunnerEdges::bound)
      refuse("binding", "a binding", "none: these edges are not bound");
    if (o_.has("edge_takes") && runner_.edges == RunnerEdges::finished)
      refuse("edge_takes", show(runner_.edge_takes), "none: the goods' edges are finished");
    if (runner_.edges == RunnerEdges::turned && runner_.strip_stop < runner_.edge_takes)
      refuse("strip_stop", show(runner_.strip_stop),
             fmt::format("at least edge_takes, {}, so that the turned edge lies clear of the strip",
                         show(runner_.edge_takes)));
    if (runner_.strip_stop * 2 >= runner_.width)
      refuse("strip_stop", show(runner_.strip_stop), "less than half the runner's width");
    if (runner_.edges == RunnerEdges::cut)
      o_.context().findings.warn(o_.at("edges"), "edges left as cut",
                                 "bound, turned or finished ones: no raw edges on stairs (CRI 105, older "
                                 "edition, §17.2)");
  }

  void top_end() {
    const bool shifts = runner_.wear_shift > kZero;
    if (shifts && o_.has("top_end"))
      refuse("top_end", "a top end beside a wear shift", "one of the two: the shift is folded under there");
    if (!shifts && !o_.has("top_end"))
      refuse("top_end", "nothing",
             "'shows' if it lies on the bare landing, 'seamed' if carpet goes on there");
  }

  /// Where it lies once it is folded.
  void wear_shift() {
    const auto& top = flight_.steps.back();
    if (runner_.wear_shift > top.going)
      o_.context().findings.warn(
          o_.at("wear_shift"), fmt::format("{} to fold under", show(runner_.wear_shift)),
          fmt::format("at most the landing edge, {}, so that it lies flat behind the nosing",
                      show(top.going)));
  }

  /// On straight steps.
  void width_and_place(bool centred) {
    const auto narrowest = std::min_element(flight_.steps.begin(), flight_.steps.end(),
                                            [](const Step& a, const Step& b) { return a.width < b.width; });
    if (runner_.width > narrowest->width)
      return refuse("width", fmt::format("a runner {} wide", show(runner_.width)),
                    fmt::format("no wider than {}, {}", numbered(*narrowest), show(narrowest->width)));
    const auto room = narrowest_straight(flight_, runner_.width) - runner_.width;
    if (!centred && runner_.exposed_left > room)
      refuse("exposed_left", show(runner_.exposed_left),
             fmt::format("at most {}, so that the runner ends on the step", show(room)));
  }

  void winders() {
    const auto turning = std::find_if(flight_.steps.begin(), flight_.steps.end(),
                                      [&](const Step& s) { return turns(s, runner_.width); });
    if (turning == flight_.steps.end()) return;
    if (!o_.has("turn"))
      refuse("turn", fmt::format("nothing, and {} turns", numbered(*turning)),
             "'seam', for a piece a winder, or 'fold', for one strip folded in the crotches");
    if (runner_.edges == RunnerEdges::finished && runner_.turn == RunnerTurn::seam)
      refuse("edges", fmt::format("'finished', and {} turns", numbered(*turning)),
             "edges that are done once cut, since a winder's piece is cut at its sides, or the turn 'fold'");
    if (runner_.wear_shift > kZero)
      refuse("wear_shift", fmt::format("a wear shift on a flight whose {} turns", numbered(*turning)),
             "none: a runner fitted to winders cannot be moved down");
  }

  /// On the stair as it is: a foot out of level, and what stands on the treads.
  void obstacles() {
    for (const auto& step : flight_.steps) {
      const auto fall = Length{std::abs(step.fall_right.ticks * runner_.width.ticks / step.width.ticks)};
      if (fall > kFall)
        refuse("width",
               fmt::format("a runner over {}, whose foot falls {} in its width", numbered(step), show(fall)),
               fmt::format("no more than {}, which a crease takes up", show(kFall)));
    }
  }

  void every_step() {
    const auto bands = runner_steps(flight_);
    for (std::size_t i = 0; i < bands.size(); ++i) {
      const auto& step = flight_.steps[i];
      if (lies_on(step, bands[i])) {
        uprights(step, bands[i]);
        continue;
      }
      return refuse(
          "width",
          fmt::format("a runner {} wide, which does not fit {}", show(runner_.width), numbered(step)),
          step.rectangular() ? std::string("one that ends on the wood")
                             : fmt::format("one that leaves {} bare at each side of riser, nosing and back",
                                           show(kLeastBare)));
    }
  }

private:
  void uprights(const Step& step, const RunnerStep& band) {
    const auto& under = band.under.step;
    const auto left = side_line(under, Hand::left), right = side_line(under, Hand::right);
    for (const auto& upright : step.uprights) {
      bool on = false;
      for (const auto& p : footprint(upright)) {
        const double x = p.x - band.under.left.mm();
        on = on || (x > side_x(left, p.y) && x < side_x(right, p.y));
      }
      if (on)
        refuse("width", fmt::format("a runner under a {} of {}", upright.word, numbered(step)),
               "one that clears what stands on the treads");
    }
  }

  ObjectReader& o_;
  const Runner& runner_;
  const Flight& flight_;
  bool good_ = true;
};

void read_edges(ObjectReader& o, Runner& r) {
  const Context& context = o.context();
  r.edges = o.choice<RunnerEdges>("edges", {{"bound", RunnerEdges::bound},
                                            {"turned", RunnerEdges::turned},
                                            {"finished", RunnerEdges::finished},
                                            {"cut", RunnerEdges::cut}})
                .value_or(RunnerEdges::bound);
  if (o.has("binding")) r.binding = o.name("binding");
  // boulderlibrary.net: width + 2 1/2 in for turned sides.
  const bool turned = r.edges == RunnerEdges::turned;
  r.edge_takes = o.length_or("edge_takes", kEdge, turned ? usual(context, inches(1, 1, 4)) : kZero);
  // CRI 105, older edition, §17.2: strip and cushion 1 1/2 in shorter than the carpet's width.
  const auto stop = usual(context, inches(0, 3, 4));
  r.strip_stop = o.length_or("strip_stop", kEdge, turned ? std::max(stop, r.edge_takes) : stop);
}

} // namespace

std::optional<Runner> read_runner(ObjectReader& flight, const Flight& measured) {
  const Node* node = flight.find("runner");
  if (!node) return {};
  Context& context = flight.context();
  ObjectReader o(context, *node, flight.at("runner"));
  Runner r;
  r.where = o.where();
  const auto width = o.length("width", kWidth);
  const auto left = o.length_if("exposed_left", kExposed);
  read_edges(o, r);
  r.top = o.choice_if<RunnerTop>("top_end", {{"shows", RunnerTop::shows}, {"seamed", RunnerTop::seamed}})
              .value_or(RunnerTop::shows);
  r.turn = o.choice_if<RunnerTurn>("turn", {{"seam", RunnerTurn::seam}, {"fold", RunnerTurn::fold}})
               .value_or(RunnerTurn::seam);
  r.wear_shift = o.length_or("wear_shift", kShift, kZero);
  r.longest = o.length_if("longest", kLongest);
  if (flight.has("join"))
    context.findings.error(flight.at("join"), "a limit of joined steps beside a runner",
                           "none: a runner goes on from step to step, and 'longest' limits its pieces");
  if (!width || !context.unit_known || (o.has("exposed_left") && !left)) return {};
  r.width = *width;
  r.exposed_left = left.value_or(kZero);
  Judge judge(o, r, measured);
  for (const auto& [key, found] :
       {std::pair{"landing", "a floor that the flight arrives at, beside a runner"},
        {"open_risers", "open risers under a runner"}})
    if (flight.has(key) && flight.find(key)->text != "false") judge.refuse_beside(flight.at(key), found);
  for (const auto& step : measured.steps)
    if (step.starter) judge.refuse_beside(o.where(), "a runner over a curved starter");
  judge.edges();
  judge.top_end();
  if (measured.steps.empty()) return {};
  judge.width_and_place(!left);
  judge.obstacles();
  judge.winders();
  judge.wear_shift();
  if (!judge.good()) return {};
  if (!left) r.exposed_left = Length{(narrowest_straight(measured, r.width) - r.width).ticks / 2};
  auto covered = measured;
  covered.runner = r;
  if (folds_round(covered)) return r; // judged with its goods: cover/folded_course.h
  Judge last(o, r, covered);
  last.every_step();
  if (!last.good()) return {};
  return r;
}

void check_runner_goods(Context& context, const Flight& flight, const std::vector<Carpet>& carpets) {
  if (!flight.runner || flight.runner->edges != RunnerEdges::finished) return;
  const auto width = flight.runner->width;
  for (const auto& carpet : carpets) {
    if (carpet.id != flight.carpet) continue;
    const bool narrow = std::all_of(carpet.roll_widths.begin(), carpet.roll_widths.end(),
                                    [&](Length w) { return w == width; });
    if (!narrow || carpet.selvage > Length{})
      context.findings.error(flight.runner->where + "/edges",
                             fmt::format("'finished', and goods {} that do not come {} wide",
                                         in_quotes(carpet.id), show_length(width, context.unit)),
                             "goods whose only width is the runner's, without selvage");
  }
}

} // namespace treadfold
