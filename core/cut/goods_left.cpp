#include "cut/goods_left.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {
namespace {

using rows::Ticks;

/// Ticks between the beginnings of two stretches in a lot's dimensions, before the repeat is heeded.
constexpr Ticks kApart = Ticks{1} << 40;

const Remnant* remnant_named(const Carpet& carpet, const std::string& name) {
  const auto found = std::find_if(carpet.remnants.begin(), carpet.remnants.end(),
                                  [&](const Remnant& r) { return r.name == name; });
  return found != carpet.remnants.end() ? &*found : nullptr;
}

class Sorting {
public:
  Sorting(const std::vector<CutPiece>& planned, const std::vector<CutPiece>& wanted, const Carpet& carpet,
          const Layout& before, const Cutting& cutting, const RecoverOptions& options)
      : carpet_(carpet), before_(before), cutting_(cutting), options_(options) {
    for (const auto& piece : planned)
      pieces_[piece.id] = &piece;
    for (const auto& piece : wanted)
      wanted_.insert(piece.id);
    done_ = cutting.cut;
    for (const auto& spoiled : cutting.spoiled)
      done_.push_back(spoiled.piece);
    const Ticks repeat = carpet.pattern ? carpet.pattern->length.ticks : 1;
    apart_ = kApart / repeat * repeat;
    for (const auto& roll : before.rolls)
      if (!roll.remnant && first_roll_.empty()) first_roll_ = roll.stock;
  }

  std::vector<GoodsLot> run() {
    std::vector<GoodsLot> lots;
    GoodsLot roll;
    roll.selvage = carpet_.selvage;
    roll.width = before_.offers.front().width;
    for (const auto& stretch : before_.rolls)
      if (!stretch.remnant) roll.width = stretch.width;
    for (const auto& stretch : before_.rolls) {
      if (of_the_roll(stretch)) continue;
      GoodsLot& lot = lots.emplace_back();
      lot.remnant = stretch.stock, lot.width = stretch.width;
      for (const auto& p : stretch.placements)
        lot.groups.insert(pieces_.at(p.piece)->group);
      add(lot, stretch);
    }
    for (const auto& stretch : before_.rolls)
      if (of_the_roll(stretch)) add(roll, stretch);
    for (const auto& remnant : options_.more)
      add_part(roll, {remnant.name, remnant.name, {{}, {}, remnant.width, remnant.length}, {}, {}}, {});
    lots.push_back(std::move(roll));
    for (auto& lot : lots)
      finish(lot);
    return lots;
  }

private:
  /// With a pattern only the roll: how it runs on a remnant beside it is not known.
  bool of_the_roll(const RollLayout& stretch) const {
    if (!stretch.remnant) return true;
    const auto* remnant = remnant_named(carpet_, stretch.stock);
    return remnant && !carpet_.pattern && !carpet_.dye_lot.empty() && remnant->dye_lot == carpet_.dye_lot;
  }

  bool spoken_of(const RollLayout& stretch) const {
    return stretch.stock == (cutting_.of.empty() ? first_roll_ : cutting_.of);
  }

  std::vector<Flaw> flaws_of(const RollLayout& stretch) const {
    if (!spoken_of(stretch)) return {};
    auto flaws = cutting_.flaws;
    std::stable_sort(flaws.begin(), flaws.end(),
                     [](const Flaw& a, const Flaw& b) { return a.from < b.from; });
    return flaws;
  }

  static Length planned_length(const RollLayout& stretch) {
    return stretch.remnant ? stretch.available : stretch.length_to_buy;
  }

  Length length_of(const RollLayout& stretch) const {
    const auto planned = planned_length(stretch);
    return spoken_of(stretch) ? cutting_.roll_length.value_or(planned) : planned;
  }

  bool done(const std::string& piece) const {
    return std::find(done_.begin(), done_.end(), piece) != done_.end();
  }

  bool sound(const RollLayout& stretch, const Placement& p) const {
    const auto flaws = flaws_of(stretch);
    return p.v + p.length <= length_of(stretch) &&
           std::none_of(flaws.begin(), flaws.end(),
                        [&](const Flaw& f) { return f.from < p.v + p.length && p.v < f.to; });
  }

  /// The plan is cut to its end, or only so far.
  std::size_t strokes_made(const RollLayout& stretch) const {
    return options_.keep_plan ? stretch.knife_order.size() : strokes_to_free(stretch, done_);
  }

  /// The parts with the goods' true length, without flaws and without the pieces that are cut or kept.
  std::vector<GoodsPart> sound_parts(const RollLayout& stretch, const std::set<std::string>& kept) const {
    const Length planned = planned_length(stretch), length = length_of(stretch);
    auto parts = parts_after(stretch, strokes_made(stretch));
    std::erase_if(parts, [&](const GoodsPart& part) {
      return std::any_of(stretch.placements.begin(), stretch.placements.end(), [&](const auto& p) {
        // What is slanted is no part from which rectangles could be cut.
        return (done(p.piece) || kept.contains(p.piece) || !p.outline.empty()) && is_cut_to(part, p);
      });
    });
    if (length > planned) {
      const auto last = std::find_if(parts.begin(), parts.end(), [&](const GoodsPart& p) {
        return p.v + p.length == planned && p.width == stretch.width;
      });
      if (last != parts.end())
        last->length = length - last->v;
      else
        parts.push_back({{}, planned, stretch.width, length - planned});
    }
    std::vector<GoodsPart> sound;
    for (auto part : parts) {
      const Length end = std::min(part.v + part.length, length);
      for (const auto& flaw : flaws_of(stretch)) {
        if (flaw.to <= part.v || flaw.from >= end) continue;
        if (flaw.from > part.v) sound.push_back({part.u, part.v, part.width, flaw.from - part.v});
        part.v = flaw.to;
      }
      if (end > part.v) sound.push_back({part.u, part.v, part.width, end - part.v});
    }
    return sound;
  }

