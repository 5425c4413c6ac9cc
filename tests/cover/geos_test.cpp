// Flat pieces against GEOS, a geometry library that the product does not use: outlines are simple, faces lie
// inside their piece, do not overlap, and fill it.
#include "steps.h"

#include <memory>

#define GEOS_USE_ONLY_R_API
#include <geos_c.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

class Geos {
public:
  using Shape = std::shared_ptr<GEOSGeometry>;
  Geos() : handle_(GEOS_init_r()) {}
  ~Geos() { GEOS_finish_r(handle_); }
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;

  Shape polygon(const FlatPath& path) {
    const auto n = static_cast<unsigned>(path.size());
    auto* sequence = GEOSCoordSeq_create_r(handle_, n + 1, 2);
    for (unsigned i = 0; i <= n; ++i)
      GEOSCoordSeq_setXY_r(handle_, sequence, i, path[i % n].u, path[i % n].v);
    return own(GEOSGeom_createPolygon_r(handle_, GEOSGeom_createLinearRing_r(handle_, sequence), nullptr, 0));
  }
  bool valid(const Shape& s) { return GEOSisValid_r(handle_, s.get()) == 1; }
  double area(const Shape& s) {
    double value = 0;
    GEOSArea_r(handle_, s.get(), &value);
    return value;
  }
  Shape intersection(const Shape& a, const Shape& b) {
    return own(GEOSIntersection_r(handle_, a.get(), b.get()));
  }
  Shape difference(const Shape& a, const Shape& b) {
    return own(GEOSDifference_r(handle_, a.get(), b.get()));
  }
  Shape unite(const Shape& a, const Shape& b) { return own(GEOSUnion_r(handle_, a.get(), b.get())); }
  Shape grown(const Shape& s, double by) { return own(GEOSBuffer_r(handle_, s.get(), by, 8)); }

private:
  Shape own(GEOSGeometry* g) {
    return {g, [this](GEOSGeometry* p) { GEOSGeom_destroy_r(handle_, p); }};
  }
  GEOSContextHandle_t handle_;
};

} // namespace

RC_GTEST_PROP(FlatPieceByGeos, OutlineIsSimpleAndFacesFillItWithoutOverlap, ()) {
  Geos geos;
  std::vector<Step> steps;
  const int count = *rc::gen::inRange(1, 4);
  for (int i = 1; i <= count; ++i)
    steps.push_back(any_step(i));
  for (auto& step : steps) {
    if (&step != &steps.back()) step.landing_edge = false;
    step.left = steps[0].left;
    step.right = steps[0].right;
    step.width = steps[0].width;
  }
  const auto carpet = usual_carpet();
  const auto flight = flight_of(steps, *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped), count);
  for (const auto& piece :
       cover_flight(flight, {carpet, inches(0, 3, 8), usual_allowances(), LengthUnit::inch}, "A")) {
    const auto outline = geos.polygon(piece.outline);
    RC_ASSERT(geos.valid(outline));
    RC_ASSERT(std::abs(geos.area(outline) - area_mm2(piece.outline)) < 1e-3);
    Geos::Shape all;
    double sum = 0;
    for (const auto& face : piece.faces) {
      const auto shape = geos.polygon(face.outline);
      RC_LOG() << face.name << '\n';
      RC_ASSERT(geos.valid(shape));
      sum += geos.area(shape);
      all = all ? geos.unite(all, shape) : shape;
    }
    RC_ASSERT(std::abs(sum - geos.area(all)) < 0.5);                             // no overlap, mm²
    RC_ASSERT(geos.area(geos.difference(all, geos.grown(outline, 0.01))) < 0.5); // inside
    RC_ASSERT(std::abs(geos.area(all) - geos.area(outline)) < 0.5);              // filled
  }
}
