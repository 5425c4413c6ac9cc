// What the files that write plan.json share. Lengths are millimetres: exact where they are ticks, rounded to
// 0.1 µm where they were computed, so that no platform's last bit shows.
#pragma once

#include "plan.h"

#include <nlohmann/json.hpp>

#include <cmath>

namespace treadfold::in_json {

using Json = nlohmann::ordered_json;

inline double rounded(double x) {
  const double r = std::round(x * 1e4) / 1e4;
  return r == 0 ? 0 : r; // no -0.0
}

/// An array of one entry an item.
template <class Items, class Entry>
Json list(const Items& items, Entry entry) {
  Json out = Json::array();
  for (const auto& item : items)
    out.push_back(entry(item));
  return out;
}

/// Text from the user is UTF-8 by the time it is here; were it not, a broken letter beats a broken program.
inline std::string text(const Json& json) {
  return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

inline Json mm(Length x) { return x.mm(); }

inline Json path(const FlatPath& points) {
  return list(points, [](FlatPoint p) { return Json::array({rounded(p.u), rounded(p.v)}); });
}

inline Json plan_path(const std::vector<PlanPoint>& points) {
  return list(points, [](PlanPoint p) { return Json::array({rounded(p.x), rounded(p.y)}); });
}

Json stair(const Stair& s);
Json fixings_of_flight(const FlightFixings& f, const TackStrip& strip);
Json covered(const Coverage& c);
Json piece(const PlannedPiece& planned);
Json certainty(const Plan& plan);
Json problem(const Problem& p);
Json roll(const RollLayout& r);
Json layout(const Layout& l);

Json takeoff(const Takeoff& t);
Json quote(const Quote& q);

/// To a plan that is otherwise whole.
void add_runners(const Plan& plan, Json& out);

} // namespace treadfold::in_json
