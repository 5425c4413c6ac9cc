#include "cover/turn_over.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kNothing_mm = 1e-6;
constexpr int kPerBend = 6; // stations of a side that is no straight line in the flat

using Side = std::function<FlatPoint(double s)>;

/// Stations at the ends of a turnover's parts, and within its bends, from s0.
std::vector<double> stations(const Turnover& turnover, double s0) {
  std::vector<double> s{s0};
  for (const auto& part : turnover.parts()) {
    const double from = s.back();
    const int steps = part.turn_rad == 0 ? 1 : kPerBend;
    for (int i = 1; i <= steps; ++i)
      s.push_back(from + part.length * i / steps);
  }
  return s;
}

class Turner {
public:
  Turner(PieceBuilder& builder, Piece& piece, const StarterShape& shape, const Lay& lay, FacetRange range)
      : builder_(builder), piece_(piece), shape_(shape), lay_(lay), range_(range) {}

  TurnedEdge turn(const std::vector<int>& parents, bool whole) {
    const double all = lay_.turnover.length();
    whole_ = whole ? all : whole_length(lay_.turnover, lay_.flat, lay_.radius, shape_.limit());
    const auto first = lay_.turnover.between(0, whole_);
    const auto s = stations(first, 0);
    std::vector<int> last;
    for (auto i = range_.from; i < range_.to; ++i) {
      const Side left = [&](double at) { return fine(i, i, at); },
                 right = [&](double at) { return fine(i, i + 1, at); };
      last.push_back(
          chain(first, 0, left, right, {left(0), right(0)}, {}, parents[i - range_.from], left(0), right(0)));
    }
    for (const double at : s) {
      edge_.left.push_back(fine(range_.from, range_.from, at));
      edge_.right.push_back(fine(range_.to - 1, range_.to, at));
    }
    edge_.outline = edge_.left;
    if (all - whole_ > kNothing_mm)
      cut(lay_.turnover.between(whole_, all), last);
    else
      finish_whole(last);
    append(edge_.outline, reversed(edge_.right));
    edge_.outline = without_repeats(std::move(edge_.outline));
    return std::move(edge_);
  }

private:
  const StarterFacets& facets() const { return shape_.fine; }
  int number() const { return shape_.step.number; }

  /// Corner k of facet i at s, where the carpet is whole and keeps its own length.
  FlatPoint fine(std::size_t i, std::size_t k, double s) const {
    const auto& f = facets();
    const double off = lay_.off + (lay_.flat == FlatShape::curved ? s : 0);
    return lay_.at(i, dot(f.at[k] - f.at[i], f.along[i]) + off * f.lean(i, k), s);
  }

  /// Corner k of a tooth where it is cut, in the flat of its middle facet: in the corner's mitre.
  FlatPoint fitted(std::size_t tooth, std::size_t k, double s) const {
    const auto& f = facets();
    const auto m = teeth_.middle[tooth];
    const auto way = f.at[k] - f.at[m];
    const double off = lay_.off + lay_.turnover.out(s);
    const double out = (off - dot(way, f.out(m))) / dot(f.mitre[k], f.out(m));
    return lay_.at(m, dot(way + out * f.mitre[k], f.along[m]), s);
  }

  /// The builder's own choice of the hinge's way would go wrong: a tooth's root lies behind its hinge.
  int add_face(const TurnoverPart& part, FlatPath outline, int parent, FlatPoint hinge_a, FlatPoint hinge_b) {
    const auto from = lay_.at(range_.from, 0, 0), to = lay_.at(range_.from, 0, 1);
    const auto out = cross(along_of(range_.from), {to.u - from.u, to.v - from.v});
    if (out < 0) std::swap(hinge_a, hinge_b); // v runs down: ahead is to the left of the hinge in (u, v)
    Face face{part.name, number(), without_repeats(std::move(outline)), parent, hinge_a, hinge_b};
    if (part.turn_rad != 0) face.bend_rad = part.turn_rad, face.bend_width_mm = part.length;
    piece_.faces.push_back(std::move(face));
    return static_cast<int>(piece_.faces.size()) - 1;
  }
  /// Of a facet in the flat.
  PlanPoint along_of(std::size_t i) const {
    const auto a = lay_.at(i, 0, 0), b = lay_.at(i, 1, 0);
    return {b.u - a.u, b.v - a.v};
  }

  /// Faces of one facet or tooth from s0 on, each hinged on the one before; the first on `parent`. `root` and
  /// `end` run left to right; an empty end is straight. Returns the last face.
  int chain(const Turnover& turnover, double s0, const Side& left, const Side& right, const FlatPath& root,
            const FlatPath& end, int parent, FlatPoint hinge_a, FlatPoint hinge_b) {
    const auto s = stations(turnover, s0);
    std::size_t at = 0;
    for (std::size_t p = 0; p < turnover.parts().size(); ++p) {
      const auto& part = turnover.parts()[p];
      const std::size_t steps = part.turn_rad == 0 ? 1 : kPerBend;
      const bool last = p + 1 == turnover.parts().size();
      FlatPath outline = p == 0 ? root : FlatPath{left(s[at]), right(s[at])};
      for (std::size_t i = 1; i < steps; ++i)
        outline.push_back(right(s[at + i]));
      append(outline,
             last && !end.empty() ? reversed(end) : FlatPath{right(s[at + steps]), left(s[at + steps])});
      for (std::size_t i = steps - 1; i > 0; --i)
        outline.push_back(left(s[at + i]));
      if (p > 0) hinge_a = left(s[at]), hinge_b = right(s[at]);
      parent = add_face(part, std::move(outline), parent, hinge_a, hinge_b);
      at += steps;
    }
    return parent;
  }

