#include "cut/pack/detail.h"

#include "cut/pack/convex_parts.h"

namespace treadfold::pack {
namespace {

/// Where an outline has more than `dents` they are filled, by at most `share` of its area.
struct Filling {
  int dents;
  double share;
};
constexpr Filling kFillings[] = {{3, 0.03}, {8, 0.01}, {24, 0.003}};

Shape shape_of(const Outline& filled, const Outline& outline) {
  const Extent e = extent(outline.ring);
  Shape shape{{}, {}, e.w(), e.l(), area_twice(outline)};
  for (const auto& part : convex_parts(filled)) {
    Ring turned;
    for (const auto& c : part)
      turned.push_back(Corner{} - c);
    shape.parts.push_back(from_lowest(part)), shape.turned.push_back(from_lowest(std::move(turned)));
  }
  return shape;
}

} // namespace

Detail::Detail(std::vector<Outline> outlines, std::int64_t& work)
    : outlines_(std::move(outlines)), work_(work) {}

std::unique_ptr<NoFits> Detail::finer() {
  while (next_ < std::size(kFillings)) {
    const Filling& f = kFillings[next_++];
    std::vector<Outline> filled;
    for (const auto& o : outlines_)
      filled.push_back(without_dents(o, f.dents, f.share));
    if (filled == filled_) continue;
    filled_ = std::move(filled);
    std::vector<Shape> shapes;
    for (std::size_t i = 0; i < outlines_.size(); ++i)
      shapes.push_back(shape_of(filled_[i], outlines_[i]));
    return std::make_unique<NoFits>(std::move(shapes), work_);
  }
  return nullptr;
}

} // namespace treadfold::pack
