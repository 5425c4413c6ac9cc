#include "buy/takeoff.h"

#include "buy/cushion.h"
#include "buy/quantity.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

std::int64_t packages(std::int64_t need, std::int64_t per_package) {
  return (need + per_package - 1) / per_package;
}

/// "4 sticks", "1 stick", by a format for each.
std::string counted(std::int64_t n, const char* one, const char* many) {
  return fmt::format(fmt::runtime(n == 1 ? one : many), n);
}

TakeoffLine line(std::string item, std::string need, std::string rule, std::int64_t quantity,
                 std::string unit) {
  return {std::move(item), std::move(need), std::move(rule), static_cast<double>(quantity), std::move(unit)};
}

TakeoffLine uncounted(std::string item, std::string need, const std::string& missing) {
  return {std::move(item), std::move(need), fmt::format("Not counted: say {}.", missing), 0, "", false};
}

const Carpet* find_carpet(const TakeoffInput& in, const std::string& id) {
  for (const Carpet& c : in.carpets)
    if (c.id == id) return &c;
  return nullptr;
}

void add_carpet(const TakeoffInput& in, const Layout& layout, Takeoff& out) {
  const Carpet* carpet = find_carpet(in, layout.carpet);
  const std::string item = fmt::format("Carpet, '{}'", carpet ? carpet->name : layout.carpet);
  const bool inch = in.unit == LengthUnit::inch;
  for (const RollLayout& roll : layout.rolls) {
    const auto pieces = counted(static_cast<std::int64_t>(roll.placements.size()), "{} piece", "{} pieces");
    if (roll.remnant) {
      out.lines.push_back(line(fmt::format("{}, remnant '{}'", item, roll.stock),
                               fmt::format("{} of it, {} wide", show_run(roll.length_used, in.unit),
                                           show_run(roll.width, in.unit)),
                               fmt::format("Already there, so nothing is bought: {} from it.", pieces), 1,
                               "remnant on hand"));
      continue;
    }
    const auto used = show_run(roll.length_used, in.unit);
    std::string rule;
    if (roll.length_to_buy <= roll.length_used)
      rule = fmt::format("{}, pile one way, take {}.", pieces, used);
    else if (!carpet)
      rule = fmt::format("{}, pile one way, take {}, rounded up to how it is sold.", pieces, used);
    else if (roll.length_to_buy == carpet->least_order)
      rule = fmt::format("{}, pile one way, take {}; this is the least that can be ordered.", pieces, used);
    else
      rule = fmt::format("{}, pile one way, take {}, rounded up to how it is sold (by {}).", pieces, used,
                         show_run(carpet->sold_in, in.unit));
    auto l = line(item,
                  fmt::format("{} of {} roll = {}", show_run(roll.length_to_buy, in.unit),
                              show_run(roll.width, in.unit),
                              show_area(area(roll.width, roll.length_to_buy), in.unit)),
                  rule, 0, inch ? "ft of roll" : "m of roll");
    l.quantity = static_cast<double>(roll.length_to_buy.ticks) /
                 static_cast<double>(inch ? kFoot.ticks : kMillimetre.ticks * 1000);
    out.lines.push_back(std::move(l));
  }
}

void add_cushion(const TakeoffInput& in, Takeoff& out) {
  if (in.cushion.thickness <= Length{}) return;
  for (const auto& flight : in.fixings)
    for (const Fixings& f : flight.steps)
      if (f.pad.width > Length{} && f.pad.length > Length{})
        out.pad_cuts.push_back({f.step, flight.flight, f.pad.width, f.pad.length});
  const std::size_t on_steps = out.pad_cuts.size();
  for (const Floor& floor : in.floors) {
    if (floor.corners.empty()) continue;
    const auto [left, right] = std::minmax_element(floor.corners.begin(), floor.corners.end(),
                                                   [](PlanPoint a, PlanPoint b) { return a.x < b.x; });
    const auto [front, back] = std::minmax_element(floor.corners.begin(), floor.corners.end(),
                                                   [](PlanPoint a, PlanPoint b) { return a.y < b.y; });
    out.pad_cuts.push_back({0, floor.name, from_mm_up(right->x - left->x), from_mm_up(back->y - front->y)});
  }
  if (out.pad_cuts.empty()) return;
  std::vector<CushionCut> cuts;
  for (const PadCut& c : out.pad_cuts)
    cuts.push_back({c.width, c.length});
  const CushionPlan plan = cut_cushion(cuts, in.cushion.roll_width, in.cushion.roll_length);
  out.pad_roll_length = plan.length_used;
  out.pad_roll_width = in.cushion.roll_width;
  std::string what = counted(static_cast<std::int64_t>(on_steps), "{} step", "{} steps");
  if (const auto floors = out.pad_cuts.size() - on_steps; floors > 0)
    what =
        fmt::format("{} and {}", what, counted(static_cast<std::int64_t>(floors), "{} floor", "{} floors"));
  out.lines.push_back(
      line(fmt::format("Cushion, '{}'", in.cushion.name),
           fmt::format("{} of {} roll = {} for {}", show_run(plan.length_used, in.unit),
                       show_run(in.cushion.roll_width, in.unit),
                       show_area(area(in.cushion.roll_width, plan.length_used), in.unit), what),
           fmt::format("Pieces laid side by side in whole rows, no row over a roll's end; a roll is {} long.",
                       show_run(in.cushion.roll_length, in.unit)),
           plan.rolls, plan.rolls == 1 ? "roll" : "rolls"));
}

