// The flat piece on its way to the step: at every fraction of the fold.
#include "steps.h"

#include "cover/floor.h"
#include "cover/fold_mesh.h"
#include "cover/placed_face.h"
#include "cover/starter.h"
#include "measure/step_front.h"
#include "measure/tread_plan.h"

#include <cmath>
#include <map>
#include <set>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

constexpr double kExact_mm = 1e-6;

struct Folding {
  Flight flight;
  Piece piece;
  std::vector<Step> steps;
  FoldMesh mesh;

  std::vector<Point3> at(double fraction) const { return positions(mesh, piece, steps, fraction); }
  const Face& face_of(int vertex) const {
    return piece.faces[static_cast<std::size_t>(mesh.vertices[static_cast<std::size_t>(vertex)].face)];
  }
  FlatPoint flat(int vertex) const { return mesh.vertices[static_cast<std::size_t>(vertex)].flat; }
};

Folding folding_of(Flight flight) {
  const auto carpet = usual_carpet();
  auto piece = cover_flight(flight, {carpet, inches(0, 3, 8), usual_allowances(), LengthUnit::inch}, "A")[0];
  auto steps = steps_of(piece, flight);
  auto mesh = fold_mesh(piece);
  return {std::move(flight), std::move(piece), std::move(steps), std::move(mesh)};
}

/// A tread whose sides run at an angle, its open ends too.
Folding any_oblique_folding() {
  auto step = usual_step();
  step.left = *rc::gen::element(Side{}, open_side());
  step.right = *rc::gen::element(Side{}, open_side());
  const double width = step.width.mm(), back = step.going.mm();
  const auto shift = [] { return *rc::gen::inRange(-30, 31); };
  set_plan(step, {{0, 0}, {1.0 * shift(), back}}, {{width, 0}, {width + shift(), back - std::abs(shift())}});
  return folding_of(flight_of({step}, *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped)));
}

Folding any_straight_folding() {
  std::vector<Step> steps{any_step(1), any_step(2)};
  steps[0].landing_edge = false;
  steps[1].left = steps[0].left;
  steps[1].right = steps[0].right;
  steps[1].width = steps[0].width;
  return folding_of(flight_of(steps, *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped),
                              *rc::gen::inRange(1, 3)));
}

Folding any_folding() {
  return *rc::gen::element(true, false, false) ? any_oblique_folding() : any_straight_folding();
}

double any_fraction() { return *rc::gen::inRange(0, 1001) / 1000.0; }

/// The parts of a…b along a face's hinge and across it, both positive.
std::pair<double, double> parts(const Face& face, FlatPoint a, FlatPoint b) {
  const double du = b.u - a.u, dv = b.v - a.v, all = distance_mm(face.hinge_a, face.hinge_b);
  const double hu = (face.hinge_b.u - face.hinge_a.u) / all, hv = (face.hinge_b.v - face.hinge_a.v) / all;
  return {std::abs(du * hu + dv * hv), std::abs(du * hv - dv * hu)};
}

/// What the chord of an inscribed edge measures: straight along the hinge, and across it the chord of an arc
/// whose length is kept. This is the law itself, not the code's: 2 R sin(w / 2R) with R = bend width over
/// angle.
double inscribed(const Face& face, FlatPoint a, FlatPoint b, double fraction) {
  const auto [along, across] = parts(face, a, b);
  if (face.bend_rad * fraction == 0) return std::hypot(along, across);
  const double radius = face.bend_width_mm / std::abs(face.bend_rad * fraction);
  return std::hypot(along, 2 * radius * std::sin(across / (2 * radius)));
}

double area(const FoldMesh& mesh, int triangle) {
  const auto& t = mesh.triangles[static_cast<std::size_t>(triangle)];
  const auto at = [&](std::size_t k) { return mesh.vertices[static_cast<std::size_t>(t[k])].flat; };
  return -((at(1).u - at(0).u) * (at(2).v - at(0).v) - (at(1).v - at(0).v) * (at(2).u - at(0).u)) / 2;
}

} // namespace

RC_GTEST_PROP(FoldMesh, EveryFaceIsFilledOnce, ()) {
  const auto f = any_folding();
  RC_ASSERT(f.mesh.faces.size() == f.piece.faces.size());
  for (std::size_t i = 0; i < f.piece.faces.size(); ++i) {
    double filled = 0;
    for (int t = f.mesh.faces[i].from; t < f.mesh.faces[i].to; ++t) {
      RC_ASSERT(area(f.mesh, t) > 0); // clockwise in (u, v)
      filled += area(f.mesh, t);
      for (const int v : f.mesh.triangles[static_cast<std::size_t>(t)])
        RC_ASSERT(f.mesh.vertices[static_cast<std::size_t>(v)].face == static_cast<int>(i));
    }
    RC_ASSERT(std::abs(filled - area_mm2(f.piece.faces[i].outline)) < 1e-6);
  }
}

