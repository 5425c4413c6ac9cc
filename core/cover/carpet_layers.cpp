#include "cover/carpet_layers.h"

#include "cover/ray_hit.h"

#include <algorithm>
#include <cmath>

namespace treadfold {

namespace {

int cell(double mm) {
  constexpr double kCell_mm = 20;
  return static_cast<int>(std::floor(mm / kCell_mm));
}

bool hangs_on(const std::vector<Face>& faces, std::size_t face, std::size_t other) {
  int up = faces[face].parent;
  while (up > static_cast<int>(other)) // parents come first
    up = faces[static_cast<std::size_t>(up)].parent;
  return up == static_cast<int>(other);
}

std::set<std::pair<std::size_t, std::size_t>> pressing(const std::vector<Face>& faces) {
  std::map<std::pair<long long, long long>, std::vector<std::size_t>> corners; // to 1e-5 mm
  for (std::size_t f = 0; f < faces.size(); ++f)
    for (const auto& p : faces[f].outline)
      corners[{std::llround(p.u * 1e5), std::llround(p.v * 1e5)}].push_back(f);
  std::vector<std::set<std::size_t>> beside(faces.size());
  for (const auto& [corner, meeting] : corners)
    for (const auto f : meeting)
      beside[f].insert(meeting.begin(), meeting.end());
  std::set<std::pair<std::size_t, std::size_t>> pairs;
  for (std::size_t f = 0; f < faces.size(); ++f)
    for (const auto third : beside[f])
      for (const auto other : beside[third])
        if (f < other && !hangs_on(faces, other, f)) pairs.insert({f, other});
  return pairs;
}

} // namespace

CarpetLayers::CarpetLayers(const std::vector<Piece>& pieces,
                           const std::vector<std::vector<PlacedFace>>& placed, double reach)
    : placed_(placed) {
  for (const auto& piece : pieces)
    pressing_.push_back(pressing(piece.faces));
  for (std::size_t i = 0; i < placed.size(); ++i)
    for (std::size_t f = 0; f < placed[i].size(); ++f) {
      const auto &low = placed[i][f].low, &high = placed[i][f].high;
      for (int x = cell(low[0] - reach); x <= cell(high[0] + reach); ++x)
        for (int y = cell(low[1] - reach); y <= cell(high[1] + reach); ++y)
          cells_[{x, y}].push_back({i, f});
    }
}

CarpetLayers::Seen CarpetLayers::look(const BarePoint& point) const {
  const auto found = cells_.find({cell(point.at[0]), cell(point.at[1])});
  if (found == cells_.end()) return {};
  Seen seen;
  std::vector<FaceOf> met;
  for (const auto& here : found->second) {
    const auto& face = placed_[here.piece][here.face];
    const int times = times_met(face, point.at, point.out, point.nearest, point.farthest);
    if (times == 0) continue;
    const bool pressed = std::any_of(met.begin(), met.end(), [&](const auto& other) {
      return other.piece == here.piece && pressing_[here.piece].contains({other.face, here.face});
    });
    seen.layers += pressed ? times - 1 : times;
    seen.piece = here.piece;
    met.push_back(here);
  }
  return seen;
}

CarpetLayers::Seen CarpetLayers::at(BarePoint point) const {
  constexpr double kHairline_mm = 0.05;
  const auto at = point.at;
  for (const double beside : {0.0, kHairline_mm, -kHairline_mm}) {
    point.at = at + beside * point.along;
    if (const auto seen = look(point); seen.layers > 0) return seen;
  }
  return {};
}

} // namespace treadfold
