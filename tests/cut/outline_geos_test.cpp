// The checker of outlines against GEOS, a geometry library that the product does not use.
#include "outline_samples.h"

#include <functional>
#include <geos_c.h>
#include <gtest/gtest.h>
#include <memory>
#include <rapidcheck/gtest.h>

using namespace samples;

namespace {

using Handle = std::unique_ptr<GEOSContextHandle_HS, decltype(&GEOS_finish_r)>;
using Geometry = std::unique_ptr<GEOSGeometry, std::function<void(GEOSGeometry*)>>;

GEOSGeometry* ring(GEOSContextHandle_t geos, const Ring& r) {
  auto* points = GEOSCoordSeq_create_r(geos, static_cast<unsigned>(r.size()) + 1, 2);
  for (std::size_t i = 0; i <= r.size(); ++i) {
    const auto& c = r[i % r.size()];
    GEOSCoordSeq_setXY_r(geos, points, static_cast<unsigned>(i), static_cast<double>(c.u),
                         static_cast<double>(c.v));
  }
  return GEOSGeom_createLinearRing_r(geos, points);
}

Geometry polygon(const Handle& geos, const Outline& o) {
  std::vector<GEOSGeometry*> holes;
  for (const auto& h : o.holes)
    holes.push_back(ring(geos.get(), h));
  return {GEOSGeom_createPolygon_r(geos.get(), ring(geos.get(), o.ring), holes.data(),
                                   static_cast<unsigned>(holes.size())),
          [&geos](GEOSGeometry* g) { GEOSGeom_destroy_r(geos.get(), g); }};
}

} // namespace

RC_GTEST_PROP(OutlineCheck, AgreesWithGeos, ()) {
  const Handle geos(GEOS_init_r(), &GEOS_finish_r);
  const auto a = any_outline();
  const auto x = extent(a.ring);
  auto b = any_outline();
  const auto y = extent(b.ring);
  b = moved(b,
            {number(x.low.u - y.high.u, x.high.u - y.low.u), number(x.low.v - y.high.v, x.high.v - y.low.v)});
  const auto p = polygon(geos, a), q = polygon(geos, b);
  RC_ASSERT(GEOSisValid_r(geos.get(), p.get()) == 1);
  RC_ASSERT(GEOSisValid_r(geos.get(), q.get()) == 1);
  const bool meet = GEOSRelatePattern_r(geos.get(), p.get(), q.get(), "T********") == 1;
  RC_CLASSIFY(meet);
  RC_ASSERT(insides_meet(a, b) == meet);
  RC_ASSERT(insides_meet(b, a) == meet);
  double area = 0;
  RC_ASSERT(GEOSArea_r(geos.get(), p.get(), &area) == 1);
  RC_ASSERT(area * 2 == static_cast<double>(area_twice(a)));
}