RC_GTEST_PROP(FoldMesh, KeepsItsLengthsAtEveryFraction, ()) {
  const auto f = any_folding();
  const double fraction = any_fraction();
  const auto at = f.at(fraction);
  for (const auto& t : f.mesh.triangles)
    for (std::size_t k = 0; k < 3; ++k) {
      const int a = t[k], b = t[(k + 1) % 3];
      const double length = norm(at[static_cast<std::size_t>(b)] - at[static_cast<std::size_t>(a)]);
      RC_ASSERT(std::abs(length - inscribed(f.face_of(a), f.flat(a), f.flat(b), fraction)) < kExact_mm);
    }
}

// Faces share no vertex, so that they hang together must be seen at the points they have in common.
RC_GTEST_PROP(FoldMesh, StaysTogetherAlongItsHinges, ()) {
  const auto f = any_folding();
  const double fraction = any_fraction();
  const auto at = f.at(fraction);
  int met = 0;
  for (std::size_t i = 0; i < at.size(); ++i)
    for (std::size_t j = 0; j < at.size(); ++j) {
      const auto &a = f.mesh.vertices[i], &b = f.mesh.vertices[j];
      const auto& face = f.piece.faces[static_cast<std::size_t>(a.face)];
      if (face.parent != b.face || distance_mm(a.flat, b.flat) > 1e-9) continue;
      const auto off = (face.hinge_b.u - face.hinge_a.u) * (a.flat.v - face.hinge_a.v) -
                       (face.hinge_b.v - face.hinge_a.v) * (a.flat.u - face.hinge_a.u);
      if (std::abs(off) > 1e-6) continue;
      ++met;
      RC_ASSERT(norm(at[i] - at[j]) < kExact_mm);
    }
  RC_ASSERT(met >= 2 * static_cast<int>(f.piece.faces.size() - 1));
}

RC_GTEST_PROP(FoldMesh, AtZeroItIsTheFlatPieceLevelWithItsTread, ()) {
  const auto f = any_folding();
  const auto at = f.at(0);
  const double back = f.steps.front().going.mm(), level = f.steps.front().rise.mm() + f.piece.root_height_mm;
  for (std::size_t i = 0; i < at.size(); ++i) {
    const auto p = f.mesh.vertices[i].flat;
    RC_ASSERT(norm(at[i] - Point3{p.u, back - p.v, level}) < kExact_mm);
  }
}

namespace {

/// How far the mesh, all folded, is off the piece as it is drawn folded.
double off_the_folded(const Folding& f) {
  double farthest = 0;
  const auto at = f.at(1);
  const auto folded = fold(f.piece, f.steps);
  std::map<int, std::vector<Point3>> drawn;
  for (std::size_t i = 0; i < folded.size(); ++i)
    for (const auto& polygon : folded[i].polygons)
      drawn[static_cast<int>(i)].insert(drawn[static_cast<int>(i)].end(), polygon.begin(), polygon.end());
  std::vector<char> of_triangles(at.size(), 0);
  for (const auto& t : f.mesh.triangles)
    for (const int v : t)
      of_triangles[static_cast<std::size_t>(v)] = 1;
  for (std::size_t i = 0; i < at.size(); ++i) {
    if (of_triangles[i] == 0) continue;
    double nearest = 1e300;
    for (const auto& p : drawn[f.mesh.vertices[i].face])
      nearest = std::min(nearest, norm(p - at[i]));
    farthest = std::max(farthest, nearest);
  }
  return farthest;
}

} // namespace

RC_GTEST_PROP(FoldMesh, AtOneItIsTheFoldedPiece, ()) { RC_ASSERT(off_the_folded(any_folding()) < kExact_mm); }

TEST(FoldMesh, AtOneItIsTheFoldedPieceOfACurvedStarterToo) {
  for (const auto closing : {StarterClosing::band, StarterClosing::cuts}) {
    auto step = usual_step();
    Starter starter;
    starter.closing = closing;
    starter.readings.right = {FrontEndShape::half, inches(8), inches(7), inches(6, 5, 8)};
    ASSERT_FALSE(has_errors(set_front(step, starter)));
    const auto flight = flight_of({step});
    const auto carpet = usual_carpet();
    const auto allowances = usual_allowances();
    for (const auto& piece :
         cover_starter(step, flight, {carpet, inches(0, 3, 8), allowances, LengthUnit::inch}, "A").pieces)
      EXPECT_LT(off_the_folded({flight, piece, {step}, fold_mesh(piece)}), kExact_mm) << piece.id;
  }
}

RC_GTEST_PROP(FoldMesh, ItsTreadLiesStillAtEveryFraction, ()) {
  const auto f = any_folding();
  const auto at = f.at(any_fraction()), folded = f.at(1);
  for (std::size_t i = 0; i < at.size(); ++i)
    if (f.mesh.vertices[i].face == 0) RC_ASSERT(norm(at[i] - folded[i]) == 0);
}