void add_strip(const TakeoffInput& in, Takeoff& out) {
  std::vector<Length> cuts;
  Length sum;
  const auto add = [&](Length x) {
    if (x > Length{}) cuts.push_back(x), sum += x;
  };
  for (const auto& flight : in.fixings)
    for (const Fixings& f : flight.steps)
      for (const StripPiece& s : f.strips)
        add(s.length());
  const auto add_sides = [&](std::string of, const std::vector<PlanPoint>& ring, std::size_t first) {
    FloorStrip strip{std::move(of), {}};
    for (std::size_t i = first; i < ring.size(); ++i) {
      const PlanPoint a = ring[i], b = ring[(i + 1) % ring.size()];
      strip.lengths.push_back(from_mm_up(std::sqrt((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y))));
      add(strip.lengths.back());
    }
    if (!strip.lengths.empty()) out.floor_strips.push_back(std::move(strip));
  };
  for (const Floor& floor : in.floors) {
    add_sides(floor.name, floor.corners, 1);
    for (const auto& opening : floor.openings)
      add_sides(fmt::format("{}, {}", floor.name, opening.name), opening.corners, 0);
  }
  if (cuts.empty()) return;
  StripPlan plan = cut_strip(cuts, in.strip.stock_length);
  const auto pieces = static_cast<std::int64_t>(plan.stock.size());
  std::int64_t cut = 0; // as the plan cuts: a strip longer than the stock is several
  for (const StripStock& stock : plan.stock)
    cut += static_cast<std::int64_t>(stock.cuts.size());
  out.strip = std::move(plan.stock);
  out.strip_lower_bound = plan.lower_bound;
  const int per_case = std::max(1, in.strip.pieces_per_case);
  out.lines.push_back(line(
      fmt::format("Tack strip, {} wide", show_length(in.strip.width, in.unit)),
      fmt::format("{} of {}: {} in {}", counted(pieces, "{} stock length", "{} stock lengths"),
                  show_run(in.strip.stock_length, in.unit), show_run(sum, in.unit),
                  counted(cut, "{} cut", "{} cuts")),
      pieces == plan.lower_bound
          ? "Every strip on the step and floor lists cut from stock lengths with least waste; no plan needs "
            "fewer."
          : fmt::format(
                "Every strip on the step and floor lists cut from stock lengths with least waste; no plan "
                "needs fewer than {}.",
                plan.lower_bound),
      packages(pieces, per_case),
      fmt::format("{} of {}", packages(pieces, per_case) == 1 ? "case" : "cases", per_case)));
}

/// The sum over all steps of one length of their fixings.
Length sum_of(const TakeoffInput& in, Length Fixings::*member) {
  Length sum;
  for (const auto& flight : in.fixings)
    for (const Fixings& f : flight.steps)
      sum += f.*member;
  return sum;
}

