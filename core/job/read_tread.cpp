// Four-sided shapes from the tape, and treads of any shape.

#include "job/read_parts.h"

#include "measure/polygon.h"

#include <array>
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

/// A key of a five-sided tread, what it reads and between which corners.
struct FiveSided {
  std::string_view key;
  const char* name;
  int from, to;
};
constexpr std::size_t kSides = 5; // then diagonals
using FiveSidedKeys = std::array<FiveSided, 10>;

/// Front left, front right, the walls' corner, back right, back left.
constexpr FiveSidedKeys kCornerRight = {
    {{"front", "front", 0, 1},
     {"right_to_corner", "right side up to the walls' corner", 1, 2},
     {"right_from_corner", "right side behind the walls' corner", 2, 3},
     {"back", "back", 3, 4},
     {"left", "left side", 4, 0},
     {kFromLeft, "diagonal front left to back right", 0, 3},
     {kFromRight, "diagonal front right to back left", 1, 4},
     {"corner_from_front_left", "diagonal front left to the walls' corner", 0, 2},
     {"corner_from_back_left", "diagonal back left to the walls' corner", 2, 4},
     {"right_past_corner", "diagonal front right to back right", 1, 3}}};
/// Front left, front right, back right, back left, the walls' corner.
constexpr FiveSidedKeys kCornerLeft = {
    {{"front", "front", 0, 1},
     {"left_to_corner", "left side up to the walls' corner", 4, 0},
     {"left_from_corner", "left side behind the walls' corner", 3, 4},
     {"back", "back", 2, 3},
     {"right", "right side", 1, 2},
     {kFromLeft, "diagonal front left to back right", 0, 2},
     {kFromRight, "diagonal front right to back left", 1, 3},
     {"corner_from_front_right", "diagonal front right to the walls' corner", 1, 4},
     {"corner_from_back_right", "diagonal back right to the walls' corner", 2, 4},
     {"left_past_corner", "diagonal front left to back left", 0, 3}}};

bool says_corner(const ObjectReader& o, const FiveSidedKeys& keys) {
  return o.has(keys[1].key) || o.has(keys[2].key);
}

/// A tread in the corner of two walls, by its five sides and two to all of its diagonals.
std::optional<TapedTread> read_five_sided(ObjectReader& o, Hand wall) {
  Context& context = o.context();
  const bool right = wall == Hand::right;
  const auto& keys = right ? kCornerRight : kCornerLeft;
  PolygonReadings readings{5, {}, {right ? 2 : 4}, {}, o.where(), context.unit};
  std::size_t missing = 0, diagonals = 0;
  for (std::size_t i = 0; i < keys.size(); ++i) {
    if (i < kSides && !o.need(keys[i].key, "all five sides of a tread in a corner of walls")) ++missing;
    if (i >= kSides && o.find(keys[i].key)) ++diagonals;
    if (const auto length = o.length_if(keys[i].key, i < kSides ? kSide : kDiagonal))
      readings.spans.push_back({keys[i].from, keys[i].to, *length, keys[i].name});
    else if (o.has(keys[i].key))
      ++missing;
  }
  for (std::size_t i = kSides; i < keys.size() && diagonals < 2; ++i)
    if (!o.has(keys[i].key)) {
      o.need(keys[i].key, "two diagonals at least: five sides alone can lean either way");
      ++diagonals, ++missing;
    }
  readings.tolerance = o.length_or("tolerance", {{}, inches(2)}, usual(context, inches(0, 1, 8)));
  if (missing > 0) return {};
  auto solved = solve_polygon(readings);
  for (auto& problem : solved.problems)
    context.findings.add(std::move(problem));
  const auto& c = solved.corners;
  if (c.empty()) return {};
  if (right) return TapedTread{{c[0], c[4]}, {c[1], c[2], c[3]}};
  return TapedTread{{c[0], c[4], c[3]}, {c[1], c[2]}};
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
  if (says_corner(o, kCornerRight)) return read_five_sided(o, Hand::right);
  if (says_corner(o, kCornerLeft)) return read_five_sided(o, Hand::left);
  const auto solved = read_quad(o, kSide, kDiagonal, "all four sides of the tread");
  if (!solved) return {};
  const auto& c = solved->corners;
  return TapedTread{{c[0], c[3]}, {c[1], c[2]}};
}

} // namespace treadfold
