#include "cut/motif_sweep.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <set>

namespace treadfold::rows {
namespace {

using Rank = MotifSweep::Rank;
constexpr double kRounding = 1 + 1e-9;      // more than sums of doubles here can be off
constexpr std::size_t kStatesToCompare = 8; // for each that may be kept
constexpr std::size_t kMostRanks = std::size_t{1} << 25, kMostLaid = 3'000'000; // held at a time
constexpr std::size_t kComparedWith = 100;                                      // other states

/// The states from which a piece may next begin at one place along: the ranks, one after the other, at which
/// each column may next begin.
struct States {
  std::vector<Rank> ranks;
  std::vector<std::int64_t> weight;
  std::vector<Ticks> end; // of the piece that reaches furthest
  std::vector<int> last;  // piece laid, by index of Laid, or -1
};

struct Laid {
  int before; // or -1
  std::size_t column, begin;
};

} // namespace

class MotifStates {
public:
  MotifStates(const MotifSweep& sweep, const Weights& weights, std::int64_t least, MotifSweep::Effort& effort)
      : sweep_(sweep), weights_(weights), least_(least), effort_(effort), across_(sweep.edges_.size() - 1),
        size_(sweep.columns_.size()), ends_(sweep.begins_.size()), all_(ends_ + 1) {
    find_most_behind();
  }

  std::optional<MotifSweep::Shortest> run() {
    if (size_ == 0) return {};
    for (const auto& column : sweep_.columns_)
      now_.push_back(column.next[0]);
    file(now_, 0, 0, -1);
    for (std::size_t begin = 0; begin < ends_; ++begin) {
      const States states = std::move(all_[begin]);
      all_[begin] = {};
      ranks_held_ -= states.ranks.size();
      for (const std::size_t i : worth_going_on(states)) {
        const auto from = states.ranks.begin() + static_cast<std::ptrdiff_t>(i * size_);
        now_.assign(from, from + static_cast<std::ptrdiff_t>(size_));
        add(0, begin, states.weight[i], states.end[i], states.last[i]);
      }
    }
    if (best_last_ < 0) return {};
    MotifSweep::Shortest shortest{best_end_, {}};
    for (int i = best_last_; i >= 0; i = laid_[static_cast<std::size_t>(i)].before) {
      const Laid& laid = laid_[static_cast<std::size_t>(i)];
      const auto& column = sweep_.columns_[laid.column];
      shortest.at.push_back({column.kind, sweep_.edges_[column.from], sweep_.begins_[laid.begin]});
    }
    return shortest;
  }

private:
  /// By place across and rank: the most weight that lies behind it on a line along. A piece's weight is
  /// shared by the places that it covers.
  void find_most_behind() {
    most_behind_.assign(across_ * (ends_ + 1), 0);
    for (std::size_t r = ends_; r-- > 0;) {
      for (std::size_t c = 0; c < across_; ++c)
        most_behind(c, r) = most_behind(c, r + 1);
      for (const auto& place : sweep_.places_[r]) {
        const auto& column = sweep_.columns_[place.column];
        const double each = static_cast<double>(weights_[column.kind]) /
                            static_cast<double>(sweep_.edges_[column.to] - sweep_.edges_[column.from]);
        effort_.steps += static_cast<std::int64_t>(column.to - column.from);
        for (std::size_t c = column.from; c < column.to; ++c)
          most_behind(c, r) = std::max(most_behind(c, r),
                                       each * static_cast<double>(sweep_.edges_[c + 1] - sweep_.edges_[c]) +
                                           most_behind(c, place.free_from));
      }
    }
  }
  double& most_behind(std::size_t c, std::size_t r) { return most_behind_[c * (ends_ + 1) + r]; }

  /// Files now_, and what becomes of it with more and more of the pieces that may begin here, from left to
  /// right.
  void add(std::size_t next, std::size_t begin, std::int64_t weight, Ticks end, int last) {
    if (effort_.steps > effort_.most_steps || ranks_held_ > kMostRanks || laid_.size() > kMostLaid) {
      effort_.all_seen = false;
      return;
    }
    state_ = now_;
    for (std::size_t c = 0; c < size_; ++c)
      if (state_[c] <= begin) state_[c] = sweep_.columns_[c].next[begin + 1];
    file(state_, weight, end, last);
    const auto& here = sweep_.places_[begin];
    for (std::size_t i = next; i < here.size(); ++i) {
      if (now_[here[i].column] > begin) continue;
      const auto& column = sweep_.columns_[here[i].column];
      const auto before = now_;
      for (const std::size_t c : column.crossed)
        now_[c] = std::max(now_[c], sweep_.columns_[c].next[here[i].free_from]);
      for (const std::size_t c : column.used_up)
        now_[c] = static_cast<Rank>(ends_);
      effort_.steps += static_cast<std::int64_t>(column.crossed.size());
      laid_.push_back({last, here[i].column, begin});
      add(i + 1, begin, weight + weights_[column.kind], std::max(end, here[i].end),
          static_cast<int>(laid_.size()) - 1);
      now_ = before;
    }
  }

