#include "cover/account.h"

#include <algorithm>

#include <fmt/format.h>

namespace treadfold {

namespace {

struct Box {
  double u0 = 1e300, v0 = 1e300, u1 = -1e300, v1 = -1e300;
};
Box box_of(const FlatPath& path) {
  Box box;
  for (const auto& p : path) {
    box.u0 = std::min(box.u0, p.u);
    box.v0 = std::min(box.v0, p.v);
    box.u1 = std::max(box.u1, p.u);
    box.v1 = std::max(box.v1, p.v);
  }
  return box;
}

/// The widest wrap of each side decides: treads of one joined piece may differ in thickness.
void account_across(Piece& piece, const std::vector<StepPart>& parts) {
  piece.across.push_back({"riser, end to end", parts.front().step.width.mm()});
  for (const auto side : {&StepPart::left, &StepPart::right}) {
    const bool right = side == &StepPart::right;
    const double reach =
        right ? piece.net_origin.u + piece.net_width.mm() - parts.front().right.frame.riser_end_u
              : -piece.net_origin.u;
    if (!(parts.front().*side).plan.straight()) {
      if (reach > 1e-3)
        piece.across.push_back({fmt::format("past the riser's end, {}", right ? "right" : "left"), reach});
      continue;
    }
    if (!(parts.front().*side).wrap) continue;
    const auto widest = std::max_element(parts.begin(), parts.end(), [&](const auto& a, const auto& b) {
      return (a.*side).wrap->far_edge < (b.*side).wrap->far_edge;
    });
    const auto& w = *((*widest).*side).wrap;
    const std::string name = ((*widest).*side).frame.name();
    piece.across.push_back({"tread past the riser's end, " + name, w.overhang});
    piece.across.push_back({"end, " + name, w.end_height});
    piece.across.push_back({"bends over and under the end, " + name, 2 * w.bend_width});
    piece.across.push_back({"under the lip, " + name, w.overhang});
    if (reach - w.far_edge > 1e-3)
      piece.across.push_back({"hem, wider than all that, " + name, reach - w.far_edge});
  }
}

void account_along(Piece& piece, const Section& s) {
  piece.along.push_back({"tread to the nosing's bend", s.v_nose});
  piece.along.push_back({"over the nosing", s.v_front - s.v_nose});
  if (s.v_low - s.v_front > 1e-9) piece.along.push_back({"front", s.v_low - s.v_front});
  piece.along.push_back({"lower bend", s.v_leave - s.v_low});
  if (s.under) {
    piece.along.push_back({"under the nosing", s.v_inner - s.v_lip});
    piece.along.push_back({"riser", s.v_foot - s.v_inner});
  } else {
    piece.along.push_back({"drop to the crotch", s.v_foot - s.v_leave});
  }
}

} // namespace

double highest(const FlatPath& outline) { return box_of(outline).v0; }

void size_piece(Piece& piece, LengthUnit unit) {
  const auto box = box_of(piece.outline);
  piece.net_origin = {box.u0, box.v0};
  piece.net_width = from_mm_up(box.u1 - box.u0);
  piece.net_length = from_mm_up(box.v1 - box.v0);
  const auto step = cut_step(unit);
  piece.cut_width = ceil_to(piece.net_width + piece.trim_left + piece.trim_right, step);
  piece.cut_length = ceil_to(piece.net_length + piece.trim_back + piece.trim_foot, step);
}

void account_trims(Piece& piece, const char* back, const char* foot) {
  const auto add = [](std::vector<SizeItem>& items, const char* what, Length length) {
    if (length.ticks != 0) items.push_back({what, length.mm()});
  };
  add(piece.across, "trim, left", piece.trim_left);
  add(piece.across, "trim, right", piece.trim_right);
  add(piece.along, back, piece.trim_back);
  add(piece.along, foot, piece.trim_foot);
  add(piece.across, "rounded up", piece.cut_width - piece.net_width - piece.trim_left - piece.trim_right);
  add(piece.along, "rounded up", piece.cut_length - piece.net_length - piece.trim_back - piece.trim_foot);
}

void account(Piece& piece, const std::vector<StepPart>& parts, const CoverInput& input) {
  size_piece(piece, input.unit);
  account_across(piece, parts);
  if (piece.net_origin.v < -1e-7)
    piece.along.push_back({"back corner's return and tabs", -piece.net_origin.v});
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) piece.along.push_back({"crease in the crotch", 2 * input.allowances.crease.mm()});
    account_along(piece, parts[i].section);
  }
  const auto& top = parts.front().step;
  account_trims(piece,
                top.landing()      ? "to trim at the back"
                : top.landing_edge ? "to trim at the seam"
                                   : "to tuck at the back",
                "to tuck at the foot");
}

void account_floor(Piece& piece, LengthUnit unit) {
  size_piece(piece, unit);
  piece.across.push_back({"floor, widest", piece.net_width.mm()});
  piece.along.push_back({"floor, longest", piece.net_length.mm()});
  account_trims(piece, "trim, back", "trim, front");
}

} // namespace treadfold
