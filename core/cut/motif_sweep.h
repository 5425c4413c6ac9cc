// Patterned goods whose motifs are settled, swept along the strip: how short it may be for what shall lie on
// it.
#pragma once

#include "cut/motif_kinds.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace treadfold::rows {

/// By group, where one of its motifs lies: at (u, v), or up to room_u and room_v further.
struct MotifBox {
  Motifs u, v, room_u, room_v;
};

/// A state is where along the strip each column of places may begin next; it is carried from one place along
/// where a piece may begin to the next, with every set of pieces that may begin there. Of two states of which
/// one has as much on it, and is further along nowhere, that one is kept.
class MotifSweep {
public:
  using Rank = std::uint16_t; // of a place along where a piece may begin; as many as there are: of none

  /// Places across times places along, no more than about. REQUIRES of the constructor: at most kMostPlaces.
  static double places(const std::vector<MotifKind>& kinds, Ticks width, const Repeat& repeat, Ticks length);
  static constexpr double kMostPlaces = 200'000;

  /// REQUIRES: length > 0; every kind is larger than the room of its group's motifs.
  MotifSweep(const std::vector<MotifKind>& kinds, Ticks width, const Repeat& repeat, const MotifBox& box,
             Ticks length);

  struct Effort {
    std::size_t most_states = 0; // kept at a time
    std::int64_t most_steps = 0; // columns looked at
    std::int64_t steps = 0;
    bool all_seen = true; // false: something was given up
  };
  struct Lying {
    std::size_t kind = 0;
    Ticks u = 0, v = 0;
  };
  struct Shortest {
    Ticks length = 0;
    std::vector<Lying> at;
  };
  /// The shortest way in which pieces of at least that weight in all lie on the strip, none over another;
  /// none: they do not. Each kind comes as often as it likes, but one of a single piece no more than once.
  /// Where the box has room, or a piece may lie anywhere, it may be shorter than pieces can lie, never
  /// longer: then `at` is no layout. What `effort` does not allow is given up: there may be a shorter way.
  std::optional<Shortest> shortest(const Weights& weights, std::int64_t least, Effort& effort) const;

  /// About what shortest() takes for a state at each place along.
  std::int64_t steps_of_a_state() const {
    return static_cast<std::int64_t>(begins_.size() * columns_.size());
  }

private:
  friend class MotifStates;

  /// A kind at a place across, from one edge to another; next[r]: the first place along from r on where it
  /// may begin.
  struct Column {
    std::size_t kind, from, to;
    /// Columns in which none may lie beside it; in which none may lie after it.
    std::vector<std::size_t> crossed, used_up;
    std::vector<Rank> next;
  };
  struct Place {
    std::size_t column;
    Rank free_from; // the place along after it
    Ticks end;
  };

  std::vector<Ticks> edges_, begins_;
  std::vector<Column> columns_;
  std::vector<std::vector<Place>> places_; // by where they begin
};

/// By kind, how many pieces do not lie there; below 0 where more do than there are.
std::vector<int> missing(const std::vector<MotifKind>& kinds, const std::vector<MotifSweep::Lying>& at);

} // namespace treadfold::rows