  void finish_whole(const std::vector<int>& last) {
    const double all = lay_.turnover.length();
    TurnedStretch stretch{range_.from, range_.to, {}, last, true};
    for (auto k = range_.from; k <= range_.to; ++k)
      stretch.path.push_back(fine(k == range_.to ? k - 1 : k, k, all));
    append(edge_.outline, stretch.path);
    edge_.stretches.push_back(std::move(stretch));
  }

  bool ends_level() const {
    return std::abs(lay_.turnover.end_falling_rad() - std::numbers::pi) < 1e-9 &&
           lay_.turnover.parts().back().turn_rad == 0;
  }

  /// A tooth's edge; hollow where it lies level, against a curve.
  FlatPath tooth_edge(std::size_t tooth) const {
    const auto& f = facets();
    const auto m = teeth_.middle[tooth], a = teeth_.ends[tooth], b = teeth_.ends[tooth + 1];
    const double all = lay_.turnover.length(), off = lay_.off + lay_.turnover.out(all);
    if (!ends_level()) return {fitted(tooth, a, all), fitted(tooth, b, all)};
    FlatPath path;
    for (auto k = a; k <= b; ++k) {
      const auto way = f.corner(k, off) - f.at[m];
      path.push_back(lay_.at(m, dot(way, f.along[m]), all - (dot(way, f.out(m)) - off)));
    }
    return path;
  }

  /// Those of the shape that lie in the range; a band is split between teeth.
  Teeth teeth_in_range() const {
    const auto& all = facets().teeth;
    Teeth teeth;
    for (std::size_t i = 0; i < all.count(); ++i) {
      if (all.ends[i] < range_.from || all.ends[i + 1] > range_.to) continue;
      if (teeth.ends.empty()) teeth.ends.push_back(all.ends[i]);
      teeth.ends.push_back(all.ends[i + 1]);
      teeth.middle.push_back(all.middle[i]);
    }
    return teeth;
  }

  void cut(const Turnover& rest, const std::vector<int>& last) {
    teeth_ = teeth_in_range();
    const auto s = stations(rest, whole_);
    ReliefCuts relief{static_cast<int>(teeth_.count()) - 1, lay_.turnover.length() - whole_, 0, 0, whole_};
    std::vector<FlatPath> lefts, rights; // sides of each tooth, from the cut's point out
    std::vector<std::vector<int>> faces;
    for (std::size_t j = 0; j < teeth_.count(); ++j) {
      const auto m = teeth_.middle[j], a = teeth_.ends[j], b = teeth_.ends[j + 1];
      FlatPath root;
      for (auto k = a; k <= b; ++k)
        root.push_back(fine(k == b ? k - 1 : k, k, whole_));
      const auto side = [&](std::size_t k, FlatPoint point) -> Side {
        return
            [this, j, k, point](double at) { return at <= whole_ + kNothing_mm ? point : fitted(j, k, at); };
      };
      const auto left = side(a, root.front()), right = side(b, root.back());
      const auto end = tooth_edge(j);
      const auto before = static_cast<int>(piece_.faces.size());
      const int edge_face = chain(rest, whole_, left, right, root, end, last[m - range_.from],
                                  fine(m, m, whole_), fine(m, m + 1, whole_));
      faces.emplace_back();
      for (int f = before; f < static_cast<int>(piece_.faces.size()); ++f)
        faces.back().push_back(f);
      const auto path = [&](const Side& way, FlatPoint corner) {
        FlatPath points;
        for (std::size_t i = 0; i + 1 < s.size(); ++i)
          points.push_back(way(s[i]));
        points.push_back(corner);
        return points;
      };
      lefts.push_back(path(left, end.front()));
      rights.push_back(path(right, end.back()));
      edge_.stretches.push_back({a, b, end, {edge_face}, ends_level()});
      append(edge_.outline, lefts.back());
      append(edge_.outline, end);
      if (j + 1 < teeth_.count()) append(edge_.outline, reversed(rights.back()));
      if (!facets().straight[m])
        relief.tooth_mm = std::max(relief.tooth_mm, distance_mm(root.front(), root.back()));
    }
    append(edge_.left, lefts.front());
    append(edge_.right, rights.back());
    for (std::size_t k = 1; k < teeth_.count(); ++k) {
      const auto &a = rights[k - 1], &b = lefts[k];
      piece_.seams.push_back({fmt::format("relief cut {}", k), a, b, faces[k - 1], faces[k], true});
      auto v = reversed(a);
      append(v, b);
      builder_.line(LineRole::cut, std::move(v), fmt::format("relief cut {} of {}", k, relief.count));
      relief.mouth_mm = std::max(relief.mouth_mm, distance_mm(a.back(), b.back()));
    }
    if (relief.count > 0) piece_.relief = relief;
  }

  PieceBuilder& builder_;
  Piece& piece_;
  const StarterShape& shape_;
  const Lay& lay_;
  FacetRange range_;
  double whole_ = 0;
  Teeth teeth_;
  TurnedEdge edge_;
};

} // namespace

std::optional<TurnedStretch> TurnedStretch::between(std::size_t a, std::size_t b) const {
  if (a == from && b == to) return *this;
  if (!by_corner || a < from || b > to) return {};
  const auto at = [&](std::size_t k) { return static_cast<std::ptrdiff_t>(k - from); };
  return TurnedStretch{a,
                       b,
                       {path.begin() + at(a), path.begin() + at(b) + 1},
                       {faces.begin() + at(a), faces.begin() + at(b)},
                       true};
}

TurnedEdge turn_over(PieceBuilder& builder, Piece& piece, const StarterShape& shape, const Lay& lay,
                     FacetRange range, const std::vector<int>& parents, bool whole) {
  return Turner(builder, piece, shape, lay, range).turn(parents, whole);
}

} // namespace treadfold
