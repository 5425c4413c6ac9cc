#include "sheets/roll_view.h"

#include "sheets/edge_marks.h"
#include "sheets/outline_room.h"
#include "units/steady.h"

#include <algorithm>
#include <numbers>
#include <optional>

namespace treadfold {

namespace {

constexpr double kLeftGutter = 24, kRightGutter = 15, kEnds = 7; // mm round the drawing
constexpr double kDisc = 2.5;                                    // radius of a stroke's number
constexpr double kDimensionType = 3.6, kRipType = 3.3;

Box around(PagePoint c, double r) { return {c.x - r, c.y - r, c.x + r, c.y + r}; }

bool touch(const Box& a, const Box& b) {
  return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

const PlannedPiece* piece_of(const Plan& plan, const std::string& id) {
  for (const PlannedPiece& planned : plan.pieces)
    if (planned.piece.id == id) return &planned;
  return nullptr;
}

/// The page, and what on it is taken.
class RollPage {
public:
  RollPage(Drawing& page, const Box& box, const Plan& plan, const RollLayout& roll, const RollPart& part,
           double denominator)
      : page_(page), plan_(plan), reader_(plan.job.reader()), roll_(roll), part_(part),
        box_(box), view_{{box.left + kLeftGutter, box.top + kEnds - part.from.mm() / denominator},
                         denominator} {}

  double draw() {
    goods();
    // Words go where strokes are not: so first where every mark lies, then the words of most weight.
    for (const Offcut& offcut : roll_.offcuts)
      offcut_ground(offcut);
    for (const Placement& placement : roll_.placements)
      piece_ground(placement);
    for (std::size_t i = 0; i < roll_.knife_order.size(); ++i)
      stroke_line(roll_.knife_order[i]);
    gutters();
    for (const Placement& placement : roll_.placements)
      if (small(placement)) piece_words(placement);
    rip_and_trim_numbers();
    for (const Placement& placement : roll_.placements)
      if (!small(placement)) piece_words(placement);
    rip_dimensions();
    for (const Offcut& offcut : roll_.offcuts)
      offcut_words(offcut);
    return bottom() + kEnds;
  }

private:
  double x(Length u) const { return view_.at(u.mm(), 0).x; }
  double y(Length v) const { return view_.at(0, v.mm()).y; }
  double top() const { return y(part_.from); }
  double bottom() const { return y(part_.to); }
  double right() const { return x(roll_.width); }

  /// What of the rectangle is on this page.
  std::optional<Box> shown(Length u, Length v, Length width, Length length) const {
    const Length from = std::max(v, part_.from), to = std::min(v + length, part_.to);
    if (to <= from) return std::nullopt;
    return Box{x(u), y(from), x(u + width), y(to)};
  }

  bool room_for(const Box& box) const {
    return std::none_of(taken_.begin(), taken_.end(), [&](const Box& other) { return touch(box, other); });
  }

  /// Does a stroke of the knife or the edge of a piece run through the box?
  bool struck(const Box& box) const {
    const auto crossed = [&](const Placement& p, Length v) {
      return touch(box, {x(p.u), y(v), x(p.u + p.width), y(v)});
    };
    for (const Placement& p : roll_.placements)
      if (crossed(p, p.v) || crossed(p, p.v + p.length)) return true;
    return std::any_of(roll_.knife_order.begin(), roll_.knife_order.end(), [&](const Stroke& s) {
      const bool rip = s.kind == Stroke::Kind::rip;
      return touch(box, rip ? Box{x(s.at), y(s.from), x(s.at), y(s.to)}
                            : Box{x(s.from), y(s.at), x(s.to), y(s.at)});
    });
  }

  void goods() {
    const bool begins = part_.from == Length{}, ends = part_.to == drawn_length(roll_);
    rectangle(page_, {x({}), top(), right(), bottom()}, Pen::none, Fill::paper);
    line(page_, {x({}), top()}, {x({}), bottom()}, Pen::outline);
    line(page_, {right(), top()}, {right(), bottom()}, Pen::outline);
    if (begins) line(page_, {x({}), top()}, {right(), top()}, Pen::outline);
    if (ends) line(page_, {x({}), bottom()}, {right(), bottom()}, Pen::outline);
    if (roll_.selvage > Length{})
      for (const Length u : {roll_.selvage, roll_.width - roll_.selvage})
        line(page_, {x(u), top()}, {x(u), bottom()}, Pen::hairline);

    const std::string above = !begins ? reader_.say("Goes on from the page before")
                              : roll_.remnant
                                  ? reader_.say("This end: every length is taken from here")
                                  : reader_.say("The roll's end: every length is taken from here");
    const std::string below = !ends           ? reader_.say("Goes on overleaf")
                              : roll_.remnant ? reader_.say("The far end")
                                              : reader_.say("End of what is ordered");
    const double middle = (x({}) + right()) / 2;
    write(page_, {middle, top() - 2.2}, above, {kDimensionType, false, false, Anchor::middle});
    write(page_, {middle, bottom() + 4.6}, below, {kDimensionType, false, false, Anchor::middle});
    const double room = bottom() - top();
    if (room > 12) {
      const double shaft = std::min(30.0, room - 4);
      const double at = std::min(box_.right - 1.5, right() + 13);
      pile_arrow(page_, {at, top() + 2}, {at, top() + 2 + shaft}, reader_);
    }
  }

  /// Too small for words beside the numbers of strokes: the piece's id goes first, and they make do.
  bool small(const Placement& p) const {
    constexpr double kSmall = 16;
    return view_.length(p.width.mm()) < kSmall || view_.length(p.length.mm()) < kSmall;
  }

  void piece_ground(const Placement& p) {
    const auto box = shown(p.u, p.v, p.width, p.length);
    if (!box) return;
    const PlannedPiece* planned = piece_of(plan_, p.piece);
    const bool sound = !planned || planned->proof.passed;
    const Pen pen = sound ? Pen::hairline : Pen::warning;
    const Fill fill = sound ? Fill::carpet : Fill::warning;
    if (p.outline.empty()) return rectangle(page_, *box, pen, fill);
    page_.paths.push_back(on_page(p.outline.ring, pen, fill));
    for (const GoodsRing& hole : p.outline.holes)
      page_.paths.push_back(on_page(hole, pen, Fill::paper));
  }

  /// Along each side: where it comes onto the page, and where it leaves it.
  Path on_page(const GoodsRing& ring, Pen pen, Fill fill) const {
    Path path{{}, true, pen, fill};
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const GoodsPoint a = ring[i], b = ring[(i + 1) % ring.size()];
      const bool down = a.v <= b.v;
      const Length first = down ? part_.from : part_.to, last = down ? part_.to : part_.from;
      if ((down ? b.v < first : b.v > first) || (down ? a.v > last : a.v < last)) continue;
      path.points.push_back(at(a, b, first));
      path.points.push_back(at(b, a, last));
    }
    return path;
  }

  void offcut_ground(const Offcut& o) {
    if (const auto box = shown(o.u, o.v, o.width, o.length))
      rectangle(page_, *box, Pen::hairline, Fill::offcut);
  }

  void stroke_line(const Stroke& s) {
    if (s.kind == Stroke::Kind::rip) {
      const Length from = std::max(s.from, part_.from), to = std::min(s.to, part_.to);
      if (from < to) line(page_, {x(s.at), y(from)}, {x(s.at), y(to)}, Pen::knife);
    } else if (s.kind == Stroke::Kind::around) {
      for (const Placement& p : roll_.placements)
        if (p.piece == s.frees) sides(p);
    } else if (here(s.at)) {
      line(page_, {x(s.from), y(s.at)}, {x(s.to), y(s.at)}, Pen::knife);
    }
  }

  /// Of a piece that the knife goes around, as far as they are on this page.
  void sides(const Placement& p) {
    const Length right = p.u + p.width, end = p.v + p.length;
    if (p.outline.empty()) return sides(GoodsRing{{p.u, p.v}, {right, p.v}, {right, end}, {p.u, end}});
    sides(p.outline.ring);
    for (const GoodsRing& hole : p.outline.holes)
      sides(hole);
  }
  void sides(const GoodsRing& ring) {
    for (std::size_t i = 0; i < ring.size(); ++i) {
      GoodsPoint a = ring[i], b = ring[(i + 1) % ring.size()];
      if (a.v > b.v) std::swap(a, b);
      if (b.v < part_.from || a.v > part_.to || (a.v == b.v && !here(a.v))) continue;
      line(page_, at(a, b, part_.from), at(b, a, part_.to), Pen::knife);
    }
  }

  /// a on the page; where the line from a to b comes from beyond the page's end `edge`, where it passes that.
  PagePoint at(GoodsPoint a, GoodsPoint b, Length edge) const {
    const bool beyond = edge == part_.from ? a.v < edge : a.v > edge;
    if (!beyond) return {x(a.u), y(a.v)};
    const double share = (edge - a.v).mm() / (b.v - a.v).mm();
    return {x(a.u) + share * (x(b.u) - x(a.u)), y(edge)};
  }

  /// Is a stroke across at v drawn on this page? One that divides two pages belongs to the first.
  bool here(Length v) const { return (v > part_.from || part_.from == Length{}) && v <= part_.to; }

  void disc(PagePoint centre, std::size_t number) {
    Path circle{{}, true, Pen::dimension, Fill::paper};
    for (int i = 0; i < 24; ++i) {
      const double a = i * std::numbers::pi / 12;
      circle.points.push_back({centre.x + kDisc * steady::cos(a), centre.y + kDisc * steady::sin(a)});
    }
    page_.paths.push_back(std::move(circle));
    const std::string text = std::to_string(number);
    const double size = text.size() > 2 ? 2.3 : 3.0;
    write(page_, {centre.x, centre.y + 0.36 * size}, text, {size, true, false, Anchor::middle});
    taken_.push_back(around(centre, kDisc + 0.5));
  }

  /// Numbers of strokes that do not reach the right edge stand on the stroke, where they find room.
  void rip_and_trim_numbers() {
    for (std::size_t i = 0; i < roll_.knife_order.size(); ++i) {
      const Stroke& s = roll_.knife_order[i];
      const bool rip = s.kind == Stroke::Kind::rip;
      if (!rip && (in_gutter(s) || !here(s.at))) continue;
      const double from = rip ? y(std::max(s.from, part_.from)) : x(s.from);
      const double to = rip ? y(std::min(s.to, part_.to)) : x(s.to);
      if (to - from < 1) continue;
      for (const double share : {0.5, 0.72, 0.28, 0.9, 0.1}) {
        const double a = from + share * (to - from);
        const PagePoint c = rip ? PagePoint{x(s.at), a} : PagePoint{a, y(s.at)};
        const Box box = around(c, kDisc);
        if (box.top < top() || box.bottom > bottom() || !room_for(box)) continue;
        disc(c, i + 1);
        break;
      }
    }
  }

  bool in_gutter(const Stroke& s) const {
    return s.kind != Stroke::Kind::rip && s.from <= roll_.selvage && s.to >= roll_.width - roll_.selvage;
  }

  /// Strokes right across: running dimensions at the left, numbers at the right.
  void gutters() {
    std::vector<std::pair<Length, std::size_t>> across;
    for (std::size_t i = 0; i < roll_.knife_order.size(); ++i)
      if (in_gutter(roll_.knife_order[i]) && here(roll_.knife_order[i].at))
        across.push_back({roll_.knife_order[i].at, i + 1});
    std::stable_sort(across.begin(), across.end());
    std::vector<double> wanted;
    for (const auto& [v, number] : across)
      wanted.push_back(y(v));
    const double gap = 2 * kDisc + 0.4;
    const std::vector<double> places = spread(wanted, gap, top() - 2, bottom() + 4);
    for (std::size_t k = 0; k < across.size(); ++k) {
      line(page_, {right(), wanted[k]}, {right() + 2, places[k]}, Pen::dimension);
      disc({right() + 2 + kDisc, places[k]}, across[k].second);
      line(page_, {x({}) - 3, places[k]}, {x({}), wanted[k]}, Pen::dimension);
      const std::string text = show_length(across[k].first, reader_, true);
      const double room = kLeftGutter - 4.5;
      const double size = kDimensionType * std::min(1.0, room / text_width(text, kDimensionType, true));
      write(page_, {x({}) - 4, places[k] + 0.36 * size}, text, {size, true, false, Anchor::right});
    }
  }

  struct Words {
    std::vector<std::string> lines; // the first is bold
    bool upright = false;
  };

  /// The arrangement of the words that can be set largest in `box`, clear of what is taken; false: none can.
  bool set_words(const Box& box, const std::vector<Words>& choices, double largest, double least,
                 bool patch) {
    for (double size = largest; size >= least - 1e-9; size -= 0.3)
      for (const Words& w : choices) {
        double width = 0;
        for (std::size_t i = 0; i < w.lines.size(); ++i)
          width = std::max(width, text_width(w.lines[i], size, i == 0));
        const double height = leading(size) * static_cast<double>(w.lines.size() - 1) + size;
        const double bw = (w.upright ? height : width) + 1.2, bh = (w.upright ? width : height) + 1.2;
        if (bw > box.width() || bh > box.height()) continue;
        for (const double sx : {0.5, 0.3, 0.7, 0.0, 1.0})
          for (const double sy : {0.5, 0.7, 0.3, 0.0, 1.0}) {
            const double left = box.left + sx * (box.width() - bw),
                         upper = box.top + sy * (box.height() - bh);
            const Box at{left, upper, left + bw, upper + bh};
            if (!room_for(at)) continue;
            if (patch) rectangle(page_, at, Pen::none, Fill::paper);
            const PagePoint c = at.centre();
            for (std::size_t i = 0; i < w.lines.size(); ++i) {
              const double down = -height / 2 + 0.8 * size + leading(size) * static_cast<double>(i);
              const PagePoint base = w.upright ? PagePoint{c.x + down, c.y} : PagePoint{c.x, c.y + down};
              page_.texts.push_back(
                  {base, size, w.lines[i], Anchor::middle, i == 0, w.upright ? 90.0 : 0.0, false});
            }
            taken_.push_back(at);
            return true;
          }
      }
    return false;
  }

  static std::vector<Words> arrangements(const std::string& id, const std::string& w, const std::string& l) {
    std::vector<Words> out;
    for (const bool upright : {false, true}) {
      if (!id.empty()) {
        out.push_back({{id, w + " × " + l}, upright});
        out.push_back({{id, w + " ×", l}, upright});
        out.push_back({{id + "  " + w + " × " + l}, upright});
      } else {
        out.push_back({{w + " × " + l}, upright});
        out.push_back({{w + " ×", l}, upright});
      }
    }
    return out;
  }

  /// For its words, the best first: the largest rectangle that lies in its outline, the rectangle around it
  /// unless it goes in.
  std::vector<Box> rooms_for_words(const Placement& p) const {
    std::vector<Box> rooms;
    const auto add = [&](const std::optional<Box>& room) {
      if (room) rooms.push_back(*room);
    };
    if (!p.outline.empty())
      if (const auto room = largest_rectangle(p.outline, part_.from, part_.to))
        add(shown(room->low.u, room->low.v, room->high.u - room->low.u, room->high.v - room->low.v));
    if (!goes_in(p.outline)) add(shown(p.u, p.v, p.width, p.length));
    return rooms;
  }

  void piece_words(const Placement& p) {
    for (const Box& room : rooms_for_words(p))
      if (piece_words(p, room)) return;
  }

  bool piece_words(const Placement& p, const Box& whole) {
    const Box box{whole.left + 0.8, whole.top + 0.8, whole.right - 0.8, whole.bottom - 0.8};
    const PlannedPiece* planned = piece_of(plan_, p.piece);
    const bool sound = !planned || planned->proof.passed;
    const std::string w = show_length(p.width, reader_), l = show_length(p.length, reader_);
    const std::string name = p.turned ? p.piece + " " + reader_.say("turned") : p.piece;
    const Box below{box.left, box.top + kRipType + 0.6, box.right,
                    box.bottom}; // leaves room for the rip's dimension
    const std::vector<Words> words = sound ? arrangements(name, w, l)
                                           : std::vector<Words>{{{p.piece, reader_.say("DO NOT CUT")}, false},
                                                                {{p.piece, reader_.say("DO NOT CUT")}, true}};
    if (set_words(below, words, kHeadType, kCutType, !sound) || set_words(box, words, kHeadType, 3.1, !sound))
      return true;
    // Too small for its size, which stands in the cutting list under this id.
    const std::vector<Words> id{{{name}, false}, {{name}, true}};
    if (set_words(box, id, kCutType, 1.6, !sound)) return true;
    // A narrow band: capitals leave room of their own above and below.
    constexpr double kAir = 0.3;
    return set_words({whole.left, whole.top - kAir, whole.right, whole.bottom + kAir}, id, kCutType, 1.6,
                     !sound);
  }

  void offcut_words(const Offcut& o) {
    const auto whole = shown(o.u, o.v, o.width, o.length);
    if (!whole) return;
    const Box box{whole->left + 0.8, whole->top + 0.8, whole->right - 0.8, whole->bottom - 0.8};
    const std::string w = show_length(o.width, reader_, true), l = show_length(o.length, reader_, true);
    std::vector<Words> choices = arrangements(reader_.say("offcut"), w, l);
    for (Words& words : arrangements("", w, l))
      choices.push_back(std::move(words));
    set_words(box, choices, 4.0, 2.6, true);
  }

  /// Where a rip lies from the left edge: at its top, just left of it, where nothing else stands.
  void rip_dimensions() {
    for (const Stroke& s : roll_.knife_order) {
      if (s.kind != Stroke::Kind::rip) continue;
      const Length from = std::max(s.from, part_.from), to = std::min(s.to, part_.to);
      if (from >= to) continue;
      const std::string text = show_length(s.at, reader_, true);
      const double size = kRipType, width = text_width(text, size, true), xs = x(s.at);
      for (const bool at_top : {true, false}) {
        const double upper = at_top ? y(from) + 0.9 : y(to) - 0.9 - size;
        const Box box{xs - width - 1.6, upper, xs - 0.7, upper + size};
        if (box.top < y(from) || box.bottom > y(to) - 0.6 || box.left < x({}) + 0.5 || !room_for(box) ||
            struck(box))
          continue;
        write(page_, {xs - 1.1, upper + 0.8 * size}, text, {size, true, false, Anchor::right});
        taken_.push_back(box);
        break;
      }
    }
  }

  Drawing& page_;
  const Plan& plan_;
  const Reader reader_;
  const RollLayout& roll_;
  const RollPart part_;
  const Box box_;
  const Viewport view_;
  std::vector<Box> taken_;
};

} // namespace

Length drawn_length(const RollLayout& roll) {
  return std::max(roll.length_used, roll.remnant ? roll.available : roll.length_to_buy);
}

double roll_denominator(const RollLayout& roll, Length length, double width_mm, double height_mm) {
  const Box room{0, 0, width_mm - kLeftGutter - kRightGutter, height_mm - 2 * kEnds};
  return fit(room, 0, 0, roll.width.mm(), length.mm()).denominator;
}

std::vector<RollPart> roll_parts(const RollLayout& roll, double denominator, double first_mm, double mm) {
  const Length end = drawn_length(roll);
  std::vector<Length> breaks;
  for (const Placement& p : roll.placements)
    breaks.push_back(p.v + p.length);
  std::sort(breaks.begin(), breaks.end());
  const auto divides = [&](Length v) {
    return std::any_of(roll.placements.begin(), roll.placements.end(),
                       [&](const Placement& p) { return p.v < v && v < p.v + p.length; });
  };
  std::vector<RollPart> parts;
  for (Length from; from < end;) {
    const double room = (parts.empty() ? first_mm : mm) - 2 * kEnds;
    const Length most = from + from_mm(std::max(room, 10.0) * denominator);
    Length to = std::min(most, end); // where the page ends, unless a clean break comes before
    if (to < end)
      for (const Length v : breaks)
        if (v > from && v <= most && !divides(v)) to = v;
    parts.push_back({from, to});
    from = to;
  }
  return parts;
}

double draw_roll(Drawing& page, const Box& box, const Plan& plan, const RollLayout& roll,
                 const RollPart& part, double denominator) {
  return RollPage(page, box, plan, roll, part, denominator).draw();
}

} // namespace treadfold
