// Carpets, cushion, strip, allowances, tolerances and supplies.

#include "job/read_parts.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr Length kZero{};
constexpr LengthRange kRollWidth{kFoot, kFoot * 20};
constexpr LengthRange kRollLength{kFoot, kFoot * 500};
constexpr LengthRange kRepeat{inches(0, 1, 8), kFoot * 20};
constexpr LengthRange kAllowance{kZero, kFoot};

std::optional<Pattern> read_pattern(ObjectReader& carpet, bool& flows) {
  const Node* node = carpet.find("pattern");
  if (!node) return {};
  Context& context = carpet.context();
  ObjectReader o(context, *node, carpet.at("pattern"));
  const auto width = o.length("width", kRepeat), length = o.length("length", kRepeat);
  std::optional<Length> drop;
  const Node* match = o.find("match");
  const std::string where = o.at("match");
  const std::string expected = "'set', 'half-drop' or {'drop': a length}";
  if (match && match->kind == Node::Kind::object) {
    ObjectReader m(context, *match, where);
    drop = m.length("drop", {kZero, kRepeat.most});
    if (drop && length && *drop >= *length)
      context.findings.error(m.at("drop"), shown(*match->find("drop")),
                             "a drop less than the repeat's length");
  } else if (match && match->text == "set") {
    drop = kZero;
  } else if (match && match->text == "half-drop") {
    if (length) drop = Length{length->ticks / 2};
  } else if (o.is_object()) {
    context.findings.error(where, match ? shown(*match) : "nothing", expected);
  }
  flows = o.choice_if<bool>("motif", {{"nosings", false}, {"flows", true}}).value_or(false);
  if (!width || !length || !drop) return {};
  return Pattern{*width, *length, *drop};
}

std::vector<Remnant> read_remnants(ObjectReader& carpet) {
  std::vector<Remnant> remnants;
  for (const auto& entry : carpet.list("remnants", 0, 50)) {
    ObjectReader o(carpet.context(), *entry.node, entry.where);
    Remnant r;
    r.where = entry.where;
    r.name = o.name("name");
    r.width = o.length("width", {inches(3), kRollWidth.most}).value_or(kZero);
    r.length = o.length("length", {inches(3), kRollLength.most}).value_or(kZero);
    r.dye_lot = o.text_or("dye_lot");
    const bool known = std::any_of(remnants.begin(), remnants.end(),
                                   [&](const Remnant& other) { return other.name == r.name; });
    if (known && !r.name.empty())
      carpet.context().findings.error(o.at("name"), in_quotes(r.name), "a name that no other remnant has");
    remnants.push_back(std::move(r));
  }
  return remnants;
}

/// Tufted backings are stiff, two layers glued together; woven ones give (common practice, no source).
std::optional<Length> usual_fold_radius(const Context& context, Construction construction) {
  switch (construction) {
  case Construction::tufted:
    return usual(context, inches(0, 1, 8));
  case Construction::woven:
    return usual(context, inches(0, 1, 16));
  case Construction::unknown:
    break;
  }
  return {};
}

void read_handling(ObjectReader& o, Carpet& c) {
  c.construction = o.choice_if<Construction>(
                        "construction", {{"tufted", Construction::tufted}, {"woven", Construction::woven}})
                       .value_or(Construction::unknown);
  c.min_fold_radius = o.length_if("min_fold_radius", {kZero, inches(2)});
  c.fold_radius_told = c.min_fold_radius.has_value();
  if (!c.min_fold_radius) c.min_fold_radius = usual_fold_radius(o.context(), c.construction);
}

