#include "cut/check.h"

#include "cut/pack/outline_check.h"

#include <algorithm>
#include <fmt/format.h>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <tuple>

namespace treadfold {
namespace {

using Breaches = std::vector<std::string>;
using PieceById = std::map<std::string, const CutPiece*>;

void check_all_placed_once(const PieceById& by_id, const Layout& layout, Breaches& breaches) {
  std::map<std::string, int> times;
  for (const auto& roll : layout.rolls)
    for (const auto& p : roll.placements)
      ++times[p.piece];
  for (const auto& [id, piece] : by_id)
    if (const int n = times[id]; n != 1)
      breaches.push_back(fmt::format("piece {} is placed {} times", id, n));
  for (const auto& [id, n] : times)
    if (!by_id.contains(id)) breaches.push_back(fmt::format("{} is placed, but is no piece of the job", id));
}

bool is_outline_of(const CutPiece& piece, const Placement& p) {
  const auto lies = [&](const GoodsRing& ring, const GoodsRing& on_goods) {
    return std::equal(ring.begin(), ring.end(), on_goods.begin(), on_goods.end(),
                      [&](GoodsPoint c, GoodsPoint at) {
                        if (p.turned) c = {piece.width - c.u, piece.length - c.v};
                        return at == GoodsPoint{p.u + c.u, p.v + c.v};
                      });
  };
  const auto &holes = piece.outline.holes, &on_goods = p.outline.holes;
  return lies(piece.outline.ring, p.outline.ring) &&
         std::equal(holes.begin(), holes.end(), on_goods.begin(), on_goods.end(), lies);
}

void check_sizes_and_edges(const PieceById& by_id, const Carpet& carpet, const RollLayout& roll,
                           Breaches& breaches) {
  const Length hand = roll.remnant ? roll.available : roll.length_to_buy;
  Length end;
  for (const auto& p : roll.placements) {
    const auto piece = by_id.find(p.piece);
    if (piece != by_id.end() && (p.width != piece->second->width || p.length != piece->second->length))
      breaches.push_back(fmt::format("piece {} is turned or has another size on {}", p.piece, roll.stock));
    if (piece != by_id.end() && !p.outline.empty() && !is_outline_of(*piece->second, p))
      breaches.push_back(fmt::format("piece {} has another outline on {}", p.piece, roll.stock));
    if (p.turned && carpet.directional)
      breaches.push_back(fmt::format("piece {} is turned on {}", p.piece, roll.stock));
    if (p.u < roll.selvage || p.u + p.width > roll.width - roll.selvage)
      breaches.push_back(fmt::format("piece {} leaves the usable width of {}", p.piece, roll.stock));
    if (p.v < Length{} || p.v + p.length > hand)
      breaches.push_back(fmt::format("piece {} goes over an end of {}", p.piece, roll.stock));
    end = std::max(end, p.v + p.length);
  }
  if (end != roll.length_used)
    breaches.push_back(fmt::format("length used of {} is not where its last piece ends", roll.stock));
  if (!roll.remnant && roll.length_to_buy < roll.length_used)
    breaches.push_back(fmt::format("less of {} is bought than used", roll.stock));
  if (roll.length_used > roll.available)
    breaches.push_back(fmt::format("{} is not as long as what is cut from it", roll.stock));
}

pack::Outline outline_of(const Placement& p) {
  const auto in_ticks = [](const GoodsRing& ring) {
    pack::Ring ticks;
    for (const auto& c : ring)
      ticks.push_back({c.u.ticks, c.v.ticks});
    return ticks;
  };
  const auto right = p.u + p.width, end = p.v + p.length;
  if (p.outline.empty()) return {in_ticks({{p.u, p.v}, {right, p.v}, {right, end}, {p.u, end}}), {}};
  pack::Outline outline{in_ticks(p.outline.ring), {}};
  for (const auto& hole : p.outline.holes)
    outline.holes.push_back(in_ticks(hole));
  return outline;
}

void check_overlaps(const RollLayout& roll, Breaches& breaches) {
  std::vector<const Placement*> by_start;
  for (const auto& p : roll.placements)
    by_start.push_back(&p);
  std::stable_sort(by_start.begin(), by_start.end(), [](auto* a, auto* b) { return a->v < b->v; });
  std::vector<const Placement*> open;
  for (const Placement* p : by_start) {
    std::erase_if(open, [&](const Placement* o) { return o->v + o->length <= p->v; });
    for (const Placement* o : open)
      if (overlap(*o, *p))
        breaches.push_back(fmt::format("pieces {} and {} overlap on {}", o->piece, p->piece, roll.stock));
    open.push_back(p);
  }
}

/// Both motifs lie on one lattice if some whole i, j take the one to the other.
bool on_one_lattice(Length u, Length v, const Pattern& pattern) {
  if (u.ticks % pattern.width.ticks != 0) return false;
  const auto columns =
      u.ticks / pattern.width.ticks % pattern.length.ticks; // of drops, length many make a whole
  return (v.ticks - columns * pattern.drop.ticks) % pattern.length.ticks == 0;
}

void check_match(const PieceById& by_id, const Carpet& carpet, const RollLayout& roll, Breaches& breaches) {
  if (!carpet.pattern) return;
  std::map<std::string, std::tuple<std::string, Length, Length>> motifs;
  for (const auto& p : roll.placements) {
    const auto piece = by_id.find(p.piece);
    if (piece == by_id.end() || !piece->second->matched) continue;
    const CutPiece& c = *piece->second;
    const Length u = p.u + c.phase_u, v = p.v + c.phase_v;
    const auto [first, is_new] = motifs.try_emplace(c.match_group, p.piece, u, v);
    const auto& [id, first_u, first_v] = first->second;
    if (!is_new && !on_one_lattice(u - first_u, v - first_v, *carpet.pattern))
      breaches.push_back(fmt::format("pieces {} and {} do not match on {}", id, p.piece, roll.stock));
  }
}

/// Goods cut apart stroke by stroke. Parts of equal extent across lie in one line and can be found by where
/// they begin; so can parts of equal extent along.
class Parts {
public:
  Parts(Length width, Length length) { add({{}, {}, width, length}); }

