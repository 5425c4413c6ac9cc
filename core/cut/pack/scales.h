// Conservative scales: what lengths are impossible, seen across the strip and along it at once.
//
// S. P. Fekete, J. Schepers: "A general framework for bounds for higher-dimensional orthogonal packing
// problems", Mathematical Methods of Operations Research 60 (2004) 311-329: if values of the widths sum to no
// more than 1 over any pieces that fit side by side, and values of the lengths to no more than 1 over any
// that fit behind one another, then no packing has a sum of products over 1. The best values of the one axis
// for given values of the other are those of a linear program, the bar relaxation (G. Belov, V. Kartak, H.
// Rohling, G. Scheithauer: "Conservative scales in packing problems", OR Spectrum 35 (2013) 505-542; from
// memory), solved by column generation (P. C. Gilmore, R. E. Gomory, Operations Research 9 (1961) 849-859).
#pragma once

#include "cut/pack/sheet.h"

#include <vector>

namespace treadfold::pack {

/// Values of one axis' sizes, in kOne-ths.
class Scale {
public:
  static constexpr Ticks kOne = Ticks{1} << 25;

  /// `full`: what the sizes of pieces side by side may sum to. REQUIRES: 0 < sizes <= full.
  Scale(std::vector<Ticks> sizes, std::vector<int> counts, Ticks full);

  /// Values that make the sum of weight times value great; conservative whatever the rounding. Adds to `work`
  /// what was looked at, and ends early at `most_work`.
  std::vector<Ticks> best(const std::vector<double>& weights, std::int64_t most_work, std::int64_t& work);

private:
  struct Bar {
    std::vector<int> of; // pieces by kind
    double value = 0;
  };
  Bar dearest(const std::vector<double>& values, std::int64_t& work);
  Bar dearest_met(const std::vector<double>& values, std::int64_t& work) const;
  std::vector<Ticks> rounded(const std::vector<double>& values, std::int64_t& work);

  std::vector<Ticks> sizes_; // in cells, rounded down: more bars fit, never fewer
  std::vector<int> counts_;
  Ticks full_;
  std::vector<double> reached_, before_;
  std::vector<std::vector<char>> taken_;
  std::vector<std::vector<int>> bars_; // met so far, pieces by kind
};

/// Of one sheet, of which it keeps hold.
class Scales {
public:
  explicit Scales(const Sheet& sheet);

  /// True: no packing is so short. False says nothing. Adds to `work`, and gives up at `most_work`.
  bool too_short(Ticks length, std::int64_t most_work, std::int64_t& work);

private:
  const Sheet& sheet_;
  std::vector<Ticks> lengths_;
  std::vector<int> counts_;
  Scale across_;
};

} // namespace treadfold::pack