// All of each line is on the piece, and goes with it.
RC_GTEST_PROP(FoldMesh, EveryLineIsCarriedAlongWhole, ()) {
  const auto f = any_straight_folding(); // at sides at an angle a fold is drawn as long as the riser
  RC_ASSERT(f.mesh.lines.size() == f.piece.lines.size());
  for (const auto& line : f.mesh.lines) {
    double carried = 0;
    for (const auto& [a, b] : line.segments) {
      carried += distance_mm(f.flat(a), f.flat(b));
      const auto& face = f.face_of(a);
      RC_ASSERT(&face == &f.face_of(b));
      if (face.bend_rad != 0) // no further than a band, so that it bends with the face
        RC_ASSERT(parts(face, f.flat(a), f.flat(b)).second < face.bend_width_mm / 8 + 1e-3);
    }
    const auto& drawn = f.piece.lines[static_cast<std::size_t>(line.line)];
    RC_LOG() << drawn.label << ": " << carried << " of " << length_mm(drawn.points) << '\n';
    // A fold in the middle of an end's bend is drawn a hair past the back corner's round.
    const double past = drawn.role == LineRole::fold ? usual_carpet().backing.mm() / 4 : 0.01;
    RC_ASSERT(std::abs(carried - length_mm(drawn.points)) < past);
  }
}

// Halfway, the nosing is turned by half a right angle: the front leans, the drop hangs outward.
TEST(FoldMesh, HalfwayTheFrontStandsAtHalfARightAngle) {
  const auto f = folding_of(flight_of({usual_step()}));
  const auto at = f.at(0.5);
  for (const auto& t : f.mesh.triangles) {
    if (f.face_of(t[0]).name != "front") continue;
    const auto p = at[static_cast<std::size_t>(t[0])], q = at[static_cast<std::size_t>(t[1])],
               r = at[static_cast<std::size_t>(t[2])];
    const auto n = cross(q - p, r - p);
    EXPECT_NEAR(n[2] / norm(n), std::sqrt(0.5), 1e-9); // pile up and forward
    EXPECT_NEAR(n[1] / norm(n), -std::sqrt(0.5), 1e-9);
  }
}

TEST(FoldMesh, ABoxStepIsSmall) {
  auto step = usual_step();
  step.nosing.radius = inches(0, 1, 8);
  const auto f = folding_of(flight_of({step}));
  std::set<int> corners;
  for (const auto& t : f.mesh.triangles)
    corners.insert(t.begin(), t.end());
  EXPECT_EQ(f.mesh.triangles.size(), 2u + 16 + 2 + 16 + 2); // tread, nosing, front, lower bend, drop
  EXPECT_EQ(corners.size(), 4u + 18 + 4 + 18 + 4);
}

TEST(FoldMesh, AFloorLiesFlatAtEveryFraction) {
  Floor floor;
  floor.name = "hall";
  floor.carpet = "main";
  floor.corners = {{0, 0}, {2000, 0}, {2000, 1000}, {1000, 1000}, {1000, 1500}, {0, 1500}};
  const auto carpet = usual_carpet();
  const auto piece = cover_floor(floor, {carpet, {}, usual_allowances(), LengthUnit::inch}, "F").front();
  const auto mesh = fold_mesh(piece);
  EXPECT_EQ(mesh.triangles.size(), 4u);
  for (const double fraction : {0.0, 0.3, 1.0})
    for (const auto& p : positions(mesh, piece, {}, fraction))
      EXPECT_EQ(p[2], 0);
}

TEST(FoldMesh, AnOpeningOfAFloorIsLeftOpen) {
  Floor floor;
  floor.name = "hall", floor.carpet = "main";
  floor.corners = {{0, 0}, {2000, 0}, {2000, 1000}, {1000, 1000}, {1000, 1500}, {0, 1500}};
  floor.openings = {{"hearth", {{200, 200}, {700, 200}, {700, 600}, {200, 600}}}};
  const auto carpet = usual_carpet();
  const auto piece = cover_floor(floor, {carpet, {}, usual_allowances(), LengthUnit::inch}, "F").front();
  const auto mesh = fold_mesh(piece);
  double area = 0;
  for (const auto& t : mesh.triangles) {
    const auto at = [&](std::size_t k) { return mesh.vertices[static_cast<std::size_t>(t[k])].flat; };
    area +=
        std::abs((at(1).u - at(0).u) * (at(2).v - at(0).v) - (at(1).v - at(0).v) * (at(2).u - at(0).u)) / 2;
  }
  EXPECT_NEAR(area, 2.5e6 - 0.2e6, 1e-3);
  EXPECT_NEAR(area, net_area_mm2(piece), 1e-3);
}
