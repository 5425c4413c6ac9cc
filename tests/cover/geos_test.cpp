// Flat pieces against GEOS, a geometry library that the product does not use: outlines are simple, faces lie
// inside their piece, do not overlap, and fill it.
#include "plan_steps.h"

#include <memory>
#include <stdexcept>

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
  Geos() : handle_(GEOS_init_r()) {
    GEOSContext_setErrorMessageHandler_r(
        handle_, [](const char* text, void* said) { *static_cast<std::string*>(said) = text; }, &said_);
  }
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
    return grown(own(GEOSIntersectionPrec_r(handle_, a.get(), b.get(), kGrid_mm)), 0); // without lines
  }
  Shape difference(const Shape& a, const Shape& b) {
    return own(GEOSDifferencePrec_r(handle_, a.get(), b.get(), kGrid_mm));
  }
  Shape unite(const Shape& a, const Shape& b) {
    return grown(own(GEOSUnionPrec_r(handle_, a.get(), b.get(), kGrid_mm)), 0);
  }
  /// As much as matters of the side of the line through `on` to which `inward` points.
  Shape half_plane(FlatPoint on, FlatPoint inward) {
    constexpr double kFar_mm = 1e4;
    const double k = kFar_mm / std::hypot(inward.u, inward.v);
    const FlatPoint in{k * inward.u, k * inward.v}, along{-in.v, in.u};
    return polygon({{on.u - along.u, on.v - along.v},
                    {on.u + along.u, on.v + along.v},
                    {on.u + along.u + in.u, on.v + along.v + in.v},
                    {on.u - along.u + in.u, on.v - along.v + in.v}});
  }
  Shape grown(const Shape& s, double by) { return own(GEOSBuffer_r(handle_, s.get(), by, 8)); }

private:
  Shape own(GEOSGeometry* g) {
    if (g == nullptr) throw std::runtime_error(said_);
    return {g, [this](GEOSGeometry* p) { GEOSGeom_destroy_r(handle_, p); }};
  }
  static constexpr double kGrid_mm = 1e-5; // edges that nearly coincide then do
  GEOSContextHandle_t handle_;
  std::string said_;
};

void check_filled(Geos& geos, const Piece& piece) {
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

FlatPoint flat(PlanPoint p) { return {p.x, p.y}; }

/// The tread in plan, (x, y), out to its open ends and forward to the nosing's bend.
Geos::Shape tread_plan(Geos& geos, const Step& step) {
  const FlatPoint front{0, (step.nosing.radius - step.nosing.projection).mm()};
  FlatPath main;
  for (const auto& p : step.left_side)
    main.push_back(flat(p));
  for (auto p = step.right_side.rbegin(); p != step.right_side.rend(); ++p)
    main.push_back(flat(*p));
  // Both sides run on straight, a little past the front, where they are cut off again.
  const auto forward = [&](const std::vector<PlanPoint>& line) {
    const double y = front.v - 1;
    return FlatPoint{line[0].x + (line[1].x - line[0].x) / line[1].y * y, y};
  };
  main.push_back(forward(step.right_side));
  main.push_back(forward(step.left_side));
  auto all = geos.polygon(main);
  const auto next_left = step.left_side.back(), next_right = step.right_side.back();
  const double next = std::hypot(next_right.x - next_left.x, next_right.y - next_left.y);
  const FlatPoint back{-(next_right.y - next_left.y) / next, (next_right.x - next_left.x) / next};
  for (const bool right : {false, true}) {
    const auto& side = right ? step.right : step.left;
    const auto& line = right ? step.right_side : step.left_side;
    if (side.closed()) continue;
    const double sign = right ? 1 : -1, length = std::hypot(line[1].x - line[0].x, line[1].y);
    const FlatPoint out{sign * line[1].y / length, -sign * (line[1].x - line[0].x) / length};
    const double e = side.overhang.mm(), q = side.return_past.mm();
    const auto p = flat(line[1]);
    auto end = geos.half_plane(p, out);
    end = geos.intersection(end, geos.half_plane({p.u + e * out.u, p.v + e * out.v}, {-out.u, -out.v}));
    end = geos.intersection(end, geos.half_plane({p.u + q * back.u, p.v + q * back.v}, {-back.u, -back.v}));
    all = geos.unite(all, end);
  }
  return geos.intersection(all, geos.half_plane(front, {0, 1}));
}

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
       cover_flight(flight, {carpet, inches(0, 3, 8), usual_allowances(), LengthUnit::inch}, "A"))
    check_filled(geos, piece);
}

RC_GTEST_PROP(FlatPieceByGeos, OfAnyPlanIsSimpleAndFilledAndItsTreadIsThePlan, ()) {
  Geos geos;
  const auto step = *rc::gen::resize(rc::kNominalSize, rc::gen::exec([] { return any_plan_step(1); }));
  const auto carpet = usual_carpet();
  const auto flight = flight_of({step}, *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped));
  const auto piece =
      cover_flight(flight, {carpet, inches(0, 3, 8), usual_allowances(), LengthUnit::inch}, "A")[0];
  check_filled(geos, piece);
  FlatPath tread; // in plan
  for (const auto& p : piece.faces[0].outline)
    tread.push_back({p.u, step.going.mm() - p.v});
  const auto flat = geos.polygon(tread), plan = tread_plan(geos, step);
  RC_LOG() << "tread " << geos.area(flat) << " mm², plan " << geos.area(plan) << " mm²\n";
  RC_ASSERT(geos.area(geos.difference(flat, geos.grown(plan, 0.01))) < 0.5);
  RC_ASSERT(geos.area(geos.difference(plan, geos.grown(flat, 0.01))) < 0.5);
}