Carpet read_carpet(Context& context, const Entry& entry) {
  ObjectReader o(context, *entry.node, entry.where);
  Carpet c;
  c.where = entry.where;
  c.id = o.name("id");
  c.name = o.name("name");
  for (const auto& width : o.list("widths", 1, 20))
    if (const auto w = ObjectReader::read_length(context, *width.node, width.where, kRollWidth)) {
      if (std::find(c.roll_widths.begin(), c.roll_widths.end(), *w) != c.roll_widths.end())
        context.findings.error(width.where, shown(*width.node), "each width once");
      c.roll_widths.push_back(*w);
    }
  c.selvage = o.length_or("selvage", {kZero, inches(5)}, kZero);
  const auto roll_length = o.length("roll_length", kRollLength);
  c.roll_length = roll_length.value_or(kFoot);
  c.in_hand = o.length_if("longest_in_hand", kRollLength);
  c.sold_in = o.length("sold_in", {inches(0, 1, 4), kRollLength.most}).value_or(kFoot);
  c.least_order = o.length_or("least_order", {kZero, kRollLength.most}, kZero);
  for (const auto& [key, size] : {std::pair{"sold_in", c.sold_in}, {"least_order", c.least_order}})
    if (roll_length && o.has(key) && size > *roll_length)
      context.findings.error(o.at(key), shown(*o.find(key)), "no more than roll_length");
  const auto backing = o.length("backing", {inches(0, 1, 64), inches(0, 1, 2)});
  const auto thickness = o.length("thickness", {inches(0, 1, 64), inches(3)});
  if (backing && thickness && *backing > *thickness)
    context.findings.error(o.at("backing"), shown(*o.find("backing")), "no more than the whole thickness");
  c.backing = backing.value_or(kZero);
  c.thickness = thickness.value_or(kZero);
  read_handling(o, c);
  c.pattern = read_pattern(o, c.pattern_flows);
  c.directional = o.boolean_or("directional", true);
  c.dye_lot = o.text_or("dye_lot");
  c.remnants = read_remnants(o);
  c.laid = o.choice_if<Laid>(
                "laid", {{"straight", Laid::straight}, {"close", Laid::close}, {"outlines", Laid::outlines}})
               .value_or(Laid::straight);
  return c;
}

} // namespace

Length usual(const Context& context, Length x) {
  if (context.unit == LengthUnit::inch) return x;
  return millimetres(std::llround(x.mm()));
}

std::vector<Carpet> read_carpets(ObjectReader& root) {
  std::vector<Carpet> carpets;
  for (const auto& entry : root.list("carpets", 1, 50)) {
    Carpet c = read_carpet(root.context(), entry);
    const bool known =
        std::any_of(carpets.begin(), carpets.end(), [&](const Carpet& o) { return o.id == c.id; });
    if (known && !c.id.empty())
      root.context().findings.error(pointer_to(entry.where, "id"), in_quotes(c.id),
                                    "an id that no other carpet has");
    carpets.push_back(std::move(c));
  }
  return carpets;
}

Cushion read_cushion(ObjectReader& root) {
  Cushion c;
  c.where = root.at("cushion");
  const Node* node = root.need("cushion", "a cushion in { }, or 'none'");
  if (!node || (node->kind == Node::Kind::string && node->text == "none")) return c;
  if (node->kind != Node::Kind::object) {
    root.context().findings.error(c.where, shown(*node), "a cushion in { }, or 'none'");
    return c;
  }
  ObjectReader o(root.context(), *node, c.where);
  c.name = o.name("name");
  c.thickness = o.length("thickness", {inches(0, 1, 16), inches(1)}).value_or(kZero);
  c.roll_width = o.length("roll_width", kRollWidth).value_or(kFoot);
  c.roll_length = o.length("roll_length", kRollLength).value_or(kFoot);
  return c;
}

TackStrip read_strip(ObjectReader& root) {
  TackStrip s;
  s.where = root.at("strip");
  const Node* node = root.need("strip", "the tack strip in { }");
  if (!node) return s;
  ObjectReader o(root.context(), *node, s.where);
  // CRI 105 §11.1: at least 1 in wide and 1/4 in thick.
  s.width = o.length_or("width", {inches(0, 1, 2), inches(3)}, usual(root.context(), inches(1)));
  s.thickness =
      o.length_or("thickness", {inches(0, 1, 8), inches(0, 3, 4)}, usual(root.context(), inches(0, 1, 4)));
  s.stock_length = o.length("stock_length", {inches(12), kFoot * 20}).value_or(kFoot * 4);
  s.pieces_per_case = o.integer_or("pieces_per_case", 1, 1000, 100);
  s.end_angle_deg = o.integer_or("end_angle", 30, 90, 55);
  return s;
}

