#include "cover/face_bands.h"

namespace treadfold {

namespace {

constexpr int kBands = 8;

/// The part of `path` at `limit` ahead of the hinge or beyond (sign 1), or short of it (sign -1).
FlatPath clipped(const FlatPath& path, const PlacedFace& face, double limit, double sign) {
  const auto beyond = [&](FlatPoint q) {
    return sign * ((q.u - face.hinge.u) * face.c.u + (q.v - face.hinge.v) * face.c.v - limit);
  };
  FlatPath kept;
  for (std::size_t i = 0; i < path.size(); ++i) {
    const auto a = path[i], b = path[(i + 1) % path.size()];
    const double da = beyond(a), db = beyond(b);
    if (da >= 0) kept.push_back(a);
    if ((da < 0) != (db < 0)) {
      const double t = da / (da - db);
      kept.push_back({a.u + t * (b.u - a.u), a.v + t * (b.v - a.v)});
    }
  }
  return kept;
}

} // namespace

std::vector<FlatPath> face_bands(const PlacedFace& face) {
  if (face.radius == 0) return {face.face->outline};
  std::vector<FlatPath> bands;
  for (int band = 0; band < kBands; ++band) {
    auto part = face.face->outline;
    if (band > 0) part = clipped(part, face, face.face->bend_width_mm * band / kBands, 1);
    if (band + 1 < kBands) part = clipped(part, face, face.face->bend_width_mm * (band + 1) / kBands, -1);
    if (part.size() >= 3) bands.push_back(std::move(part));
  }
  return bands;
}

} // namespace treadfold
