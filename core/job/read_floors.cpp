// Floors and landings: a rectangle, four sides with diagonals as the tape read them, or corners by offsets.

#include "job/read_parts.h"

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr LengthRange kSide{inches(3), kFoot * 60};
constexpr LengthRange kDiagonal{inches(3), kFoot * 90};

std::vector<PlanPoint> rectangle(Length width, Length length) {
  const double w = width.mm(), l = length.mm();
  return {{0, 0}, {w, 0}, {w, l}, {0, l}};
}

/// In one of the three ways; none if the readings make no floor.
std::vector<PlanPoint> read_outline(ObjectReader& o) {
  Context& context = o.context();
  const auto width = o.length_if("width", kSide), length = o.length_if("length", kSide);
  if (o.has("corners")) {
    for (const auto* key : {"width", "length", "right", "back", "left", "diagonal_from_front_left",
                            "diagonal_from_front_right", "tolerance"}) {
      o.find(key);
      if (o.has(key))
        context.findings.error(o.at(key), fmt::format("'{}' beside corners", key), "front and corners alone");
    }
    return read_floor_corners(o);
  }
  if (!o.has("width") && !o.has("length")) {
    const auto solved = read_quad(o, kSide, kDiagonal, "all four sides, or width and length");
    if (!solved) return {};
    return {solved->corners.begin(), solved->corners.end()};
  }
  for (const auto key : kQuadKeys) {
    o.find(key);
    if (o.has(key))
      context.findings.error(o.at(key), fmt::format("'{}' beside width and length", key),
                             "either width and length, or four sides and diagonals");
  }
  o.need("width", "the width, beside the length");
  o.need("length", "the length, beside the width");
  if (!width || !length) return {};
  return rectangle(*width, *length);
}

Floor read_floor(Context& context, const Entry& entry, const std::vector<std::string>& carpet_ids) {
  ObjectReader o(context, *entry.node, entry.where);
  Floor f;
  f.where = entry.where;
  f.name = o.name("name");
  f.carpet = read_carpet_id(o, carpet_ids);
  f.fill_pieces = o.integer_or("fill_pieces", 1, 12, 1);
  if (!o.is_object()) return f;
  f.corners = read_outline(o);
  f.openings = read_floor_openings(o, f.corners);
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
