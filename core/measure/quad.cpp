#include "measure/quad.h"

#include "measure/polygon.h"

#include <algorithm>

namespace treadfold {
namespace {

/// The readings in their order: name, and the two corners that each joins.
constexpr std::array<const char*, 6> kNames = {"front",
                                               "right side",
                                               "back",
                                               "left side",
                                               "diagonal front left to back right",
                                               "diagonal front right to back left"};
constexpr std::array<std::array<int, 2>, 6> kEnds = {{{0, 1}, {1, 2}, {2, 3}, {3, 0}, {0, 2}, {1, 3}}};

} // namespace

QuadSolution solve_quad(const QuadReadings& readings) {
  QuadSolution out;
  const std::array<std::optional<Length>, 6> given = {readings.front,       readings.right,
                                                      readings.back,        readings.left,
                                                      readings.diagonal_ac, readings.diagonal_bd};
  if (!readings.diagonal_ac && !readings.diagonal_bd) {
    out.problems.push_back({Severity::error, readings.where, "four sides and no diagonal",
                            "one diagonal at least: four sides alone can lean either way"});
    return out;
  }
  PolygonReadings all{4, {}, {0, 1, 2, 3}, readings.tolerance, readings.where, readings.unit};
  std::vector<std::size_t> index;
  for (std::size_t i = 0; i < 6; ++i) {
    if (!given[i]) continue;
    index.push_back(i);
    all.spans.push_back({kEnds[i][0], kEnds[i][1], *given[i], kNames[i]});
  }
  auto solved = solve_polygon(all);
  out.problems = std::move(solved.problems);
  std::copy(solved.corners.begin(), solved.corners.end(), out.corners.begin());
  for (std::size_t i = 0; i < solved.residuals.size(); ++i)
    out.residuals[index[i]] = solved.residuals[i];
  if (solved.worst >= 0) out.worst = static_cast<int>(index[static_cast<std::size_t>(solved.worst)]);
  return out;
}

} // namespace treadfold
