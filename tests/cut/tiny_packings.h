// Least lengths of a few small boxes by trying everything, cell by cell and cut by cut: slow, plain, and
// without a line in common with the product.
#pragma once

#include "cut/pack/sheet.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <vector>

namespace treadfold::pack::tiny {

/// Row by row: the first cell not decided is a box's corner, or stays empty.
class Cells {
public:
  Cells(const std::vector<Box>& boxes, Ticks width, Ticks length)
      : boxes_(boxes), w_(static_cast<std::size_t>(width)), l_(static_cast<std::size_t>(length)),
        taken_(w_ * l_, 0), used_(boxes.size(), 0), spare_(width * length) {
    for (const auto& b : boxes)
      spare_ -= b.w * b.l;
  }
  bool fit() { return spare_ >= 0 && fill(0, boxes_.size()); }

private:
  bool fill(std::size_t cell, std::size_t left) {
    if (left == 0) return true;
    while (cell < taken_.size() && taken_[cell] != 0)
      ++cell;
    if (cell == taken_.size()) return false;
    for (std::size_t i = 0; i < boxes_.size(); ++i) {
      if (used_[i] != 0 || !free(cell, boxes_[i])) continue;
      mark(cell, boxes_[i], 1), used_[i] = 1;
      if (fill(cell, left - 1)) return true;
      mark(cell, boxes_[i], 0), used_[i] = 0;
    }
    if (spare_ == 0) return false;
    --spare_, taken_[cell] = 1;
    const bool ok = fill(cell + 1, left);
    ++spare_, taken_[cell] = 0;
    return ok;
  }
  template <class F>
  bool each(std::size_t cell, const Box& b, F f) {
    const std::size_t x = cell % w_, y = cell / w_;
    if (x + static_cast<std::size_t>(b.w) > w_ || y + static_cast<std::size_t>(b.l) > l_) return false;
    for (std::size_t j = 0; j < static_cast<std::size_t>(b.l); ++j)
      for (std::size_t i = 0; i < static_cast<std::size_t>(b.w); ++i)
        if (!f(taken_[cell + j * w_ + i])) return false;
    return true;
  }
  bool free(std::size_t cell, const Box& b) {
    return each(cell, b, [](char& c) { return c == 0; });
  }
  void mark(std::size_t cell, const Box& b, char to) {
    each(cell, b, [to](char& c) { return c = to, true; });
  }

  const std::vector<Box>& boxes_;
  std::size_t w_, l_;
  std::vector<char> taken_, used_;
  Ticks spare_;
};

inline bool fits(const std::vector<Box>& boxes, Ticks width, Ticks length) {
  return Cells(boxes, width, length).fit();
}

inline Ticks least_length(const std::vector<Box>& boxes, Ticks width) {
  Ticks length = 0;
  for (const auto& b : boxes)
    length = std::max(length, b.l);
  while (!fits(boxes, width, length))
    ++length;
  return length;
}

/// Boxes that may be slit along: every beginning of every box, line by line.
class Lines {
public:
  Lines(const std::vector<Box>& boxes, Ticks width, Ticks length)
      : boxes_(boxes), width_(width), taken_(static_cast<std::size_t>(length), 0) {}
  bool fit(std::size_t box = 0) {
    if (box == boxes_.size()) return true;
    const auto& [w, l] = boxes_[box];
    for (Ticks begin = 0; begin + l <= static_cast<Ticks>(taken_.size()); ++begin) {
      const auto from = taken_.begin() + begin;
      const bool free = std::all_of(from, from + l, [&, w = w](Ticks taken) { return taken + w <= width_; });
      if (!free) continue;
      const auto add = [&](Ticks more) { std::for_each(from, from + l, [more](Ticks& t) { t += more; }); };
      add(w);
      if (fit(box + 1)) return true;
      add(-w);
    }
    return false;
  }

private:
  const std::vector<Box>& boxes_;
  Ticks width_;
  std::vector<Ticks> taken_;
};

/// Every way to cut a part in two, and the boxes between its halves. Sets of boxes are bits.
class Cuts {
public:
  explicit Cuts(const std::vector<Box>& boxes) : boxes_(boxes) {}

  bool fit(unsigned set, Ticks w, Ticks l) {
    if (set == 0) return true;
    if (w <= 0 || l <= 0) return false;
    const auto key = std::make_tuple(set, w, l);
    const auto known = known_.find(key);
    if (known != known_.end()) return known->second;
    return known_[key] = alone(set, w, l) || halved(set, w, l);
  }

private:
  bool alone(unsigned set, Ticks w, Ticks l) const {
    for (std::size_t i = 0; i < boxes_.size(); ++i)
      if (set == 1u << i) return boxes_[i].w <= w && boxes_[i].l <= l;
    return false;
  }
  bool halved(unsigned set, Ticks w, Ticks l) {
    for (unsigned half = (set - 1) & set; half != 0; half = (half - 1) & set) {
      for (Ticks c = 1; c < w; ++c)
        if (fit(half, c, l) && fit(set ^ half, w - c, l)) return true;
      for (Ticks c = 1; c < l; ++c)
        if (fit(half, w, c) && fit(set ^ half, w, l - c)) return true;
    }
    return false;
  }
  const std::vector<Box>& boxes_;
  std::map<std::tuple<unsigned, Ticks, Ticks>, bool> known_;
};

inline Ticks least_guillotine_length(const std::vector<Box>& boxes, Ticks width) {
  Cuts cuts(boxes);
  Ticks length = 1;
  while (!cuts.fit((1u << boxes.size()) - 1, width, length))
    ++length;
  return length;
}

} // namespace treadfold::pack::tiny
