// Floors and landings: a rectangle, or four sides with diagonals as the tape read them.

#include "job/read_parts.h"
#include "measure/quad.h"

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr LengthRange kSide{inches(3), kFoot * 60};
constexpr LengthRange kDiagonal{inches(3), kFoot * 90};
constexpr std::string_view kFromLeft = "diagonal_from_front_left", kFromRight = "diagonal_from_front_right";

std::vector<PlanPoint> rectangle(Length width, Length length) {
  const double w = width.mm(), l = length.mm();
  return {{0, 0}, {w, 0}, {w, l}, {0, l}};
}

Floor read_floor(Context& context, const Entry& entry, const std::vector<std::string>& carpet_ids) {
  ObjectReader o(context, *entry.node, entry.where);
  Floor f;
  f.where = entry.where;
  f.name = o.name("name");
  f.carpet = read_carpet_id(o, carpet_ids);

  const auto width = o.length_if("width", kSide), length = o.length_if("length", kSide);
  const auto front = o.length_if("front", kSide), right = o.length_if("right", kSide),
             back = o.length_if("back", kSide), left = o.length_if("left", kSide);
  QuadReadings readings;
  readings.diagonal_ac = o.length_if(kFromLeft, kDiagonal);
  readings.diagonal_bd = o.length_if(kFromRight, kDiagonal);
  readings.tolerance = o.length_or("tolerance", {{}, inches(2)}, usual(context, inches(0, 1, 8)));
  if (!o.is_object()) return f;

  const bool rectangular = o.has("width") || o.has("length");
  const auto missing = [&](std::string_view key, std::string_view expected) {
    if (!o.has(key)) context.findings.error(o.at(key), "nothing", std::string(expected));
  };
  if (rectangular) {
    for (const auto key : {"front", "right", "back", "left", "tolerance"})
      if (o.has(key))
        context.findings.error(o.at(key), fmt::format("'{}' beside width and length", key),
                               "either width and length, or four sides and diagonals");
    for (const auto key : {kFromLeft, kFromRight})
      if (o.has(key))
        context.findings.error(o.at(key), fmt::format("'{}' beside width and length", key),
                               "either width and length, or four sides and diagonals");
    missing("width", "the width, beside the length");
    missing("length", "the length, beside the width");
    if (width && length) f.corners = rectangle(*width, *length);
    return f;
  }
  for (const auto key : {"front", "right", "back", "left"})
    missing(key, "all four sides, or width and length");
  if (!o.has(kFromLeft) && !o.has(kFromRight))
    missing(kFromLeft, "one diagonal at least: four sides alone can lean either way");
  if (!front || !right || !back || !left || (!readings.diagonal_ac && !readings.diagonal_bd)) return f;
  readings.front = *front;
  readings.right = *right;
  readings.back = *back;
  readings.left = *left;
  readings.where = entry.where;
  readings.unit = context.unit;
  QuadSolution solved = solve_quad(readings);
  for (auto& problem : solved.problems)
    context.findings.add(std::move(problem));
  f.corners.assign(solved.corners.begin(), solved.corners.end());
  return f;
}

} // namespace

std::vector<Floor> read_floors(ObjectReader& stair, const std::vector<std::string>& carpet_ids) {
  std::vector<Floor> floors;
  for (const auto& entry : stair.list("floors", 0, 50))
    floors.push_back(read_floor(stair.context(), entry, carpet_ids));
  return floors;
}

} // namespace treadfold