void add_hot_melt(const TakeoffInput& in, Takeoff& out) {
  const Length bead = sum_of(in, &Fixings::hot_melt);
  if (bead <= Length{}) return;
  const std::string need = fmt::format("{} of bead", show_run(bead, in.unit));
  const auto& per_stick = in.supplies.hot_melt_per_stick;
  if (!per_stick) {
    out.lines.push_back(
        uncounted("Hot-melt", need, "how long a bead one stick gives (supplies, hot_melt_per_stick)"));
    return;
  }
  const std::int64_t sticks = packages(bead.ticks, per_stick->ticks);
  const auto a_stick = show_run(*per_stick, in.unit);
  if (!in.supplies.sticks_per_box) {
    out.lines.push_back(line("Hot-melt", need,
                             fmt::format("Hems, under-lips and back corners, {} of bead a stick.", a_stick),
                             sticks, sticks == 1 ? "stick" : "sticks"));
    return;
  }
  const std::int64_t boxes = packages(sticks, *in.supplies.sticks_per_box);
  out.lines.push_back(
      line("Hot-melt",
           fmt::format("{} of bead, {}", show_run(bead, in.unit), counted(sticks, "{} stick", "{} sticks")),
           fmt::format("Hems, under-lips and back corners, {} of bead a stick, {} sticks a box.", a_stick,
                       *in.supplies.sticks_per_box),
           boxes, boxes == 1 ? "box" : "boxes"));
}

void add_staples(const TakeoffInput& in, Takeoff& out) {
  std::int64_t staples = 0;
  for (const auto& flight : in.fixings)
    for (const Fixings& f : flight.steps)
      staples += packages(f.staple_run.ticks, in.supplies.staple_spacing.ticks);
  if (staples == 0) return;
  const std::string need = fmt::format("{} over {}", counted(staples, "{} staple", "{} staples"),
                                       show_run(sum_of(in, &Fixings::staple_run), in.unit));
  const std::string spacing = show_length(in.supplies.staple_spacing, in.unit);
  if (!in.supplies.staples_per_box) {
    out.lines.push_back(uncounted("Staples", fmt::format("{}, one every {}", need, spacing),
                                  "how many are in a box (supplies, staples_per_box)"));
    return;
  }
  const std::int64_t boxes = packages(staples, *in.supplies.staples_per_box);
  out.lines.push_back(line("Staples", need,
                           fmt::format("One every {} of each step's stapled edges, {} a box.", spacing,
                                       *in.supplies.staples_per_box),
                           boxes, boxes == 1 ? "box" : "boxes"));
}

struct ByLength {
  const char *item, *of, *package, *packages, *figure;
};

void add_by_length(const TakeoffInput& in, const ByLength& what, Length need,
                   const std::optional<Length>& per_package, Takeoff& out) {
  if (need <= Length{}) return;
  const std::string needed = fmt::format("{} of {}", show_run(need, in.unit), what.of);
  if (!per_package) {
    out.lines.push_back(
        uncounted(what.item, needed,
                  fmt::format("how much {} one {} does (supplies, {})", what.of, what.package, what.figure)));
    return;
  }
  const std::int64_t n = packages(need.ticks, per_package->ticks);
  out.lines.push_back(
      line(what.item, needed,
           fmt::format("Every {}, {} a {}.", what.of, show_run(*per_package, in.unit), what.package), n,
           n == 1 ? what.package : what.packages));
}

/// A line for each kind of binding.
void add_binding(const TakeoffInput& in, Takeoff& out) {
  std::vector<std::pair<std::string, Length>> kinds;
  for (const auto& flight : in.fixings) {
    if (flight.binding_length <= Length{}) continue;
    out.binding += flight.binding_length;
    const auto same =
        std::find_if(kinds.begin(), kinds.end(), [&](const auto& k) { return k.first == flight.binding; });
    if (same != kinds.end())
      same->second += flight.binding_length;
    else
      kinds.emplace_back(flight.binding, flight.binding_length);
  }
  for (const auto& [name, length] : kinds) {
    const std::string item = name.empty() ? "Binding" : fmt::format("Binding, '{}'", name);
    add_by_length(in, {item.c_str(), "runner's edge", "roll", "rolls", "binding_per_roll"}, length,
                  in.supplies.binding_per_roll, out);
  }
}

} // namespace

Takeoff take_off(const TakeoffInput& input) {
  Takeoff out;
  for (const Layout& layout : input.layouts)
    add_carpet(input, layout, out);
  add_cushion(input, out);
  add_strip(input, out);
  add_hot_melt(input, out);
  add_by_length(input, {"Latex", "cut edge", "bottle", "bottles", "latex_per_bottle"},
                sum_of(input, &Fixings::latex) + input.fraying_floors + input.floor_seams * 2,
                input.supplies.latex_per_bottle, out);
  add_staples(input, out);
  add_by_length(input, {"Seaming tape", "taped seam", "roll", "rolls", "tape_per_roll"},
                sum_of(input, &Fixings::seam_tape) + input.floor_seams, input.supplies.tape_per_roll, out);
  add_binding(input, out);
  return out;
}

} // namespace treadfold
