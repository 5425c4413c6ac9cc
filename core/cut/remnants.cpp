#include "cut/remnants.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

namespace treadfold {
namespace {

using rows::Ticks;

constexpr int kMostTrials = 200; // of whether some pieces fit a remnant, over all ways
constexpr std::int64_t kStepsPerTrial = 100'000;
constexpr std::size_t kManyPieces = 500; // then fewer ways are tried

/// What has to stay together.
struct Unit {
  Chosen pieces;
  double area_mm2 = 0;
  Length widest;
};

std::vector<Unit> units_of(const std::vector<CutPiece>& pieces, const Chosen& chosen, bool keep_groups,
                           bool patterned) {
  std::vector<int> parent(pieces.size());
  std::iota(parent.begin(), parent.end(), 0);
  const auto root = [&](int i) {
    while (parent[i] != i)
      i = parent[i] = parent[parent[i]];
    return i;
  };
  std::map<std::string, int> first_of_group, first_of_match;
  for (int i : chosen) {
    const auto join = [&](std::map<std::string, int>& firsts, const std::string& name) {
      parent[root(i)] = root(firsts.try_emplace(name, i).first->second);
    };
    if (keep_groups) join(first_of_group, pieces[i].group);
    if (patterned && pieces[i].matched) join(first_of_match, pieces[i].match_group);
  }
  std::map<int, std::size_t> index;
  std::vector<Unit> units;
  for (int i : chosen) {
    const auto [at, is_new] = index.try_emplace(root(i), units.size());
    if (is_new) units.emplace_back();
    Unit& unit = units[at->second];
    unit.pieces.push_back(i);
    unit.area_mm2 += pieces[i].width.mm() * pieces[i].length.mm();
    unit.widest = std::max(unit.widest, pieces[i].width);
  }
  return units;
}

class Sharing {
public:
  Sharing(const std::vector<CutPiece>& pieces, const Carpet& carpet, const LayoutOptions& options)
      : pieces_(pieces), carpet_(carpet), options_(options) {}

  /// Fills the remnants one after the other; preference says which units go first: 0 large, 1 small, 2 wide,
  /// from 3 on the unit of that number, then large.
  Share fill(const std::vector<int>& remnants, int preference) {
    Share share;
    share.remnants.resize(carpet_.remnants.size());
    share.roll.resize(pieces_.size());
    std::iota(share.roll.begin(), share.roll.end(), 0);
    std::set<std::string>
        on_roll_lot; // groups of which a part comes from a remnant of the roll's own dye lot
    for (int r : remnants) {
      const Remnant& remnant = carpet_.remnants[r];
      const bool same_lot = !remnant.dye_lot.empty() && remnant.dye_lot == carpet_.dye_lot;
      auto units = units_of(pieces_, share.roll, !same_lot, carpet_.pattern.has_value());
      std::erase_if(units, [&](const Unit& u) {
        return std::any_of(u.pieces.begin(), u.pieces.end(), [&](int i) {
          return pieces_[i].width > remnant.width || pieces_[i].length > remnant.length ||
                 (!same_lot && on_roll_lot.contains(pieces_[i].group));
        });
      });
      put_in_order(units, preference);
      Chosen taken = take(units, remnant);
      if (same_lot)
        for (int i : taken)
          on_roll_lot.insert(pieces_[i].group);
      std::sort(taken.begin(), taken.end());
      Chosen rest;
      std::set_difference(share.roll.begin(), share.roll.end(), taken.begin(), taken.end(),
                          std::back_inserter(rest));
      share.roll = std::move(rest);
      share.remnants[r] = std::move(taken);
    }
    return share;
  }

private:
  static void put_in_order(std::vector<Unit>& units, int preference) {
    if (preference >= 3) {
      const auto favoured = static_cast<std::size_t>(preference - 3);
      if (favoured < units.size())
        std::rotate(units.begin(), units.begin() + preference - 3, units.begin() + preference - 2);
    }
    std::stable_sort(units.begin() + (preference >= 3 && !units.empty()), units.end(),
                     [&](const Unit& a, const Unit& b) {
                       if (preference == 2) return a.widest > b.widest;
                       return preference == 1 ? a.area_mm2 < b.area_mm2 : a.area_mm2 > b.area_mm2;
                     });
  }

