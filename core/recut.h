// Some pieces are cut, one is spoiled, the roll came short or has a flaw: the rest planned on what is left.
#pragma once

#include "cut/recover.h"
#include "plan.h"

namespace treadfold {

/// As the job file and recut.json call it: "laid_anew".
const char* word(Remedy how);
inline constexpr Remedy kRemedies[] = {Remedy::as_planned, Remedy::laid_anew, Remedy::other_remnant,
                                       Remedy::smaller_join, Remedy::hidden_seam};

/// Cut instead of a piece of the plan.
struct Replaced {
  std::string piece;
  std::vector<CutPiece> by;
};

struct Way {
  Remedy how = Remedy::as_planned;
  std::string words;   // what is done, as a sentence without its end: "all that is not cut is laid out anew"
  std::string remnant; // of Remedy::other_remnant
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
  /// not tried, but for those up to the one that the job asks for. Empty: none, and `why_not`.
  std::vector<Way> ways;
  std::size_t taken = 0; // of the ways: that which the job asks for if there is one, else the best
  std::string why_not;
};

struct Recuts {
  std::vector<Recut> carpets;
  Problems problems; // of the cutting: a piece that the plan has not, a roll shorter than what was cut from
                     // it; a warning where the job asks for a way that is none
};

/// Of each carpet of which plan.job.cuttings speaks and whose layout stands. With errors no recut.
Recuts recut(const Plan& plan);

/// recut.json, as documented by recut_schema().
std::string recut_json(const Recuts& recuts);

} // namespace treadfold