  void file(const std::vector<Rank>& state, std::int64_t weight, Ticks end, int last) {
    effort_.steps += static_cast<std::int64_t>(size_);
    if (end >= best_end_) return;
    if (weight >= least_) {
      best_end_ = end, best_last_ = last;
      return;
    }
    States& states = all_[*std::min_element(state.begin(), state.end())];
    ranks_held_ += size_;
    states.ranks.insert(states.ranks.end(), state.begin(), state.end());
    states.weight.push_back(weight), states.end.push_back(end), states.last.push_back(last);
  }

  /// Of equal states the one with most on it; not those that cannot come to `least_`, nor those that are
  /// beaten by one of the kept.
  std::vector<std::size_t> worth_going_on(const States& states) {
    std::vector<std::size_t> all(states.weight.size()), kept;
    std::iota(all.begin(), all.end(), std::size_t{0});
    std::vector<std::int64_t> sum(all.size());
    for (const std::size_t i : all) {
      const Rank* mine = &states.ranks[i * size_];
      sum[i] = std::accumulate(mine, mine + size_, std::int64_t{0});
    }
    std::stable_sort(all.begin(), all.end(), [&](std::size_t a, std::size_t b) {
      return states.weight[a] != states.weight[b] ? states.weight[a] > states.weight[b] : sum[a] < sum[b];
    });
    std::vector<double> most(all.size());
    std::vector<std::int64_t> kept_sum;
    for (const std::size_t i : all) {
      if (states.end[i] >= best_end_) continue;
      const Rank* mine = &states.ranks[i * size_];
      bool beaten = false;
      for (std::size_t n = kept.size(); n-- > 0 && !beaten && kept.size() - n < kComparedWith;) {
        if (kept_sum[n] > sum[i]) continue;
        const std::size_t k = kept[n];
        const Rank* other = &states.ranks[k * size_];
        beaten = states.end[k] <= states.end[i] &&
                 std::equal(other, other + size_, mine, [](Rank a, Rank b) { return a <= b; });
      }
      effort_.steps += static_cast<std::int64_t>(2 * std::min(kComparedWith, kept.size()));
      if (beaten) continue;
      most[i] = static_cast<double>(states.weight[i]) + most_to_come(mine);
      if (most[i] * kRounding < static_cast<double>(least_)) continue;
      kept.push_back(i), kept_sum.push_back(sum[i]);
      if (kept.size() >= kStatesToCompare * effort_.most_states) {
        effort_.all_seen = false;
        break;
      }
    }
    if (kept.size() > effort_.most_states) {
      effort_.all_seen = false;
      std::stable_sort(kept.begin(), kept.end(),
                       [&](std::size_t a, std::size_t b) { return most[a] > most[b]; });
      kept.resize(effort_.most_states);
    }
    return kept;
  }

  double most_to_come(const Rank* state) {
    free_from_.assign(across_, static_cast<Rank>(ends_));
    for (std::size_t j = 0; j < size_; ++j) {
      const auto& column = sweep_.columns_[j];
      for (std::size_t c = column.from; c < column.to; ++c)
        free_from_[c] = std::min(free_from_[c], state[j]);
      effort_.steps += static_cast<std::int64_t>(column.to - column.from);
    }
    double most = 0;
    for (std::size_t c = 0; c < across_; ++c)
      most += most_behind(c, free_from_[c]);
    return most;
  }

