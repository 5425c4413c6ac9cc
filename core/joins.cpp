#include "joins.h"

#include "cover/handling.h"
#include "cover/step_part.h"
#include "cut/search.h"
#include "join_ways.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

namespace treadfold {

namespace {

bool is_free(const Flight& flight) { return flight.join_at_most.value_or(1) > 1 && !flight.runner; }

/// A flight of the job, to be changed if the job is.
template <class J>
auto& flight_of(J& job, const Piece& piece) {
  return job.stairs[static_cast<std::size_t>(piece.stair_index)]
      .flights[static_cast<std::size_t>(piece.flight_index)];
}

/// Without what only says where the steps are.
std::vector<Step> nameless(std::vector<Step> steps) {
  int number = static_cast<int>(steps.size());
  for (auto& step : steps) {
    step.number = number--, step.where.clear();
    for (auto& upright : step.uprights)
      upright.where.clear();
  }
  return steps;
}

/// Steps in a row that can all be one piece, if `most` lets them.
struct Chain {
  Flight flight;           // without steps
  std::vector<Step> steps; // highest first
  std::vector<const PlannedPiece*> singly;
  std::vector<double> along_mm; // of each, as along_run_mm() says
  int most = 1;
};

/// One of a carpet's pieces that is not chosen, or a chain in whose place stand what it is divided into.
struct Slot {
  std::optional<CutPiece> piece;
  std::size_t chain = 0;
};

using Division = std::vector<PieceSizes>; // one a chain

/// What a division comes to, best first.
struct Worth {
  std::size_t unproved = 0; // pieces that do not fold back, and are not laid out
  bool fits = false;
  std::int64_t area = 0; // to buy, ticks²
  std::size_t pieces = 0, strokes = 0;
  Length width, to_buy; // of the roll
  bool operator<(const Worth& o) const {
    return std::tuple(unproved, !fits, area, pieces, strokes) <
           std::tuple(o.unproved, !o.fits, o.area, o.pieces, o.strokes);
  }
};

/// Chooses for one carpet.
class Choosing {
public:
  /// `single`: the job's plan with every step of a free flight on its own.
  Choosing(const Plan& single, const Carpet& carpet, const LayoutOptions& options)
      : job_(single.job), carpet_(carpet), options_(options),
        allowances_(allowances_for(job_.allowances, carpet, job_.strip)), input_{carpet,
                                                                                 job_.cushion.thickness,
                                                                                 allowances_, job_.unit} {
    options_.unit = job_.unit;
    const auto along = along_run_mm(single.pieces);
    for (std::size_t i = 0; i < along.size(); ++i)
      if (single.pieces[i].piece.carpet == carpet.id) add(single.pieces[i], along[i]);
    ways_.reserve(chains_.size());
    for (const auto& chain : chains_)
      ways_.push_back(ways_to_divide(static_cast<int>(chain.steps.size()), chain.most));
  }

  bool anything_to_choose() const {
    return std::any_of(ways_.begin(), ways_.end(), [](const auto& ways) { return ways.size() > 1; });
  }

  void run() {
    Carpet quick = carpet_;
    if (quick.laid == Laid::outlines) quick.laid = Laid::close;
    auto best = weigh_quickly(quick);
    const auto full = [&](const Division& division) { return laid(division, carpet_, options_); };
    chosen_ = even(1);
    singly_ = full(chosen_);
    auto least = singly_;
    const auto consider = [&](const Division& division) {
      if (division == chosen_ || cannot_beat(division, least)) return;
      if (const auto worth = full(division); worth < least && proved(division))
        least = worth, chosen_ = division;
    };
    consider(best);
    for (int limit = most(); limit > 1; --limit)
      consider(even(limit));
  }

  const Worth& singly() const { return singly_; }

  void write(Job& job) const {
    for (std::size_t c = 0; c < chains_.size(); ++c) {
      auto& flight = flight_of(job, chains_[c].singly.front()->piece);
      std::size_t step = 0;
      for (const int size : chosen_[c]) {
        flight.join = std::max(flight.join, size);
        if (step > 0) flight.begins.push_back(chains_[c].steps[step].number);
        step += static_cast<std::size_t>(size);
      }
    }
  }

private:
  void add(const PlannedPiece& planned, double along_mm) {
    const auto& piece = planned.piece;
    if (piece.flight_index < 0 || piece.part >= 0 || !is_free(flight_of(job_, piece))) {
      if (planned.proof.passed)
        slots_.push_back({cut_piece(piece, planned.steps, carpet_, job_.unit, along_mm), 0});
      return;
    }
    const auto& flight = flight_of(job_, piece);
    const auto& step = planned.steps.front();
    const bool goes_on = !slots_.empty() && !slots_.back().piece && !chains_.empty() &&
                         &flight_of(job_, chains_.back().singly.front()->piece) == &flight &&
                         can_join(chains_.back().steps.back(), step, flight, input_);
    if (!goes_on) {
      slots_.push_back({{}, chains_.size()});
      chains_.push_back({flight, {}, {}, {}, *flight.join_at_most});
      chains_.back().flight.steps.clear();
    }
    chains_.back().steps.push_back(step);
    chains_.back().singly.push_back(&planned);
    chains_.back().along_mm.push_back(along_mm);
  }

