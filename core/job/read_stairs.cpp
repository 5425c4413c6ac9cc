// Stairs and flights: a flight's usual step, and what differs by step number.

#include "job/read_parts.h"
#include "measure/step_front.h"

#include <algorithm>
#include <fmt/format.h>
#include <set>

namespace treadfold {

namespace {

constexpr int kMostRisers = 400, kMostStepsOfJob = 2000;
constexpr Length kZero{};
constexpr LengthRange kRise{inches(1), inches(15)};
constexpr Length kMostFall = inches(2); // of a tread out of level, from end to end
constexpr LengthRange kGoing{inches(3), inches(60)};
constexpr LengthRange kWidth{inches(6), inches(144)};
constexpr LengthRange kProjection{kZero, inches(4)};
constexpr LengthRange kThickness{inches(0, 1, 4), inches(4)};
constexpr LengthRange kBevel{inches(0, 1, 16), inches(3)};
constexpr LengthRange kOverhang{inches(0, 1, 4), inches(6)}; // of an open end: less cannot be wrapped
constexpr LengthRange kReturn{kZero, inches(6)};
constexpr LengthRange kLandingEdge{inches(3), inches(60)}; // more than any nosing's bend takes

enum class Profile { square, half_round, bevelled };

/// What a job says about a step, as far as it does.
struct Saying {
  std::optional<Length> rise, rise_right, going, width;
  std::optional<Length> projection, thickness, arris_radius, bevel;
  std::optional<Profile> profile;
  std::optional<Side> left, right;
  bool tells_tread = false; // in place of going and width
  std::optional<TapedTread> tread;
  std::optional<std::vector<UprightRow>> balusters, newels;
};

std::optional<Side> read_side(ObjectReader& part, std::string_view key, bool must) {
  constexpr std::string_view kExpected =
      "'wall', 'skirt' or {'open': {'overhang': a length, 'return': a length}}";
  Context& context = part.context();
  const Node* node = must ? part.need(key, kExpected) : part.find(key);
  if (!node) return {};
  if (node->text == "wall" && node->kind == Node::Kind::string) return Side{};
  if (node->text == "skirt" && node->kind == Node::Kind::string) return Side{SideKind::skirt, {}, {}};
  if (node->kind != Node::Kind::object) {
    context.findings.error(part.at(key), shown(*node), std::string(kExpected));
    return {};
  }
  ObjectReader o(context, *node, part.at(key));
  const Node* open = o.need("open", "{'overhang': a length, 'return': a length}");
  if (!open) return {};
  ObjectReader end(context, *open, o.at("open"));
  const auto overhang = end.length("overhang", kOverhang), past = end.length("return", kReturn);
  if (!overhang || !past) return {};
  return Side{SideKind::open, *overhang, *past};
}

void read_nosing(ObjectReader& part, bool must, Saying& says) {
  Context& context = part.context();
  const Node* node =
      must ? part.need("nosing", "an object with projection, thickness and profile") : part.find("nosing");
  if (!node) return;
  ObjectReader o(context, *node, part.at("nosing"));
  using Words = std::initializer_list<ObjectReader::Choice<Profile>>;
  const Words profiles = {
      {"square", Profile::square}, {"half-round", Profile::half_round}, {"bevelled", Profile::bevelled}};
  const auto take = [&](std::string_view key, LengthRange range) {
    return must ? o.length(key, range) : o.length_if(key, range);
  };
  says.projection = take("projection", kProjection);
  says.thickness = take("thickness", kThickness);
  says.profile = must ? o.choice("profile", profiles) : o.choice_if("profile", profiles);
  says.arris_radius = o.length_if("arris_radius", {kZero, kThickness.most});
  says.bevel = o.length_if("bevel", kBevel);
  if (says.profile == Profile::half_round && o.has("arris_radius"))
    context.findings.error(o.at("arris_radius"), "an arris radius on a half-round nosing",
                           "none: its radius is half the thickness");
  if (says.profile == Profile::bevelled && o.has("arris_radius"))
    context.findings.error(o.at("arris_radius"), "an arris radius on a bevelled nosing",
                           "none: its edges are taken as sharp");
  if (says.profile && says.profile != Profile::bevelled && o.has("bevel"))
    context.findings.error(o.at("bevel"), "a bevel on another profile", "the profile 'bevelled', or none");
  if (says.profile == Profile::bevelled && !o.has("bevel"))
    context.findings.error(o.at("bevel"), "nothing", "how high and how deep the bevel at 45° is");
  if (must && says.profile == Profile::square && !o.has("arris_radius"))
    context.findings.error(o.at("arris_radius"), "nothing", "the radius of the arris, '0' if it is sharp");
}

/// A tread from the tape, or going and width.
void read_plan(ObjectReader& part, bool must, Saying& says) {
  says.tells_tread = part.has("tread");
  says.tread = read_tread(part);
  must = must && !says.tells_tread;
  says.going = must ? part.length("going", kGoing) : part.length_if("going", kGoing);
  says.width = must ? part.length("width", kWidth) : part.length_if("width", kWidth);
  for (const auto key : {"going", "width"})
    if (says.tells_tread && part.has(key))
      part.context().findings.error(part.at(key), fmt::format("'{}' beside a tread", key),
                                    "either a tread, or going and width");
}

Saying read_saying(ObjectReader& part, bool must) {
  Saying says;
  const auto take = [&](std::string_view key, LengthRange range) {
    return must ? part.length(key, range) : part.length_if(key, range);
  };
  says.rise = take("rise", kRise);
  says.rise_right = part.length_if("rise_right", kRise);
  read_plan(part, must, says);
  read_nosing(part, must, says);
  says.left = read_side(part, "left", must);
  says.right = read_side(part, "right", must);
  says.balusters = read_uprights(part, "balusters");
  says.newels = read_uprights(part, "newels");
  return says;
}

/// `over` where it says something, else `usual`. A tread takes the place of going and width, and they of it.
Saying merged(const Saying& usual, const Saying& over) {
  Saying says = usual;
  const auto take = [](auto& to, const auto& from) {
    if (from) to = from;
  };
  if (over.tells_tread || over.going || over.width) {
    says.tells_tread = over.tells_tread;
    says.tread = over.tread;
    if (over.tells_tread) says.going = says.width = std::nullopt;
  }
  if (over.rise) says.rise_right = std::nullopt; // else it would be of another rise
  take(says.rise, over.rise);
  take(says.rise_right, over.rise_right);
  take(says.going, over.going);
  take(says.width, over.width);
  take(says.projection, over.projection);
  take(says.thickness, over.thickness);
  take(says.arris_radius, over.arris_radius);
  take(says.bevel, over.bevel);
  take(says.profile, over.profile);
  take(says.left, over.left);
  take(says.right, over.right);
  take(says.balusters, over.balusters);
  take(says.newels, over.newels);
  return says;
}

void set_uprights(Step& step, const Saying& says) {
  step.uprights.clear();
  for (const auto* rows : {&says.balusters, &says.newels})
    if (*rows)
      for (const auto& row : **rows)
        for (auto& upright : stand(step, row))
          step.uprights.push_back(std::move(upright));
}

/// The step that `says` makes, or nothing if it leaves something open or contradicts itself. `where`: the
/// object that said it, or the exception to it; `own`: what that very object says.
std::optional<Step> make_step(const Saying& says, const Saying& own, const std::string& where,
                              Context& context) {
  bool good = says.rise && (says.tread || (says.going && says.width)) && says.projection && says.thickness &&
              says.profile && says.left && says.right;
  const auto refuse = [&](bool at_key, std::string_view key, std::string found, std::string expected) {
    std::string place = where;
    if (at_key)
      for (std::size_t from = 0; from < key.size();) { // "nosing/thickness" is two levels
        const auto to = std::min(key.find('/', from), key.size());
        place = pointer_to(place, key.substr(from, to - from));
        from = to + 1;
      }
    context.findings.error(std::move(place), std::move(found), std::move(expected));
    good = false;
  };
  const auto show = [&](Length x) { return show_length(x, context.unit); };
  const auto lower = says.rise_right ? std::min(says.rise, says.rise_right) : says.rise;
  if (says.rise && says.thickness && *lower <= *says.thickness + inches(2))
    refuse(own.rise.has_value(), "rise", fmt::format("a rise of {}", show(*lower)),
           fmt::format("more than the tread's thickness and 2 in, {}", show(*says.thickness + inches(2))));
  if (says.rise && says.rise_right)
    if (const Length fall = *says.rise_right - *says.rise; std::max(fall, -fall) > kMostFall)
      refuse(own.rise_right.has_value(), "rise_right",
             fmt::format("a rise of {} at the right", show(*says.rise_right)),
             fmt::format("within {} of the rise at the left, {}", show(kMostFall), show(*says.rise)));
  if (says.profile == Profile::half_round && own.arris_radius && !own.profile)
    refuse(true, "nosing/arris_radius", "an arris radius on a half-round nosing",
           "none: its radius is half the thickness");
  if (says.profile == Profile::bevelled && own.arris_radius && !own.profile)
    refuse(true, "nosing/arris_radius", "an arris radius on a bevelled nosing",
           "none: its edges are taken as sharp");
  if (says.profile && says.profile != Profile::bevelled && own.bevel && !own.profile)
    refuse(true, "nosing/bevel", "a bevel on another profile", "the profile 'bevelled', or none");
  if (says.profile == Profile::square) {
    if (!says.arris_radius)
      good = false; // said where the profile was read, or else below
    else if (says.thickness && *says.arris_radius * 2 > *says.thickness)
      refuse(own.arris_radius.has_value(), "nosing/arris_radius",
             fmt::format("an arris radius of {}", show(*says.arris_radius)),
             fmt::format("no more than half the thickness, {}", show(Length{says.thickness->ticks / 2})));
  }
  if (says.profile == Profile::bevelled) {
    if (!says.bevel)
      good = false; // said where the profile was read
    else if (says.thickness && *says.bevel + inches(0, 1, 8) > *says.thickness)
      refuse(own.bevel.has_value(), "nosing/bevel", fmt::format("a bevel of {}", show(*says.bevel)),
             fmt::format("1/8 in less than the thickness, {}, or smaller", show(*says.thickness)));
  }
  if (!good) return {};
  Step step;
  step.rise = *says.rise;
  if (says.rise_right) step.fall_right = *says.rise_right - *says.rise;
  step.nosing.projection = *says.projection;
  step.nosing.thickness = *says.thickness;
  if (says.profile == Profile::bevelled)
    step.nosing.bevel = *says.bevel;
  else
    step.nosing.radius =
        says.profile == Profile::half_round ? Length{says.thickness->ticks / 2} : *says.arris_radius;
  step.left = *says.left;
  step.right = *says.right;
  step.where = where;
  if (says.tread) {
    const auto problem = set_taped_tread(step, *says.tread, context.unit);
    if (problem) return refuse(own.tells_tread, "tread", problem->found, problem->expected), std::nullopt;
  } else {
    step.going = *says.going;
    step.width = *says.width;
  }
  set_uprights(step, says);
  return step;
}

/// The topmost step, from the usual one, has no tread, only the landing's edge; balusters and newels of a
/// usual tread are not meant for it.
void make_landing_edge(Step& step, Length depth, const Saying& own) {
  step.going = depth;
  step.left_side.clear();
  step.right_side.clear();
  set_uprights(step, own);
}

struct StepRange {
  int first = 0, last = 0;
};

std::optional<StepRange> parse_range(std::string_view key) {
  const auto number = [](std::string_view text) -> int {
    if (text.empty() || text.size() > 6 || text[0] == '0') return 0;
    int value = 0;
    for (const char c : text) {
      if (c < '0' || c > '9') return 0;
      value = value * 10 + (c - '0');
    }
    return value;
  };
  const auto dash = key.find('-');
  StepRange r{number(key.substr(0, dash)), dash == std::string_view::npos ? 0 : number(key.substr(dash + 1))};
  if (dash == std::string_view::npos) r.last = r.first;
  if (r.first < 1 || r.last < r.first) return {};
  return r;
}

/// What an exception that reaches the topmost step may not say.
void refuse_depth(ObjectReader& part, int risers) {
  for (const auto* key : {"going", "tread"})
    if (part.has(key))
      part.context().findings.error(part.at(key), fmt::format("a {} of step {}, the top one", key, risers),
                                    "none there: landing_edge tells its depth");
}

/// Exceptions by step number, applied to `steps` (empty if the usual step or the count is not known). Gives
/// back the first step's starter, if it has one.
std::optional<Starter> read_exceptions(ObjectReader& part, const Saying& usual, std::optional<int> risers,
                                       Length landing_edge, std::vector<std::optional<Step>>& steps) {
  std::optional<Starter> starter;
  const Node* node = part.find("steps");
  if (!node) return {};
  Context& context = part.context();
  const std::string where = part.at("steps");
  if (node->kind != Node::Kind::object) {
    context.findings.error(where, shown(*node),
                           "an object of step numbers, such as {'3': {'rise': '7 3/8'}}");
    return {};
  }
  std::vector<const std::string*> taken(risers ? static_cast<std::size_t>(*risers) + 1 : 0, nullptr);
  for (std::size_t i = 0; i < node->keys.size(); ++i) {
    const std::string& key = node->keys[i];
    const std::string place = pointer_to(where, key);
    ObjectReader o(context, node->items[i], place);
    Saying own = read_saying(o, false);
    auto curved = read_starter(o);
    const auto range = parse_range(key);
    if (o.has("starter") && range && range->last > 1)
      context.findings.error(o.at("starter"), fmt::format("a curved front of step {}", in_quotes(key)),
                             "only the first step of a flight has one");
    else if (curved)
      starter = std::move(curved);
    if (!range || (risers && range->last > *risers)) {
      context.findings.error(place, fmt::format("the step {}", in_quotes(key)),
                             risers ? fmt::format("a step from 1 to {}, as '3' or '5-7'", *risers)
                                    : "a step's number, as '3' or '5-7'");
      continue;
    }
    if (risers && range->last == *risers) {
      refuse_depth(o, *risers);
      if (range->first == *risers && own.width) own.going = landing_edge;
    }
    if (usual.tells_tread && own.going.has_value() != own.width.has_value())
      o.need(own.going ? "width" : "going", "going and width, in place of the flight's usual tread");
    const Saying says = merged(usual, own);
    if (own.profile == Profile::square && !says.arris_radius)
      context.findings.error(pointer_to(pointer_to(place, "nosing"), "arris_radius"), "nothing",
                             "the radius of the arris, '0' if it is sharp");
    const auto step = make_step(says, own, place, context);
    if (!risers) continue;
    for (int n = range->first; n <= range->last; ++n) {
      const std::string*& other = taken[static_cast<std::size_t>(n)];
      if (other) {
        context.findings.error(place,
                               fmt::format("step {} in both {} and {}", n, in_quotes(*other), in_quotes(key)),
                               "each step in one exception");
        break;
      }
      other = &key;
      auto& slot = steps[static_cast<std::size_t>(n) - 1];
      slot = step;
      if (slot && n == *risers) make_landing_edge(*slot, landing_edge, own);
    }
  }
  return starter;
}

/// A limit, or {"at_most": …}: the layout chooses up to it.
void read_join(ObjectReader& o, Flight& f) {
  constexpr int kMostJoined = 6;
  const Node* node = o.find("join");
  if (!node) return;
  if (node->kind == Node::Kind::number) {
    f.join = o.integer_or("join", 1, kMostJoined, 1);
  } else if (node->kind == Node::Kind::object) {
    ObjectReader best(o.context(), *node, o.at("join"));
    f.join_at_most = best.integer("at_most", 1, kMostJoined);
    f.join = f.join_at_most.value_or(1);
  } else {
    o.context().findings.error(
        o.at("join"), shown(*node),
        fmt::format("a whole number from 1 to {}, alone or as 'at_most'", kMostJoined));
  }
}

Flight read_flight(Context& context, const Entry& entry, const std::vector<std::string>& carpet_ids) {
  ObjectReader o(context, *entry.node, entry.where);
  Flight f;
  f.where = entry.where;
  f.name = o.name("name");
  const auto risers = o.integer("risers", 1, kMostRisers);
  const Saying usual = read_saying(o, true);
  o.choice<int>("pile", {{"down", 0}});
  f.style =
      o.choice<CoverStyle>("cover", {{"waterfall", CoverStyle::waterfall}, {"wrapped", CoverStyle::wrapped}})
          .value_or(CoverStyle::waterfall);
  read_join(o, f);
  f.carpet = read_carpet_id(o, carpet_ids);
  const Length landing_edge = o.length_or("landing_edge", kLandingEdge,
                                          context.unit == LengthUnit::inch ? inches(4) : millimetres(100));
  f.arrival = read_arrival(o);
  const bool open_risers = o.boolean_or("open_risers", false);
  f.total_rise = o.length_if("total_rise", {inches(1), kFoot * 500});
  f.treads_counted = o.integer_if("treads_counted", 0, kMostRisers);

  auto step = make_step(usual, usual, entry.where, context);
  std::vector<std::optional<Step>> steps(risers ? static_cast<std::size_t>(*risers) : 0, step);
  if (risers && steps.back()) make_landing_edge(*steps.back(), landing_edge, {});
  const auto starter = read_exceptions(o, usual, risers, landing_edge, steps);
  const bool all = std::all_of(steps.begin(), steps.end(), [](const auto& s) { return s.has_value(); });
  for (std::size_t i = 0; all && i < steps.size(); ++i) {
    f.steps.push_back(*steps[i]);
    f.steps.back().number = static_cast<int>(i) + 1;
    f.steps.back().landing_edge = i + 1 == steps.size();
    f.steps.back().open_riser = open_risers && i + 1 < steps.size();
  }
  if (starter)
    for (auto& problem : set_front(f.steps.front(), *starter))
      context.findings.add(std::move(problem));
  for (auto& problem : check_uprights(f, context.unit))
    context.findings.add(std::move(problem));
  f.runner = read_runner(o, f);
  return f;
}

} // namespace

std::string read_carpet_id(ObjectReader& part, const std::vector<std::string>& carpet_ids) {
  std::string id = part.name("carpet");
  if (id.empty() || std::find(carpet_ids.begin(), carpet_ids.end(), id) != carpet_ids.end()) return id;
  const auto near = nearest_word(id, carpet_ids);
  std::string expected = "the id of a carpet in this job";
  if (!near.empty())
    expected = fmt::format("'{}'", near);
  else if (!carpet_ids.empty() && carpet_ids.size() <= 8)
    expected = ObjectReader::one_of({carpet_ids.begin(), carpet_ids.end()});
  part.context().findings.error(part.at("carpet"), in_quotes(id), expected);
  return id;
}

std::vector<Stair> read_stairs(ObjectReader& root, const std::vector<Carpet>& carpets) {
  Context& context = root.context();
  std::vector<std::string> carpet_ids;
  for (const auto& c : carpets)
    if (!c.id.empty()) carpet_ids.push_back(c.id);

  // Pieces, groups and sheets are known by these names, so they are told apart over the whole job.
  std::set<std::string> stair_names, part_names;
  const auto once = [&](std::set<std::string>& names, const std::string& name, const std::string& where,
                        std::string_view expected) {
    if (!name.empty() && !names.insert(name).second)
      context.findings.error(pointer_to(where, "name"), in_quotes(name), std::string(expected));
  };
  std::vector<Stair> stairs;
  std::size_t steps = 0;
  for (const auto& entry : root.list("stairs", 1, 50)) {
    ObjectReader o(context, *entry.node, entry.where);
    Stair s;
    s.where = entry.where;
    s.name = o.name("name");
    once(stair_names, s.name, entry.where, "a name that no other stair has");
    for (const auto& flight : o.list("flights", 1, 50)) {
      s.flights.push_back(read_flight(context, flight, carpet_ids));
      check_runner_goods(context, s.flights.back(), carpets);
      once(part_names, s.flights.back().name, flight.where,
           "a name that no other flight or floor of the job has");
      steps += s.flights.back().steps.size();
    }
    s.floors = read_floors(o, carpet_ids);
    check_arrivals(context, s);
    for (const auto& floor : s.floors)
      once(part_names, floor.name, floor.where, "a name that no other flight or floor of the job has");
    stairs.push_back(std::move(s));
  }
  if (steps > kMostStepsOfJob)
    context.findings.error(root.at("stairs"), fmt::format("{} steps in all", steps),
                           fmt::format("at most {} in one job", kMostStepsOfJob));
  return stairs;
}

} // namespace treadfold