  /// Sorted, as for the layout that is made in the end: the search may find another length for another order.
  bool fits(Chosen chosen, const Remnant& remnant) {
    std::sort(chosen.begin(), chosen.end());
    double area = 0;
    for (int i : chosen)
      area += pieces_[i].width.mm() * pieces_[i].length.mm();
    if (area > remnant.width.mm() * remnant.length.mm() + 1e-6 || ++trials_ > kMostTrials) return false;
    const auto task = make_task(pieces_, chosen, {remnant.width, {}, remnant.length, carpet_.in_hand},
                                carpet_.pattern, options_.unit);
    if (!task.why_not.empty()) return false;
    rows::Goal goal;
    goal.stop_at_good_enough = true;
    goal.good_enough = remnant.length.ticks, goal.roll_width = remnant.width.ticks;
    goal.fixed_steps = kStepsPerTrial;
    return rows::search(task.rects, task.strip, goal).used <= remnant.length.ticks;
  }

  /// As many units as fit, in order: the longest run of them found by halving, then single ones.
  Chosen take(const std::vector<Unit>& units, const Remnant& remnant) {
    const auto run_of = [&](std::size_t n) {
      Chosen run;
      for (std::size_t i = 0; i < n; ++i)
        run.insert(run.end(), units[i].pieces.begin(), units[i].pieces.end());
      return run;
    };
    std::size_t fitting = 0, beyond = units.size() + 1;
    while (beyond - fitting > 1) {
      const auto middle = fitting + (beyond - fitting) / 2;
      (fits(run_of(middle), remnant) ? fitting : beyond) = middle;
    }
    Chosen taken = run_of(fitting);
    int refused = 0;
    for (std::size_t i = fitting + 1; i < units.size() && refused < 8; ++i) {
      Chosen more = taken;
      more.insert(more.end(), units[i].pieces.begin(), units[i].pieces.end());
      if (fits(more, remnant))
        taken = std::move(more);
      else
        ++refused;
    }
    return taken;
  }

  const std::vector<CutPiece>& pieces_;
  const Carpet& carpet_;
  const LayoutOptions& options_;
  int trials_ = 0;
};

} // namespace

std::vector<Share> ways_to_share(const std::vector<CutPiece>& pieces, const Carpet& carpet,
                                 const LayoutOptions& options) {
  Sharing sharing(pieces, carpet, options);
  std::vector<Share> ways{sharing.fill({}, 0)};
  if (!options.use_remnants || carpet.remnants.empty()) return ways;

  std::vector<int> by_area(carpet.remnants.size());
  std::iota(by_area.begin(), by_area.end(), 0);
  std::stable_sort(by_area.begin(), by_area.end(), [&](int a, int b) {
    const auto &x = carpet.remnants[a], &y = carpet.remnants[b];
    return x.width.mm() * x.length.mm() < y.width.mm() * y.length.mm();
  });
  std::vector<std::vector<int>> sequences;
  sequences.reserve(by_area.size() + 2);
  for (int r : by_area)
    sequences.push_back({r});
  if (by_area.size() > 1) {
    sequences.push_back(by_area);
    sequences.emplace_back(by_area.rbegin(), by_area.rend());
  }
  const int preferences = pieces.size() > kManyPieces ? 2 : 9;
  for (int preference = 0; preference < preferences; ++preference)
    for (const auto& sequence : sequences) {
      Share share = sharing.fill(sequence, preference);
      if (std::find(ways.begin(), ways.end(), share) == ways.end()) ways.push_back(std::move(share));
    }
  return ways;
}

} // namespace treadfold