  /// No part that has lost a piece so is cut straight any more.
  bool cut_out(const Placement& p) {
    const auto holds = [&](const Part& part) {
      return part.u <= p.u && part.v <= p.v && p.u + p.width <= part.u + part.width &&
             p.v + p.length <= part.v + part.length;
    };
    if (std::none_of(holed_.begin(), holed_.end(), holds)) {
      std::optional<Part> whole;
      for (const auto& [extent, line] : by_u_)
        for (const auto& [v, part] : line)
          if (holds(part)) whole = part;
      if (!whole) return false;
      remove(*whole);
      holed_.push_back(*whole);
    }
    add({p.u, p.v, p.width, p.length});
    return true;
  }

  bool cut(const Stroke& s) {
    const bool rip = s.kind == Stroke::Kind::rip;
    auto& lines = rip ? by_v_ : by_u_;
    const auto line = lines.find({s.from, s.to});
    if (line == lines.end()) return false;
    auto after = line->second.upper_bound(s.at);
    if (after == line->second.begin()) return false;
    const Part whole = std::prev(after)->second;
    Part near = whole, far = whole;
    if (rip) {
      near.width = s.at - whole.u, far.u = s.at, far.width = whole.width - near.width;
    } else {
      near.length = s.at - whole.v, far.v = s.at, far.length = whole.length - near.length;
    }
    if (near.width <= Length{} || near.length <= Length{} || far.width <= Length{} || far.length <= Length{})
      return false;
    remove(whole), add(near), add(far);
    return true;
  }

  bool has(const Placement& p) const {
    const auto line = by_u_.find({p.u, p.u + p.width});
    if (line == by_u_.end()) return false;
    const auto part = line->second.find(p.v);
    return part != line->second.end() && part->second.length == p.length;
  }

private:
  struct Part {
    Length u, v, width, length;
  };
  using Extent = std::pair<Length, Length>;
  using Lines = std::map<Extent, std::map<Length, Part>>;

  void add(const Part& p) {
    by_u_[{p.u, p.u + p.width}][p.v] = p;
    by_v_[{p.v, p.v + p.length}][p.u] = p;
  }
  void remove(const Part& p) {
    by_u_[{p.u, p.u + p.width}].erase(p.v);
    by_v_[{p.v, p.v + p.length}].erase(p.u);
  }