  int most() const {
    int most = 1;
    for (const auto& chain : chains_)
      most = std::max(most, chain.most);
    return most;
  }

  Division even(int limit) const {
    Division division;
    for (const auto& chain : chains_)
      division.push_back(even_sizes(static_cast<int>(chain.steps.size()), std::min(limit, chain.most)));
    return division;
  }

  /// `size` steps of the chain from `first` on as one piece.
  struct Joined {
    bool covered = false; // a single one that does not fold back, or steps that cannot be one: not
    CutPiece cut;
    Piece piece; // of several steps
    std::optional<bool> folds_back;
  };

  std::vector<Step> steps_under(std::size_t c, std::size_t first, int size) const {
    const auto at = chains_[c].steps.begin() + static_cast<std::ptrdiff_t>(first);
    return {at, at + size};
  }

  Joined& piece_over(std::size_t c, std::size_t first, int size) {
    const auto [known, is_new] = pieces_.try_emplace({c, first, size});
    auto& joined = known->second;
    if (!is_new) return joined;
    const auto& chain = chains_[c];
    const auto& top = *chain.singly[first];
    if (size == 1) {
      joined.covered = top.proof.passed;
      joined.cut = cut_piece(top.piece, top.steps, carpet_, job_.unit, chain.along_mm[first]);
      return joined;
    }
    const auto steps = steps_under(c, first, size);
    auto flight = chain.flight;
    flight.steps.assign(steps.rbegin(), steps.rend());
    flight.join = size;
    auto pieces = cover_flight(flight, input_, top.piece.id.substr(0, top.piece.id.rfind('-')));
    joined.covered = pieces.size() == 1;
    if (!joined.covered) return joined;
    joined.piece = std::move(pieces.front());
    joined.piece.stair_index = top.piece.stair_index, joined.piece.flight_index = top.piece.flight_index;
    joined.cut = cut_piece(joined.piece, steps, carpet_, job_.unit, chain.along_mm[first]);
    return joined;
  }

  /// Of steps alike one piece is folded back for all.
  bool folds_back(Joined& joined, const std::vector<Step>& steps, CoverStyle style) {
    if (joined.folds_back) return *joined.folds_back;
    const auto alike = nameless(steps);
    const auto known = std::find_if(proved_.begin(), proved_.end(), [&](const auto& of) {
      return std::get<0>(of) == style && std::get<1>(of) == alike;
    });
    if (known != proved_.end()) {
      joined.folds_back = std::get<2>(*known);
    } else {
      joined.folds_back = prove(joined.piece, steps, style, input_.pad, carpet_, allowances_).passed;
      proved_.emplace_back(style, alike, *joined.folds_back);
    }
    return *joined.folds_back;
  }

  /// Every joined piece of it folds back. What does not singly cannot be helped.
  bool proved(const Division& division) {
    for (std::size_t c = 0; c < division.size(); ++c) {
      std::size_t first = 0;
      for (const int size : division[c]) {
        if (size > 1) {
          auto& joined = piece_over(c, first, size);
          if (!joined.covered || !folds_back(joined, steps_under(c, first, size), chains_[c].flight.style))
            return false;
        }
        first += static_cast<std::size_t>(size);
      }
    }
    return true;
  }

  std::vector<CutPiece> pieces_of(const Division& division) {
    std::vector<CutPiece> pieces;
    for (const auto& slot : slots_) {
      if (slot.piece) {
        pieces.push_back(*slot.piece);
        continue;
      }
      std::size_t first = 0;
      for (const int size : division[slot.chain]) {
        if (const auto& joined = piece_over(slot.chain, first, size); joined.covered)
          pieces.push_back(joined.cut);
        first += static_cast<std::size_t>(size);
      }
    }
    return pieces;
  }

  std::size_t count(const Division& division) const {
    auto count = slots_.size() - division.size();
    for (const auto& sizes : division)
      count += sizes.size();
    return count;
  }

  Worth laid(const Division& division, const Carpet& carpet, const LayoutOptions& options) {
    const auto pieces = pieces_of(division);
    Problems problems;
    const auto layout = lay_out(pieces, carpet, options, problems);
    Worth worth;
    worth.pieces = count(division), worth.unproved = worth.pieces - pieces.size();
    worth.fits = !has_errors(problems);
    for (const auto& roll : layout.rolls) {
      worth.strokes += roll.knife_order.size();
      if (roll.remnant) continue;
      worth.width = roll.width, worth.to_buy += roll.length_to_buy;
    }
    worth.area = worth.width.ticks * worth.to_buy.ticks;
    return worth;
  }

