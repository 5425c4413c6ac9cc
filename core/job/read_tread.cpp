// Four-sided shapes from the tape, and treads of any shape.

#include "job/read_parts.h"

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr std::string_view kFromLeft = "diagonal_from_front_left", kFromRight = "diagonal_from_front_right";
constexpr LengthRange kSide{inches(0, 1, 4), kFoot * 14}, kDiagonal{inches(0, 1, 4), kFoot * 15};

/// A tread by offsets from its front: the two back corners, and a corner of the walls at a side.
std::optional<TapedTread> read_offsets(ObjectReader& o) {
  const auto front = o.length("front", kSide);
  for (const auto key : {"back_left", "back_right"})
    o.need(key, "where this corner lies: 'along' the front and 'off' it");
  const auto left = read_corner(o, "back_left"), right = read_corner(o, "back_right");
  const auto left_wall = read_corner(o, "left_corner"), right_wall = read_corner(o, "right_corner");
  for (const auto key : kQuadKeys) {
    if (key == "front") continue;
    o.find(key);
    if (o.has(key))
      o.context().findings.error(o.at(key), fmt::format("'{}' beside offsets", key),
                                 "either sides and diagonals, or corners by offsets");
  }
  if (!front || !left || !right) return {};
  TapedTread tread{{{0, 0}}, {{front->mm(), 0}}};
  if (left_wall) tread.left.push_back(*left_wall);
  if (right_wall) tread.right.push_back(*right_wall);
  tread.left.push_back(*left);
  tread.right.push_back(*right);
  return tread;
}

} // namespace

std::optional<QuadSolution> read_quad(ObjectReader& part, LengthRange side, LengthRange diagonal,
                                      std::string_view all_four) {
  Context& context = part.context();
  const auto read = [&](std::string_view key) {
    part.need(key, all_four);
    return part.length_if(key, side);
  };
  const auto front = read("front"), right = read("right"), back = read("back"), left = read("left");
  QuadReadings readings;
  readings.diagonal_ac = part.length_if(kFromLeft, diagonal);
  readings.diagonal_bd = part.length_if(kFromRight, diagonal);
  readings.tolerance = part.length_or("tolerance", {{}, inches(2)}, usual(context, inches(0, 1, 8)));
  if (!part.has(kFromLeft) && !part.has(kFromRight))
    part.need(kFromLeft, "one diagonal at least: four sides alone can lean either way");
  if (!front || !right || !back || !left || (!readings.diagonal_ac && !readings.diagonal_bd)) return {};
  readings.front = *front;
  readings.right = *right;
  readings.back = *back;
  readings.left = *left;
  readings.where = part.where();
  readings.unit = context.unit;
  QuadSolution solved = solve_quad(readings);
  for (const auto& problem : solved.problems)
    context.findings.add(problem);
  if (has_errors(solved.problems)) return {};
  return solved;
}

std::optional<TapedTread> read_tread(ObjectReader& part) {
  const Node* node = part.find("tread");
  if (!node) return {};
  ObjectReader o(part.context(), *node, part.at("tread"));
  if (!o.is_object()) return {};
  if (o.has("back_left") || o.has("back_right")) return read_offsets(o);
  const auto solved = read_quad(o, kSide, kDiagonal, "all four sides of the tread");
  if (!solved) return {};
  const auto& c = solved->corners;
  return TapedTread{{c[0], c[3]}, {c[1], c[2]}};
}

} // namespace treadfold
