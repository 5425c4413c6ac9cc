// How sure is the cut: the chance that a piece, cut as planned, comes up short on the true stair.
//
// A tape errs and a knife errs, and steps of which only the usual one was measured are not all alike. Each of
// these is a normal with mean 0 (measure/tolerances.h), small against the piece, so that what a piece needs
// is linear in them: slopes come of covering the step again with one reading changed. docs/certainty.md
// derives it, compares it with a simulation and with the rule of common practice.
//
// Guarantees
//  1. Where ways to come up short share errors, their chances are added: the sum is never less than the
//  truth.
//  2. More allowance never raises a chance; nor does a finer tolerance, if what is cut is what is needed or
//  more.
#pragma once

#include "cover/cover.h"
#include "measure/tolerances.h"

namespace treadfold {

/// One way to come up short, all in mm: `need` of the net outline, and what must reach past it, as measured;
/// `cut` is what the rectangle gives; `deviation` the standard deviation of their difference.
struct Demand {
  double need = 0, cut = 0, deviation = 0;
  double chance() const;
};

struct PieceCertainty {
  std::string piece;
  std::vector<Demand> across, along; // several where steps, ends or corners err apart from each other
  double past_net = 0;               // mm that must reach past the net, along
  double chance = 0;                 // of coming up short across or along, at most
};

struct CoveredPiece {
  const Piece& piece;
  const std::vector<Step>& steps; // highest first; none: a floor; a runner's: its bands, unless …
  const Runner* folded = nullptr; // … it is a strip folded round winders: then this, and whole steps
};

/// `pieces`: all of one flight, or one floor. A value that stands for several steps of the flight was read
/// off once for all of them: they share its error, and each differs from it by the spread. What stands for
/// one step was read off that step. Across, trims left and right count together, and along those at back and
/// foot: the fitter shares out what is over. Behind a tread the carpet must reach past the net down into the
/// gully, pad and backing deep. A runner is as wide as it is cut: it asks nothing across. Where
/// a folded strip begins on a winder, slopes are taken as if it began square to it.
std::vector<PieceCertainty> certainty(const std::vector<CoveredPiece>& pieces, CoverStyle style,
                                      const CoverInput& input, const Tolerances& tolerances);

inline constexpr double kShortChance = 0.005; // what a whole stair may risk

struct StairCertainty {
  std::string stair;
  std::vector<PieceCertainty> pieces;
  double chance = 0; // that any piece comes up short, at most
  /// Were each piece cut that much over its net size, left and right or back and foot together, the chance
  /// would be under kShortChance. Rounded up to what can be cut.
  Length least_across, least_along; // across 0 where all are runners
};
StairCertainty of_stair(std::string stair, std::vector<PieceCertainty> pieces, LengthUnit unit);

} // namespace treadfold