  /// By lower bounds alone: of all pieces' rectangles, or of their area, where remnants may serve some or
  /// their outlines are laid.
  bool cannot_beat(const Division& division, const Worth& best) {
    if (!best.fits || best.unproved > 0) return false;
    const auto pieces = pieces_of(division);
    rows::Goal goal;
    goal.sold_in = carpet_.sold_in.ticks, goal.least_order = carpet_.least_order.ticks;
    const auto fewer = pieces.size() <= best.pieces;
    std::int64_t needed = 0; // ticks², of the roll
    for (const auto& p : pieces)
      needed += carpet_.laid == Laid::outlines ? covered_area(p.width, p.length, p.outline)
                                               : covered_area(p.width, p.length, {});
    for (const auto& remnant : carpet_.remnants)
      needed -= remnant.width.ticks * remnant.length.ticks;
    for (const auto width : carpet_.roll_widths) {
      const auto usable = width - carpet_.selvage * 2;
      const auto fits = [&](const CutPiece& p) { return p.width <= usable; };
      std::int64_t least = needed > 0 ? (needed + usable.ticks - 1) / usable.ticks : 0;
      if (carpet_.remnants.empty() && carpet_.laid != Laid::outlines) {
        if (!std::all_of(pieces.begin(), pieces.end(), fits)) continue;
        least = lower_bound(pieces, usable).length.ticks;
      }
      const auto area = least > 0 ? width.ticks * goal.to_buy(least) : 0;
      if (area < best.area || (area == best.area && fewer)) return false;
    }
    return true;
  }

  /// From the best of the even divisions on, each chain in turn is given every way there is, for as long as
  /// one of them is better.
  Division weigh_quickly(const Carpet& quick) {
    auto options = options_;
    options.work = 0;
    int pieces = kQuickPieces;
    const auto times = static_cast<int>(carpet_.roll_widths.size()) * (carpet_.pattern ? 4 : 1) *
                       (carpet_.remnants.empty() ? 1 : 2);  // that each is laid
    std::set<std::vector<std::pair<Length, Length>>> known; // sizes of all pieces, sorted
    auto best = even(1);
    auto least = laid(best, quick, options);
    const auto better = [&](const Division& division) {
      if (pieces <= 0) return false;
      const auto cut = pieces_of(division);
      std::vector<std::pair<Length, Length>> sizes;
      for (const auto& p : cut)
        sizes.emplace_back(p.width, p.length);
      std::sort(sizes.begin(), sizes.end());
      if (!known.insert(std::move(sizes)).second) return false;
      pieces -= static_cast<int>(cut.size());
      if (cannot_beat(division, least)) return false;
      pieces -= times * static_cast<int>(cut.size());
      const auto worth = laid(division, quick, options);
      if (!(worth < least) || !proved(division)) return false;
      least = worth, best = division;
      return true;
    };
    for (int limit = most(); limit > 1; --limit)
      better(even(limit));
    for (bool again = true; again;) {
      again = false;
      for (std::size_t c = 0; c < chains_.size(); ++c)
        for (const auto& way : ways_[c]) {
          auto division = best;
          division[c] = way;
          again |= better(division);
        }
    }
    return best;
  }

  const Job& job_;
  const Carpet& carpet_;
  LayoutOptions options_;
  const Allowances allowances_;
  const CoverInput input_;
  std::vector<Slot> slots_;
  std::vector<Chain> chains_;
  std::vector<std::vector<PieceSizes>> ways_; // of each chain
  std::map<std::tuple<std::size_t, std::size_t, int>, Joined> pieces_;
  std::vector<std::tuple<CoverStyle, std::vector<Step>, bool>> proved_;
  Division chosen_;
  Worth singly_;
};

} // namespace

JoinChoice choose_joins(const Job& job, const LayoutOptions& options) {
  JoinChoice choice{job, {}};
  std::vector<std::string> carpets;
  for (auto& stair : choice.job.stairs)
    for (auto& flight : stair.flights)
      if (is_free(flight)) flight.join = 1, carpets.push_back(flight.carpet);
  if (carpets.empty()) return choice;
  const auto single = covered({choice.job, {}});
  for (const auto& carpet : single.job.carpets) {
    if (std::find(carpets.begin(), carpets.end(), carpet.id) == carpets.end()) continue;
    Choosing choosing(single, carpet, options);
    if (!choosing.anything_to_choose()) continue;
    choosing.run();
    choosing.write(choice.job);
    if (const auto& singly = choosing.singly(); singly.fits)
      choice.singly.push_back({carpet.id, singly.width, singly.to_buy});
  }
  return choice;
}

} // namespace treadfold