  const MotifSweep& sweep_;
  const Weights& weights_;
  std::int64_t least_;
  MotifSweep::Effort& effort_;
  std::size_t across_, size_, ends_;
  std::vector<States> all_; // by the place along where the next piece may begin
  std::size_t ranks_held_ = 0;
  std::vector<Laid> laid_;
  std::vector<double> most_behind_;
  std::vector<Rank> now_, state_, free_from_;
  Ticks best_end_ = std::numeric_limits<Ticks>::max();
  int best_last_ = -1;
};

double MotifSweep::places(const std::vector<MotifKind>& kinds, Ticks width, const Repeat& repeat,
                          Ticks length) {
  const auto times = [](Ticks all, Ticks one) {
    return static_cast<double>(all / std::max<Ticks>(1, one) + 1);
  };
  double columns = 0, begins = 0;
  for (const auto& k : kinds) {
    const bool anywhere = k.group < 0; // then it has places of its own besides those of the others
    columns += anywhere ? 2 * columns + 3 * times(width, k.w()) : times(width, repeat.repeat_u);
    begins += anywhere ? 2 * times(length, k.l()) : times(length, repeat.repeat_v);
  }
  return columns * begins;
}

MotifSweep::MotifSweep(const std::vector<MotifKind>& kinds, Ticks width, const Repeat& repeat,
                       const MotifBox& box, Ticks length) {
  struct Lies {
    std::size_t kind;
    Ticks from, to, begin, end;
  };
  std::vector<Lies> all;
  std::set<Ticks> edges{0, width}, begins{0};
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    const auto& kind = kinds[k];
    if (kind.group < 0) { // places so close that wherever it lies it covers some
      for (Ticks u = 0; u < width; u += std::max<Ticks>(1, kind.w() / 3))
        edges.insert(u);
      for (Ticks v = 0; v < length; v += std::max<Ticks>(1, kind.l() / 2))
        begins.insert(v);
      continue;
    }
    // What it covers wherever in the box its motif lies.
    const auto g = static_cast<std::size_t>(kind.group);
    const Ticks before_u = kind.before_u - box.room_u[g], before_v = kind.before_v - box.room_v[g];
    const Ticks w = before_u + kind.after_u, l = before_v + kind.after_v;
    for (Ticks from = mod(box.u[g] - before_u, repeat.repeat_u); from + w <= width; from += repeat.repeat_u) {
      const Ticks columns = (from + before_u - box.u[g]) / repeat.repeat_u; // without rest
      for (Ticks begin = mod(box.v[g] + columns * repeat.drop - before_v, repeat.repeat_v);
           begin + l <= length; begin += repeat.repeat_v) {
        all.push_back({k, from, from + w, begin, begin + l});
        edges.insert({from, from + w}), begins.insert(begin);
      }
    }
  }
  edges_.assign(edges.begin(), edges.end()), begins_.assign(begins.begin(), begins.end());
  const auto edge = [&](Ticks u) {
    return static_cast<std::size_t>(std::lower_bound(edges_.begin(), edges_.end(), u) - edges_.begin());
  };
  const auto rank = [&](Ticks v) {
    return static_cast<Rank>(std::lower_bound(begins_.begin(), begins_.end(), v) - begins_.begin());
  };
  places_.resize(begins_.size());
  const auto add = [&](std::size_t kind, std::size_t from, std::size_t to) {
    columns_.push_back(
        {kind, from, to, {}, {}, std::vector<Rank>(begins_.size() + 1, static_cast<Rank>(begins_.size()))});
  };
  for (const auto& lies : all) { // of one kind column by column
    const std::size_t from = edge(lies.from);
    if (columns_.empty() || columns_.back().kind != lies.kind || columns_.back().from != from)
      add(lies.kind, from, edge(lies.to));
    const Rank begin = rank(lies.begin);
    columns_.back().next[begin] = begin;
    places_[begin].push_back({columns_.size() - 1, rank(lies.end), lies.end});
  }
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    if (kinds[k].group >= 0) continue;
    // Wherever it begins from one edge on, before the next, it covers no less than this; along likewise.
    const Ticks w = kinds[k].w(), l = kinds[k].l();
    for (std::size_t from = 0; from + 1 < edges_.size() && edges_[from] + w <= width; ++from) {
      const auto to = static_cast<std::size_t>(
          std::upper_bound(edges_.begin(), edges_.end(), edges_[from] + w) - edges_.begin() - 1);
      const bool at_edge = edges_[from + 1] - edges_[from] == 1;
      add(k, at_edge ? from : from + 1, to);
      for (std::size_t r = 0; r < begins_.size(); ++r) {
        const Ticks begin = r == 0 ? 0 : begins_[r - 1];
        if (begin + l > length) break;
        columns_.back().next[r] = static_cast<Rank>(r);
        places_[r].push_back({columns_.size() - 1, rank(begin + l), begin + l});
      }
    }
  }
  for (auto& column : columns_)
    for (std::size_t r = begins_.size(); r-- > 0;)
      column.next[r] = std::min(column.next[r], column.next[r + 1]);
  for (auto& column : columns_)
    for (std::size_t c = 0; c < columns_.size(); ++c) {
      if (columns_[c].from < column.to && column.from < columns_[c].to) column.crossed.push_back(c);
      if (columns_[c].kind == column.kind && kinds[column.kind].pieces.size() == 1)
        column.used_up.push_back(c);
    }
  for (auto& here : places_)
    std::stable_sort(here.begin(), here.end(), [&](const Place& a, const Place& b) {
      return columns_[a.column].from < columns_[b.column].from;
    });
}

std::optional<MotifSweep::Shortest> MotifSweep::shortest(const Weights& weights, std::int64_t least,
                                                         Effort& effort) const {
  return MotifStates(*this, weights, least, effort).run();
}

std::vector<int> missing(const std::vector<MotifKind>& kinds, const std::vector<MotifSweep::Lying>& at) {
  std::vector<int> number;
  for (const auto& k : kinds)
    number.push_back(static_cast<int>(k.pieces.size()));
  for (const auto& one : at)
    --number[one.kind];
  return number;
}

} // namespace treadfold::rows