Allowances read_allowances(ObjectReader& root) {
  static const Node kSilent{.kind = Node::Kind::object};
  const Node* node = root.find("allowances");
  ObjectReader o(root.context(), node ? *node : kSilent, root.at("allowances"));
  const auto take = [&](std::string_view key, Length fallback, LengthRange range = kAllowance) {
    return o.length_or(key, range, usual(root.context(), fallback));
  };
  // Common practice, no source. CRI 105, older edition, §17.2 only bounds a stair's gully: slightly less than
  // two thicknesses of the carpet.
  Allowances a;
  a.side_trim = take("side_trim", inches(1));
  a.open_side_trim = take("open_side_trim", inches(0, 1, 2));
  a.tuck_back = take("tuck_back", inches(0, 3, 4));
  a.tuck_foot = take("tuck_foot", inches(0, 3, 4));
  a.gully = take("gully", inches(0, 1, 4), {kZero, inches(2)});
  a.hem = take("hem", inches(1, 1, 4));
  a.strip_stop = take("strip_stop", inches(1, 1, 2));
  a.crease = take("crease", inches(0, 1, 4), {kZero, inches(2)});
  a.relief = take("relief", inches(0, 1, 4), {kZero, inches(2)});
  a.floor_trim = take("floor_trim", inches(3));
  return a;
}

Tolerances read_tolerances(ObjectReader& root) {
  static const Node kSilent{.kind = Node::Kind::object};
  constexpr LengthRange kTolerance{kZero, inches(2)};
  const Node* node = root.find("tolerances");
  ObjectReader o(root.context(), node ? *node : kSilent, root.at("tolerances"));
  const auto take = [&](std::string_view key, Length fallback) {
    return o.length_or(key, kTolerance, usual(root.context(), fallback));
  };
  // Common practice, no source: a tape and a knife are said to be good to 1/16 to 1/8 in.
  Tolerances t;
  t.tape = take("tape", inches(0, 1, 16));
  t.knife = take("knife", inches(0, 1, 16));
  t.spread = take("spread", inches(0, 1, 8));
  return t;
}

Supplies read_supplies(ObjectReader& root) {
  Supplies s;
  s.staple_spacing = usual(root.context(), inches(3));
  const Node* node = root.find("supplies");
  if (!node) return s;
  constexpr LengthRange coverage{inches(1), kFoot * 2000};
  ObjectReader o(root.context(), *node, root.at("supplies"));
  s.hot_melt_per_stick = o.length_if("hot_melt_per_stick", coverage);
  s.sticks_per_box = o.integer_if("sticks_per_box", 1, 10000);
  s.latex_per_bottle = o.length_if("latex_per_bottle", coverage);
  s.staple_spacing = o.length_or("staple_spacing", {inches(0, 1, 2), kFoot}, s.staple_spacing);
  s.staples_per_box = o.integer_if("staples_per_box", 1, 100000);
  s.tape_per_roll = o.length_if("tape_per_roll", coverage);
  s.binding_per_roll = o.length_if("binding_per_roll", coverage);
  return s;
}

void check_allowances(const Job& job, Context& context) {
  if (!context.unit_known) return;
  const Allowances& a = job.allowances;
  std::optional<Length> narrowest, thinnest; // of steps with an open side
  for (const auto& stair : job.stairs)
    for (const auto& flight : stair.flights)
      for (const auto& step : flight.steps) {
        if (flight.runner || (step.left.closed() && step.right.closed())) continue;
        narrowest = std::min(narrowest.value_or(step.width), step.width);
        thinnest = std::min(thinnest.value_or(step.nosing.thickness), step.nosing.thickness);
      }
  if (!narrowest) return;
  const auto show = [&](Length x) { return show_length(x, context.unit); };
  if (a.hem * 2 > *narrowest)
    context.findings.error("/allowances/hem", show(a.hem),
                           fmt::format("no more than half the narrowest step with an open side, {}",
                                       show(Length{narrowest->ticks / 2})));
  if (a.strip_stop * 2 > *narrowest)
    context.findings.error("/allowances/strip_stop", show(a.strip_stop),
                           fmt::format("no more than half the narrowest step with an open side, {}",
                                       show(Length{narrowest->ticks / 2})));
  if (a.hem > a.strip_stop)
    context.findings.error("/allowances/hem", show(a.hem),
                           fmt::format("no more than strip_stop, {}, so that the hem lies clear of the strip",
                                       show(a.strip_stop)));
  if (a.relief * 2 > *thinnest + job.cushion.thickness)
    context.findings.error("/allowances/relief", show(a.relief),
                           fmt::format("no more than half of what the back corner closes, {}",
                                       show(Length{(thinnest->ticks + job.cushion.thickness.ticks) / 2})));
}

} // namespace treadfold