  Lines by_u_, by_v_;
  std::vector<Part> holed_;
};

/// Each cross-cut of the whole roll frees what lies before it, from the one before on; what holds no piece is
/// let fall.
void check_in_hand(const RollLayout& roll, Length most, Breaches& breaches) {
  Length from;
  const auto free = [&](Length to) {
    const bool holds = std::any_of(roll.placements.begin(), roll.placements.end(),
                                   [&](const Placement& p) { return from <= p.v && p.v < to; });
    if (to - from > most && holds)
      breaches.push_back(fmt::format("too much of {} would be in hand at once", roll.stock));
    from = to;
  };
  for (const auto& s : roll.knife_order)
    if (s.kind == Stroke::Kind::cross_cut) free(s.at);
  free(roll.remnant ? roll.available : roll.length_to_buy);
}

void check_knife(const RollLayout& roll, bool straight, Breaches& breaches) {
  Parts parts(roll.width, roll.remnant ? roll.available : roll.length_to_buy);
  std::size_t number = 0;
  for (const auto& stroke : roll.knife_order) {
    ++number;
    if (stroke.kind != Stroke::Kind::around) {
      if (!parts.cut(stroke))
        breaches.push_back(
            fmt::format("stroke {} on {} does not go from edge to edge of one part", number, roll.stock));
      continue;
    }
    if (straight) breaches.push_back(fmt::format("stroke {} on {} is not straight", number, roll.stock));
    const auto piece = std::find_if(roll.placements.begin(), roll.placements.end(),
                                    [&](const Placement& p) { return p.piece == stroke.frees; });
    const bool its_own = piece != roll.placements.end() && stroke.at == piece->v && stroke.from == piece->u &&
                         stroke.to == piece->u + piece->width;
    if (!its_own || !parts.cut_out(*piece))
      breaches.push_back(
          fmt::format("stroke {} on {} does not go around a piece of one part", number, roll.stock));
  }
  for (const auto& p : roll.placements)
    if (!parts.has(p))
      breaches.push_back(fmt::format("the strokes on {} do not free piece {}", roll.stock, p.piece));
}

const Remnant* remnant_named(const Carpet& carpet, const std::string& name) {
  for (const auto& r : carpet.remnants)
    if (r.name == name) return &r;
  return nullptr;
}

void check_goods(const Carpet& carpet, const RollLayout& roll, Breaches& breaches) {
  if (roll.remnant) {
    const Remnant* r = remnant_named(carpet, roll.stock);
    if (!r || r->width != roll.width || r->length != roll.available || roll.selvage != Length{})
      breaches.push_back(fmt::format("{} is not a remnant of this carpet", roll.stock));
    return;
  }
  const auto& widths = carpet.roll_widths;
  if (std::find(widths.begin(), widths.end(), roll.width) == widths.end() || roll.selvage != carpet.selvage)
    breaches.push_back(fmt::format("{} is not a roll of this carpet", roll.stock));
  if (carpet.sold_in.ticks > 0 && roll.length_to_buy.ticks % carpet.sold_in.ticks != 0)
    breaches.push_back(fmt::format("{} is not bought as it is sold", roll.stock));
}

/// Each group from goods of one dye lot; a match group from a remnant from nothing else.
void check_lots(const PieceById& by_id, const Carpet& carpet, const Layout& layout, Breaches& breaches) {
  std::map<std::string, std::set<std::string>> lots, matches;
  for (const auto& roll : layout.rolls) {
    const Remnant* r = roll.remnant ? remnant_named(carpet, roll.stock) : nullptr;
    const bool same_lot = !roll.remnant || (r && !r->dye_lot.empty() && r->dye_lot == carpet.dye_lot);
    for (const auto& p : roll.placements) {
      const auto piece = by_id.find(p.piece);
      if (piece == by_id.end()) continue;
      lots[piece->second->group].insert(same_lot ? "roll" : "remnant " + roll.stock);
      if (carpet.pattern && piece->second->matched)
        matches[piece->second->match_group].insert(roll.remnant ? "remnant " + roll.stock : "roll");
    }
  }
  for (const auto& [group, from] : lots)
    if (from.size() > 1) breaches.push_back(fmt::format("\"{}\" is cut from more than one dye lot", group));
  for (const auto& [group, from] : matches)
    if (from.size() > 1)
      breaches.push_back(fmt::format("matched pieces \"{}\" are cut from two stretches", group));
}

} // namespace

bool overlap(const Placement& a, const Placement& b) {
  return a.u < b.u + b.width && b.u < a.u + a.width && a.v < b.v + b.length && b.v < a.v + a.length &&
         pack::insides_meet(outline_of(a), outline_of(b));
}

std::vector<std::string> check_layout(const std::vector<CutPiece>& pieces, const Carpet& carpet,
                                      const Layout& layout) {
  Breaches breaches;
  PieceById by_id;
  for (const auto& p : pieces)
    if (!by_id.emplace(p.id, &p).second) breaches.push_back(fmt::format("two pieces are called {}", p.id));
  check_all_placed_once(by_id, layout, breaches);
  Length used, bought, in_hand = carpet.in_hand.value_or(Length{});
  for (const auto& p : pieces) // the longest is in hand whatever is done
    in_hand = std::max(in_hand, p.length);
  for (const auto& roll : layout.rolls) {
    check_goods(carpet, roll, breaches);
    check_sizes_and_edges(by_id, carpet, roll, breaches);
    check_overlaps(roll, breaches);
    check_match(by_id, carpet, roll, breaches);
    check_knife(roll, carpet.laid == Laid::straight, breaches);
    if (carpet.in_hand && carpet.laid == Laid::straight) check_in_hand(roll, in_hand, breaches);
    if (!roll.remnant) used += roll.length_used, bought += roll.length_to_buy;
  }
  check_lots(by_id, carpet, layout, breaches);
  if (used < layout.lower_bound) breaches.push_back("the layout is shorter than its lower bound");
  if (bought > Length{} && bought < carpet.least_order)
    breaches.push_back("less is bought than the least order");
  return breaches;
}

} // namespace treadfold
