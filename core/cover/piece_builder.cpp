#include "cover/piece_builder.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace treadfold {

namespace {

constexpr double kNoArea_mm2 = 1e-6;
constexpr double kNoWidth_mm = 1e-9;

double cross(FlatPoint a, FlatPoint b, FlatPoint p) {
  return (b.u - a.u) * (p.v - a.v) - (b.v - a.v) * (p.u - a.u);
}

/// Twice the outline's first moment about the hinge, so signed by the side on which most of it lies.
bool mostly_ahead(const FlatPath& outline, FlatPoint a, FlatPoint b) {
  double moment = 0, whole = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const auto& p = outline[i];
    const auto& q = outline[(i + 1) % outline.size()];
    const double twice = p.u * q.v - q.u * p.v;
    whole += twice;
    moment += twice * (cross(a, b, {0, 0}) + cross(a, b, p) + cross(a, b, q)) / 3;
  }
  return (whole < 0 ? -moment : moment) >= 0;
}

} // namespace

FlatPath SideFrame::at(const FlatPath& local) const {
  FlatPath path;
  path.reserve(local.size());
  for (const auto& p : local)
    path.push_back(at(p.u, p.v));
  return path;
}

Turn bend(double angle_rad, double width_mm) {
  if (width_mm < kNoWidth_mm) return crease(angle_rad);
  return {0, angle_rad, width_mm};
}

Turn crease(double angle_rad) { return {angle_rad, 0, 0}; }

void append(FlatPath& path, const FlatPath& more) { path.insert(path.end(), more.begin(), more.end()); }

FlatPath reversed(FlatPath path) {
  std::reverse(path.begin(), path.end());
  return path;
}

FlatPath without_repeats(FlatPath path) {
  const auto same = [](FlatPoint a, FlatPoint b) {
    return std::abs(a.u - b.u) < 1e-7 && std::abs(a.v - b.v) < 1e-7;
  };
  path.erase(std::unique(path.begin(), path.end(), same), path.end());
  if (path.size() > 1 && same(path.front(), path.back())) path.pop_back();
  return path;
}

int PieceBuilder::face(const std::string& name, int step, FlatPath outline, int parent, FlatPoint hinge_a,
                       FlatPoint hinge_b, Turn turn, bool hidden) {
  outline = without_repeats(std::move(outline));
  if (area_mm2(outline) < kNoArea_mm2) return -1;
  if (!mostly_ahead(outline, hinge_a, hinge_b)) std::swap(hinge_a, hinge_b);
  piece_.faces.push_back({name, step, std::move(outline), parent, hinge_a, hinge_b, turn.crease_rad,
                          turn.bend_rad, turn.bend_width_mm, hidden});
  return static_cast<int>(piece_.faces.size()) - 1;
}

void PieceBuilder::line(LineRole role, FlatPath points, const std::string& label, double angle_rad,
                        double radius_mm) {
  piece_.lines.push_back({role, std::move(points), label, angle_rad, radius_mm});
}

void PieceBuilder::seam(const std::string& name, FlatPath a, std::vector<int> faces_a, FlatPath b,
                        std::vector<int> faces_b) {
  for (auto* faces : {&faces_a, &faces_b})
    std::erase(*faces, -1);
  line(LineRole::seam, a, name);
  line(LineRole::seam, b, name);
  piece_.seams.push_back({name, std::move(a), std::move(b), std::move(faces_a), std::move(faces_b)});
}

} // namespace treadfold