  void add(GoodsLot& lot, const RollLayout& stretch) {
    std::set<std::string> kept; // what lies loose as it should is as good as cut
    const auto loose = parts_after(stretch, strokes_made(stretch));
    const Ticks base = begin_of_next(lot);
    for (const auto& p : stretch.placements) {
      const auto& piece = *pieces_.at(p.piece);
      const bool stays =
          options_.keep_plan ||
          std::any_of(loose.begin(), loose.end(), [&](const GoodsPart& g) { return is_cut_to(g, p); });
      if (stays && !done(p.piece) && wanted_.contains(p.piece) && sound(stretch, p)) kept.insert(p.piece);
      if (piece.matched)
        lot.motifs.try_emplace(piece.match_group, rows::Spot{(p.u + piece.phase_u - stretch.selvage).ticks,
                                                             base + (p.v + piece.phase_v).ticks});
    }
    lot.kept.insert(kept.begin(), kept.end());
    // The end of the last roll is left as a roll: the part from edge to edge that reaches furthest.
    auto parts = sound_parts(stretch, kept);
    auto rest = parts.end();
    if (!stretch.remnant)
      for (auto part = parts.begin(); part != parts.end(); ++part)
        if (part->width == stretch.width && part->v + part->length == length_of(stretch)) rest = part;
    if (lot.rest.whole.length > Length{}) lot.parts.push_back(lot.rest);
    lot.rest = {};
    for (auto part = parts.begin(); part != parts.end(); ++part) {
      LeftPart left{"", stretch.stock, *part, {}, {}};
      const Length from = std::max(part->u, stretch.selvage),
                   to = std::min(part->u + part->width, stretch.width - stretch.selvage);
      if (to <= from) continue;
      left.edge = from - part->u;
      left.usable = {(from - stretch.selvage).ticks, base + part->v.ticks, (to - from).ticks,
                     part->length.ticks};
      (part == rest ? lot.rest : lot.parts.emplace_back()) = std::move(left);
    }
    for (const auto& spoiled : cutting_.spoiled)
      for (const auto& p : stretch.placements)
        if (p.piece == spoiled.piece) add_sound_part(lot, spoiled);
    ++stretches_[lot.remnant];
  }

  /// Of a spoiled piece; where in it the sound part lies is not known, so neither is the pattern.
  void add_sound_part(GoodsLot& lot, const SpoiledPiece& spoiled) {
    if (carpet_.pattern || spoiled.sound_width <= Length{} || spoiled.sound_length <= Length{}) return;
    ++stretches_[lot.remnant];
    add_part(lot,
             {"what is sound of " + spoiled.piece,
              spoiled.piece,
              {{}, {}, spoiled.sound_width, spoiled.sound_length},
              {},
              {}},
             {});
  }

  void add_part(GoodsLot& lot, LeftPart part, Length edge) {
    part.edge = edge;
    part.usable = {0, begin_of_next(lot), part.whole.width.ticks, part.whole.length.ticks};
    lot.parts.push_back(std::move(part));
    ++stretches_[lot.remnant];
  }

  Ticks begin_of_next(const GoodsLot& lot) { return apart_ * stretches_[lot.remnant]; }

  void finish(GoodsLot& lot) {
    const auto size = [](const LeftPart& p) { return p.usable.w * p.usable.l; };
    std::stable_sort(lot.parts.begin(), lot.parts.end(),
                     [&](const LeftPart& a, const LeftPart& b) { return size(a) < size(b); });
    int number = 0;
    for (auto& part : lot.parts)
      if (part.name.empty()) part.name = fmt::format("loose part {}", ++number);
    // Moved to the end, where rows may go on beyond it.
    const Ticks begin = begin_of_next(lot);
    lot.rest.usable.v = begin + (lot.rest.whole.length > Length{} ? lot.rest.whole.v.ticks : 0);
    if (lot.rest.whole.length > Length{}) lot.rest.name = "rest of " + lot.rest.of;
  }

  const Carpet& carpet_;
  const Layout& before_;
  const Cutting& cutting_;
  const RecoverOptions& options_;
  std::map<std::string, const CutPiece*> pieces_;
  std::set<std::string> wanted_;
  std::vector<std::string> done_;
  std::string first_roll_;
  Ticks apart_ = kApart;
  std::map<std::string, Ticks> stretches_; // of each lot so far
};

} // namespace

std::vector<GoodsLot> goods_left(const std::vector<CutPiece>& planned, const std::vector<CutPiece>& wanted,
                                 const Carpet& carpet, const Layout& before, const Cutting& cutting,
                                 const RecoverOptions& options) {
  return Sorting(planned, wanted, carpet, before, cutting, options).run();
}

} // namespace treadfold
