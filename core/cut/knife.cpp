#include "cut/knife.h"

#include <algorithm>
#include <numeric>
#include <optional>
#include <span>

namespace treadfold::knife {
namespace {

enum class Way { across, along }; // of the stroke

class Knife {
public:
  Knife(const std::vector<GoodsBox>& pieces, const Stretch& goods) : pieces_(pieces), goods_(goods) {}

  CutPlan run() {
    std::vector<int> ids(pieces_.size());
    std::iota(ids.begin(), ids.end(), 0);
    split({0, 0, goods_.width, goods_.length}, ids, Way::across, 0, false);
    std::stable_sort(plan_.offcuts.begin(), plan_.offcuts.end(),
                     [](const GoodsBox& a, const GoodsBox& b) { return a.w * a.l > b.w * b.l; });
    return std::move(plan_);
  }

private:
  struct Part {
    Ticks begin, end;
    std::span<int> ids;
  };

  static Ticks begin_of(const GoodsBox& b, Way way) { return way == Way::across ? b.v : b.u; }
  static Ticks end_of(const GoodsBox& b, Way way) { return way == Way::across ? b.v + b.l : b.u + b.w; }
  static GoodsBox cut_out(const GoodsBox& b, Way way, Ticks begin, Ticks end) {
    return way == Way::across ? GoodsBox{b.u, begin, b.w, end - begin}
                              : GoodsBox{begin, b.v, end - begin, b.l};
  }

  bool is_whole(const GoodsBox& region, std::span<int> ids) const {
    if (ids.size() != 1) return false;
    const GoodsBox& b = pieces_[ids[0]];
    return b.u == region.u && b.v == region.v && b.w == region.w && b.l == region.l;
  }

  /// Pieces in groups that no stroke of this way can divide further.
  std::vector<Part> parts_of(std::span<int> ids, Way way) const {
    std::stable_sort(ids.begin(), ids.end(),
                     [&](int a, int b) { return begin_of(pieces_[a], way) < begin_of(pieces_[b], way); });
    std::vector<Part> parts;
    std::size_t first = 0;
    Ticks end = 0;
    for (std::size_t i = 0; i < ids.size(); ++i) {
      const GoodsBox& b = pieces_[ids[i]];
      if (i == 0 || begin_of(b, way) >= end) {
        first = i;
        parts.push_back({begin_of(b, way), end_of(b, way), {}});
      }
      end = parts.back().end = std::max(parts.back().end, end_of(b, way));
      parts.back().ids = ids.subspan(first, i + 1 - first);
    }
    return parts;
  }

  void leave(const GoodsBox& region) {
    GoodsBox b = region;
    const Ticks left = std::max(b.u, goods_.selvage),
                right = std::min(b.u + b.w, goods_.width - goods_.selvage);
    b.u = left, b.w = right - left;
    if (b.w >= kInch.ticks && b.l >= kInch.ticks) plan_.offcuts.push_back(b);
  }

  Cut::Frees left_over(const GoodsBox& region) const {
    if (region.u + region.w <= goods_.selvage || region.u >= goods_.width - goods_.selvage)
      return Cut::Frees::selvage;
    return region.w >= kInch.ticks && region.l >= kInch.ticks ? Cut::Frees::offcut : Cut::Frees::waste;
  }

  void stroke(const GoodsBox& region, Way way, int depth, Ticks at, Cut::Frees frees,
              std::span<const int> ids) {
    Cut cut;
    cut.kind = way == Way::along ? Stroke::Kind::rip
               : depth == 0      ? Stroke::Kind::cross_cut
                                 : Stroke::Kind::trim;
    cut.at = at;
    cut.from = way == Way::across ? region.u : region.v;
    cut.to = way == Way::across ? region.u + region.w : region.v + region.l;
    cut.frees = frees;
    cut.row = static_cast<int>(plan_.rows.size());
    cut.pieces.assign(ids.begin(), ids.end());
    plan_.cuts.push_back(std::move(cut));
  }

  void cut_out_piece(const int& id) {
    const GoodsBox& b = pieces_[static_cast<std::size_t>(id)];
    stroke(b, Way::across, 1, b.v, Cut::Frees::piece, {&id, 1});
    plan_.cuts.back().kind = Stroke::Kind::around;
  }

  void split(const GoodsBox& region, std::span<int> ids, Way way, int depth, bool stuck) {
    if (is_whole(region, ids)) return;
    const auto parts = parts_of(ids, way);
    const Way other = way == Way::across ? Way::along : Way::across;
    const Ticks region_end = end_of(region, way);
    const bool idle =
        parts.size() == 1 && parts[0].begin == begin_of(region, way) && parts[0].end == region_end;
    if (idle && stuck) {
      plan_.straight = false;
      for (const int& id : ids)
        cut_out_piece(id);
      return;
    }
    Ticks at = begin_of(region, way);
    std::optional<std::size_t> last_cut;
    for (const auto& part : parts) {
      if (part.begin > at) {
        const GoodsBox rest = cut_out(region, way, at, part.begin);
        stroke(region, way, depth, part.begin, left_over(rest), {});
        leave(rest);
        last_cut = plan_.cuts.size() - 1;
      }
      const GoodsBox own = cut_out(region, way, part.begin, part.end);
      const bool whole = is_whole(own, part.ids);
      if (depth == 0) plan_.rows.push_back(part.begin);
      if (part.end < region_end) {
        const auto frees = whole ? Cut::Frees::piece : depth == 0 ? Cut::Frees::row : Cut::Frees::strip;
        stroke(region, way, depth, part.end, frees, part.ids);
        last_cut = plan_.cuts.size() - 1;
      } else if (whole && last_cut) {
        plan_.cuts[*last_cut].last = part.ids[0];
      }
      at = part.end;
      if (depth == 0) split(own, part.ids, other, 1, false); // a row is finished before the next is begun
    }
    if (at < region_end) leave(cut_out(region, way, at, region_end));
    if (depth == 0) return;
    for (const auto& part : parts)
      split(cut_out(region, way, part.begin, part.end), part.ids, other, depth + 1, idle);
  }

  const std::vector<GoodsBox>& pieces_;
  const Stretch goods_;
  CutPlan plan_;
};

} // namespace

CutPlan cut_plan(const std::vector<GoodsBox>& pieces, const Stretch& goods) {
  return Knife(pieces, goods).run();
}

} // namespace treadfold::knife
