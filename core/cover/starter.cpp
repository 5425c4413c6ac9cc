#include "cover/starter.h"

#include "cover/account.h"
#include "cover/starter_pieces.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>
#include <utility>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kFine_mm = 0.05;

/// The widest band that the goods allow; 0: any.
Length widest_band(const CoverInput& input) {
  Length most;
  for (const auto width : input.carpet.roll_widths)
    most = std::max(most, width - input.carpet.selvage * 2);
  return most.ticks == 0 ? most : most - input.allowances.side_trim * 2;
}

/// Corners at which bands are split, the ends among them: as few as the roll's width allows; of the places
/// that do, between teeth where there are any, the one where the edge has turned furthest from the front.
std::vector<std::size_t> splits(const StarterFacets& f, double off, double most) {
  const auto line = f.line(off);
  std::vector<double> run{0};
  for (std::size_t k = 1; k < line.size(); ++k)
    run.push_back(run.back() + steady::hypot(line[k].x - line[k - 1].x, line[k].y - line[k - 1].y));
  const auto parts = most <= 0 ? 1 : static_cast<std::size_t>(std::ceil(run.back() / most));
  std::vector<std::size_t> ends{0};
  for (std::size_t part = 1; part < parts; ++part) {
    const double low = run.back() - most * static_cast<double>(parts - part), high = run[ends.back()] + most;
    std::size_t best = 0;
    double away = -1;
    for (std::size_t k = ends.back() + 1; k < f.count(); ++k) {
      const auto& teeth = f.teeth.ends;
      if (!teeth.empty() && !std::binary_search(teeth.begin(), teeth.end(), k)) continue;
      const double turned = 1 - f.along[k].x; // 0 along the front
      if (run[k] >= low && run[k] <= high && turned > away + 1e-9) away = turned, best = k;
    }
    if (best == 0) break; // the straight front is longer than the roll is wide: the layout says so
    ends.push_back(best);
  }
  ends.push_back(f.count());
  return ends;
}

/// An edge of a piece that meets one of another: on the nosing's bend, or under the nosing.
struct Meeting {
  std::size_t piece;
  bool on_bend;
  std::vector<TurnedStretch> stretches;
};

class StarterBuilder {
public:
  StarterBuilder(const Step& step, const Flight& flight, const CoverInput& input, const std::string& prefix)
      : flight_(flight), input_(input), prefix_(prefix), shape_(starter_shape(step, input)) {}

  StarterCover build() {
    const auto& s = shape_.section;
    add(starter_cap(shape_, input_, blank("cap")), false, !shape_.cut());
    if (shape_.one_band) {
      const double lip_z = (shape_.step.rise - shape_.step.nosing.thickness).mm();
      add_bands("band", {shape_.front_off, shape_.cut() ? lip_z : s.top_z, 0, !shape_.cut(), false});
    } else {
      if (!shape_.cut()) add_bands("nosing band", {shape_.front_off, s.top_z, s.low_z, true, true});
      add_bands("riser band", {shape_.riser_off, s.lip_z, 0, false, false});
    }
    for (const auto& upper : uppers_)
      for (const auto& lower : lowers_)
        meet(upper, lower);
    return std::move(cover_);
  }

private:
  Piece blank(const std::string& kind) const {
    const auto& step = shape_.step;
    const char letter = static_cast<char>('a' + cover_.pieces.size());
    Piece piece;
    piece.id = fmt::format("{}-{:02}{}", prefix_, step.number, letter);
    piece.flight = flight_.name;
    piece.carpet = flight_.carpet;
    piece.kind = "starter, " + kind;
    piece.steps = {step.number};
    piece.part = static_cast<int>(cover_.pieces.size());
    piece.root_height_mm = shape_.section.tread_z - step.rise.mm();
    return piece;
  }

  void add(StarterPart part, bool upper_on_bend, bool lower_on_bend) {
    const auto here = cover_.pieces.size();
    cover_.pieces.push_back(std::move(part.piece));
    if (!part.upper.empty()) lowers_.push_back({here, upper_on_bend, std::move(part.upper)});
    if (!part.lower.empty()) uppers_.push_back({here, lower_on_bend, std::move(part.lower)});
  }

  void add_bands(const std::string& kind, const BandKind& band) {
    const auto ends = splits(shape_.fine, shape_.front_off, widest_band(input_).mm());
    FlatPath end; // the right one of the part before
    for (std::size_t i = 0; i + 1 < ends.size(); ++i) {
      const FacetRange range{ends[i], ends[i + 1], i == 0, i + 2 == ends.size()};
      auto part =
          starter_band(shape_, input_,
                       blank(ends.size() > 2 ? fmt::format("{}, part {}", kind, i + 1) : kind), band, range);
      if (!band.under) part.lower.clear(); // it ends at the floor
      auto left = std::move(part.left), right = std::move(part.right);
      add(std::move(part), band.over, false);
      const auto here = cover_.pieces.size() - 1;
      if (i > 0)
        cover_.seams.push_back(
            {here - 1,
             here,
             {"seam of the band's parts", end, left, all_faces(here - 1), all_faces(here), true}});
      end = std::move(right);
    }
  }

  std::vector<int> all_faces(std::size_t piece) const {
    std::vector<int> faces(cover_.pieces[piece].faces.size());
    std::iota(faces.begin(), faces.end(), 0);
    return faces;
  }

  /// Seams along all facets that two edges have in common.
  void meet(const Meeting& upper, const Meeting& lower) {
    if (upper.on_bend != lower.on_bend) return;
    for (const auto& a : upper.stretches)
      for (const auto& b : lower.stretches) {
        const auto from = std::max(a.from, b.from), to = std::min(a.to, b.to);
        if (from >= to) continue;
        const auto above = a.between(from, to), below = b.between(from, to);
        assert(above && below); // bands are split between teeth
        const char* name = upper.on_bend ? "seam of cap and nosing band" : "seam under the nosing";
        cover_.seams.push_back({upper.piece,
                                lower.piece,
                                {name, above->path, below->path, above->faces, below->faces, false},
                                !upper.on_bend && !shape_.one_band});
      }
  }

  const Flight& flight_;
  const CoverInput& input_;
  const std::string& prefix_;
  StarterShape shape_;
  StarterCover cover_;
  std::vector<Meeting> uppers_, lowers_; // the lower edges of upper pieces; the upper edges of lower ones
};

} // namespace

Length end_wedge(const StarterShape& shape, Hand hand) {
  const auto& f = shape.fine;
  const auto along = hand == Hand::left ? f.along.front() : f.along.back();
  const double lean = shape.stop(hand) == EdgeStop::back ? along.x / along.y : along.y / along.x;
  const double reach = std::max({shape.front_off, -shape.riser_off, -shape.fold_off});
  return std::abs(lean) < 1e-6 ? Length{} : from_mm_up(std::abs(lean) * reach);
}

void itemise(Piece& piece, LengthUnit unit, const char* across, std::vector<SizeItem> along, const char* back,
             const char* foot) {
  size_piece(piece, unit);
  piece.across.push_back({across, piece.net_width.mm()});
  along[0].mm = piece.net_length.mm();
  for (std::size_t i = 1; i < along.size(); ++i)
    along[0].mm -= along[i].mm;
  for (auto& item : along)
    if (item.mm > kFine_mm) piece.along.push_back(std::move(item));
  account_trims(piece, back, foot);
}

StarterCover cover_starter(const Step& step, const Flight& flight, const CoverInput& input,
                           const std::string& prefix) {
  return StarterBuilder(step, flight, input, prefix).build();
}

} // namespace treadfold
