// Layouts seen by GEOS, a geometry library that the product does not use: areas, containment, disjointness.
#include "jobs.h"

#include <functional>
#include <geos_c.h>
#include <memory>

using namespace treadfold;

namespace {

class Geos {
public:
  Geos() : handle_(GEOS_init_r()) {}
  ~Geos() { GEOS_finish_r(handle_); }
  Geos(const Geos&) = delete;
  Geos& operator=(const Geos&) = delete;
  GEOSContextHandle_t get() const { return handle_; }

private:
  GEOSContextHandle_t handle_;
};

using Geometry = std::unique_ptr<GEOSGeometry, std::function<void(GEOSGeometry*)>>;

Geometry own(const Geos& geos, GEOSGeometry* g) {
  return {g, [&geos](GEOSGeometry* x) { GEOSGeom_destroy_r(geos.get(), x); }};
}

// Ticks as doubles are exact up to 2^53.
GEOSGeometry* rectangle(const Geos& geos, Length u, Length v, Length width, Length length) {
  const auto d = [](Length x) { return static_cast<double>(x.ticks); };
  return GEOSGeom_createRectangle_r(geos.get(), d(u), d(v), d(u + width), d(v + length));
}

double area(const Geos& geos, const GEOSGeometry* g) {
  double a = 0;
  EXPECT_EQ(GEOSArea_r(geos.get(), g, &a), 1);
  return a;
}

void check_by_geos(const std::vector<CutPiece>& pieces, const Layout& layout) {
  const Geos geos;
  double placed = 0, net = 0;
  for (const auto& p : pieces)
    net += static_cast<double>(p.width.ticks) * static_cast<double>(p.length.ticks);
  for (const auto& roll : layout.rolls) {
    const auto usable = own(geos, rectangle(geos, roll.selvage, {}, roll.width - roll.selvage * 2,
                                            roll.remnant ? roll.available : roll.length_to_buy));
    std::vector<GEOSGeometry*> parts;
    double sum = 0;
    for (const auto& p : roll.placements) {
      parts.push_back(rectangle(geos, p.u, p.v, p.width, p.length));
      EXPECT_EQ(GEOSCovers_r(geos.get(), usable.get(), parts.back()), 1) << p.piece;
      placed += area(geos, parts.back()), sum += area(geos, parts.back());
    }
    for (const auto& o : roll.offcuts) {
      parts.push_back(rectangle(geos, o.u, o.v, o.width, o.length));
      EXPECT_EQ(GEOSCovers_r(geos.get(), usable.get(), parts.back()), 1);
      sum += area(geos, parts.back());
    }
    for (std::size_t i = 0; i < parts.size(); ++i)
      for (std::size_t j = 0; j < i; ++j)
        EXPECT_EQ(GEOSRelatePattern_r(geos.get(), parts[i], parts[j], "T********"), 0) << i << ' ' << j;
    const auto all = own(geos, GEOSGeom_createCollection_r(geos.get(), GEOS_MULTIPOLYGON, parts.data(),
                                                           static_cast<unsigned>(parts.size())));
    const auto together = own(geos, GEOSUnaryUnion_r(geos.get(), all.get()));
    EXPECT_NEAR(area(geos, together.get()) / sum, 1.0, 1e-12);
    EXPECT_LE(sum, area(geos, usable.get()));
  }
  EXPECT_NEAR(placed / net, 1.0, 1e-12);
  EXPECT_NEAR(layout.net_area_m2, net * 125e-9 * 125e-9, 1e-9);
}

std::vector<CutPiece> mixed(int n) {
  std::vector<CutPiece> pieces;
  for (int i = 0; i < n; ++i)
    add(pieces, 1, inches(24 + (i * 37) % 41, (i * 7) % 16, 16), inches(17 + (i * 23) % 29, (i * 5) % 16, 16),
        i % 3 ? "flight" : "landing");
  return pieces;
}

} // namespace

TEST(LayoutsByGeos, PiecesAndOffcutsAreDisjointAndInside) {
  auto carpet = plain_carpet();
  carpet.selvage = inches(1, 1, 2);
  for (int n : {1, 2, 14, 40, 90})
    check_by_geos(mixed(n), good_layout(mixed(n), carpet));
}

TEST(LayoutsByGeos, MatchedPiecesAreDisjointAndInside) {
  auto carpet = plain_carpet();
  carpet.pattern = Pattern{inches(27), inches(18), inches(9)};
  auto pieces = mixed(40);
  for (auto& p : pieces)
    p.matched = true, p.match_group = p.group;
  check_by_geos(pieces, good_layout(pieces, carpet));
}

TEST(LayoutsByGeos, RemnantsToo) {
  auto carpet = plain_carpet();
  carpet.remnants = {{"left over", inches(130), inches(70), "", ""}};
  const auto pieces = mixed(12);
  const auto layout = good_layout(pieces, carpet);
  EXPECT_TRUE(layout.rolls[0].remnant);
  check_by_geos(pieces, layout);
}
