// Some pieces are cut, one is spoiled, the roll came short or has a flaw: the rest planned on what is left.
#pragma once

#include "cut/recover.h"
#include "plan.h"

namespace treadfold {

/// What can be done, the least trouble first.
enum class Remedy {
  as_planned,    // nothing moves but what was lost
  laid_anew,     // all that is not cut is laid out anew
  other_remnant, // of the roll's dye lot, which the plan left alone
  smaller_join,  // joined pieces not yet cut are cut step by step
  hidden_seam    // pieces not yet cut are seamed under their nosing
};

/// Cut instead of a piece of the plan.
struct Replaced {
  std::string piece;
  std::vector<CutPiece> by;
};

struct Way {
  Remedy how = Remedy::as_planned;
  std::string words; // what is done, as a sentence without its end: "all that is not cut is laid out anew"
  std::vector<Replaced> replaced;
  Recovered recovered; // no way if it says why not
};

/// Of one carpet.
struct Recut {
  std::string carpet;
  std::vector<std::string> cut;     // good
  std::vector<std::string> spoiled; // to be cut again
  std::vector<std::string> to_cut;  // spoiled ones included
  /// The best first: least to buy, then least trouble. Those after the first that needs nothing bought were
  /// not tried. Empty: none, and `why_not`.
  std::vector<Way> ways;
  std::string why_not;
};

struct Recuts {
  std::vector<Recut> carpets;
  Problems
      problems; // of the cutting: a piece that the plan has not, a roll shorter than what was cut from it
};

/// Of each carpet of which plan.job.cuttings speaks and whose layout stands. With errors no recut.
Recuts recut(const Plan& plan);

/// recut.json, as documented by recut_schema().
std::string recut_json(const Recuts& recuts);

} // namespace treadfold
