#include "cover/folded_point.h"

namespace treadfold {

FoldedPoint fold_point(const std::vector<PlacedFace>& placed, const std::vector<int>& faces, FlatPoint p) {
  constexpr double kOn_mm = 1e-6;
  FoldedPoint best;
  for (const int index : faces) {
    const auto& candidate = placed[static_cast<std::size_t>(index)];
    const double outside = distance_outside(candidate.face->outline, p);
    if (outside < best.outside) best = {&candidate, candidate.at(p), outside};
    if (outside < kOn_mm) break;
  }
  return best;
}

FlatPath walk(const FlatPath& path, int count) {
  FlatPath points{path.front()};
  const double step = length_mm(path) / count;
  double walked = 0;
  for (std::size_t i = 1; i < path.size(); ++i) {
    const double d = distance_mm(path[i - 1], path[i]);
    while (static_cast<int>(points.size()) < count &&
           walked + d >= step * static_cast<double>(points.size())) {
      const double t = (step * static_cast<double>(points.size()) - walked) / d;
      points.push_back(
          {path[i - 1].u + t * (path[i].u - path[i - 1].u), path[i - 1].v + t * (path[i].v - path[i - 1].v)});
    }
    walked += d;
  }
  points.push_back(path.back());
  return points;
}

} // namespace treadfold
