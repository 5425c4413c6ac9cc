#include "cover/bare_faces.h"

#include <algorithm>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kTolerance_mm = 0.05;
constexpr double kHair_mm = 0.05; // a nosing no deeper than this has no underside

/// One step's measures in mm, and how far off the wood its carpet must lie.
struct Bare {
  double rise, going, width, o, t, r;
  double on_pad, on_wood; // backing's middle
  Point3 shift;           // of the step's frame in the frame of the highest
  std::string of;         // ", step 3"
};

class Faces {
public:
  explicit Faces(const BareFaceInput& input) : in_(input) {}
  std::vector<BareFace> take() { return std::move(faces_); }

  void add_step(const Step& step, Point3 shift, bool highest, bool lowest) {
    const auto& nosing = step.nosing;
    const double on_wood = in_.backing / 2;
    const Bare s{.rise = step.rise.mm(),
                 .going = step.going.mm(),
                 .width = step.width.mm(),
                 .o = nosing.projection.mm(),
                 .t = nosing.thickness.mm(),
                 .r = nosing.radius.mm(),
                 .on_pad = in_.pad + on_wood,
                 .on_wood = on_wood,
                 .shift = shift,
                 .of = fmt::format(", step {}", step.number)};
    const double back = s.going - (highest ? 0 : s.on_wood);
    tread("tread" + s.of, s, 0, s.width, back);
    nosing_front(s.of, s, 0, s.width);
    riser(s, lowest);
    for (const bool right : {false, true}) {
      const auto& side = right ? step.right : step.left;
      if (!side.closed()) end(s, side, right, step.landing_edge);
    }
  }

private:
  void add(BareFace face, const Bare& s, double nearest, double farthest) {
    if (norm(face.a) < 1e-6 || norm(face.b) < 1e-6) return;
    face.origin = face.origin + s.shift;
    face.nearest = nearest - kTolerance_mm;
    face.farthest = farthest + kTolerance_mm;
    faces_.push_back(std::move(face));
  }
  void add(BareFace face, const Bare& s, double off) { add(std::move(face), s, off, off); }

  /// x from x0, `width` wide (signed), from y = back to where the nosing rounds.
  void tread(std::string name, const Bare& s, double x0, double width, double back) {
    add({.name = std::move(name),
         .origin = {x0, back, s.rise},
         .a = {width, 0, 0},
         .b = {0, -(back + s.o - s.r), 0},
         .outward = {0, 0, 1}},
        s, s.on_pad);
  }

  void nosing_front(const std::string& of, const Bare& s, double x0, double width) {
    add({.name = "front" + of,
         .origin = {x0, -s.o, s.rise - s.r},
         .a = {width, 0, 0},
         .b = {0, 0, -(s.t - 2 * s.r)},
         .outward = {0, -1, 0}},
        s, s.on_pad);
    if (s.r > 0)
      add({.name = "nosing" + of,
           .origin = {x0, -s.o + s.r, s.rise - s.r},
           .a = {width, 0, 0},
           .b = {0, -1, 0},
           .outward = {0, 0, 1},
           .arc_radius = s.r},
          s, s.on_pad);
  }

  void riser(const Bare& s, bool lowest) {
    // Below this the carpet of the step below lies before the riser.
    const double foot = lowest ? 0 : in_.pad + in_.backing;
    const bool under = in_.style == CoverStyle::wrapped && s.o + in_.pad - s.r - s.on_wood > kHair_mm;
    // A concave corner is filled by the backing itself.
    const double top = s.rise - s.t - (under ? s.on_wood : 0), depth = s.o - s.r - s.on_wood;
    BareFace face{.name = "riser" + s.of,
                  .origin = {0, 0, top},
                  .a = {s.width, 0, 0},
                  .b = {0, 0, -std::max(0.0, top - foot)},
                  .outward = {0, -1, 0}};
    if (under)
      add(std::move(face), s, s.on_wood);
    else // the drop hangs free before it
      add(std::move(face), s, 0, s.o + in_.pad + in_.backing);
    if (under && depth > kHair_mm)
      add({.name = "under nosing" + s.of,
           .origin = {0, -s.o + s.r, s.rise - s.t},
           .a = {s.width, 0, 0},
           .b = {0, depth, 0},
           .outward = {0, 0, -1}},
          s, s.on_wood);
  }

  void end(const Bare& s, const Side& side, bool right, bool landing_edge) {
    const double sign = right ? 1 : -1, x0 = right ? s.width : 0, e = sign * side.overhang.mm();
    const double back = s.going + (landing_edge ? 0 : side.return_past.mm());
    const std::string of = fmt::format(", {}{}", right ? "right" : "left", s.of);
    tread("tread past the riser's end" + of, s, x0, e, back);
    nosing_front(" at the end" + of, s, x0, e);
    if (s.r > 0) // from the pad's front to the wood's underside
      add({.name = "lower arris" + of,
           .origin = {x0, -s.o + s.r, s.rise - s.t + s.r},
           .a = {e, 0, 0},
           .b = {0, 0, -1},
           .outward = {0, -1, 0},
           .arc_radius = s.r},
          s, s.on_wood, s.on_pad);
    add({.name = "end" + of,
         .origin = {x0 + e, back, s.rise},
         .a = {0, -(back + s.o), 0},
         .b = {0, 0, -s.t},
         .outward = {sign, 0, 0},
         .front_round = s.r},
        s, s.on_wood);
    add({.name = "under-lip" + of,
         .origin = {x0, back, s.rise - s.t},
         .a = {e, 0, 0},
         .b = {0, -(back + s.o - s.r), 0},
         .outward = {0, 0, -1}},
        s, s.on_wood);
    if (landing_edge) return;
    // The tabs' mitres run 45° in from the carpet's corners; past the end tab's set-off tip the middle is
    // left open.
    const double half = (s.t + in_.pad) / 2, out = side.overhang.mm() + s.on_wood,
                 depth = std::min(half, out);
    const double tip = std::max(0.0, depth - in_.relief), middle = half - in_.pad, open = half - tip;
    add({.name = "back" + of,
         .origin = {x0, back, s.rise},
         .a = {e, 0, 0},
         .b = {0, 0, -s.t},
         .outward = {0, 1, 0},
         .opening = BareFace::Opening{0, out - tip, middle - open, middle + open}},
        s, s.on_wood);
  }

  const BareFaceInput& in_;
  std::vector<BareFace> faces_;
};

} // namespace

std::vector<BareFace> bare_faces(const std::vector<Step>& steps, const BareFaceInput& input) {
  Faces faces(input);
  Point3 shift{0, 0, 0};
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (i > 0) shift = shift - Point3{0, steps[i].going.mm(), steps[i].rise.mm()};
    faces.add_step(steps[i], shift, i == 0, i + 1 == steps.size());
  }
  return faces.take();
}

} // namespace treadfold
