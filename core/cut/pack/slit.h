// Do the pieces fit a rectangle if they may be slit along? Where they do not, no packing is so short.
//
// What is asked is only where along the strip each piece begins: on every line across, the widths may not
// come to more than the strip's. Strips of pieces then find a place across, for lines are intervals. It is
// the cumulative scheduling problem, or contiguous bin packing: S. Martello, M. Monaci, D. Vigo: "An exact
// approach to the strip-packing problem", INFORMS Journal on Computing 15 (2003) 310-319; J.-F. Cote, M.
// Dell'Amico, M. Iori: "Combinatorial Benders' cuts for the strip packing problem", Operations Research 62
// (2014) 643-661. (From memory.)
//
// Depth first, from the strip's start on. A piece begins where another ends, and could not have begun where
// the end before lies: else it may be moved there. What is left to lie cannot be worth more than the lines to
// come can hold. From a line on it fails if it failed before with the same pieces left, from no further along
// and with no less free on any line.
//
// Where they fit so, they are tried whole, each on its lines, against each other or an edge: a packing.
#pragma once

#include "cut/pack/exact.h"
#include "cut/pack/worth.h"

#include <functional>

namespace treadfold::pack {

/// One rectangle, sheet.width by `top`. What failed is remembered from one run to the next.
class Slit {
public:
  /// By any number of worths of its kinds (worth.h).
  Slit(const Sheet& sheet, Ticks top, const std::vector<Worth>& worths);

  /// Tries the pieces in `order`, until `most_work` more is spent.
  Verdict run(const Order& order, std::int64_t most_work, const std::function<bool()>* stop,
              std::int64_t& work);
  /// Of the last run: whole, if they were found to fit so; else empty.
  const std::vector<Placed>& placed() const { return placed_; }

private:
  struct Valued {
    Worth worth;
    Ticks left; // of the pieces not yet begun, each times its length
  };
  /// A piece that lies across the line.
  struct Lying {
    Ticks end, w;
  };
  /// From which it failed.
  struct State {
    std::uint64_t left_key = 0; // of no pieces left
    Ticks at = 0;
    std::vector<Lying> lying;
  };
  struct States {
    std::vector<State> of;
    std::size_t next = 0; // to be overwritten, when there are as many as are kept
  };

  bool search(Ticks at, Ticks free, Ticks could_begin);
  bool begin_more(Ticks at, Ticks free, Ticks could_begin, std::size_t first);
  bool go_on(Ticks free);
  bool lay_across(std::size_t piece, int& tries);
  bool hopeless(Ticks at, Ticks free) const;
  bool has_failed(Ticks at);
  void remember(Ticks at);
  void count(std::size_t kind, int change);

  Sheet sheet_;
  Ticks top_;
  std::vector<Valued> values_;
  std::vector<int> left_;
  int boxes_left_ = 0;
  std::uint64_t left_key_ = 0;
  std::vector<Lying> lying_, ended_;   // lying_: those that end last come first
  std::vector<States> failed_;         // by the pieces left
  std::vector<Placed> begun_, placed_; // begun_: in order along
  int whole_tries_ = 0;
  const Order* order_ = nullptr;
  const std::function<bool()>* stop_ = nullptr;
  std::int64_t* work_ = nullptr;
  std::int64_t until_ = 0;
  bool out_of_work_ = false;
  bool fits_ = false; // as far as is known; what failed since may have failed for not being whole
};

} // namespace treadfold::pack
