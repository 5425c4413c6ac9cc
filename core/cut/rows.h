// Rows across a strip: the packer that the search drives. Whole ticks throughout, so nothing here rounds.
//
// A layout grows as a tree of straight cuts. A row is freed by a cut across the whole strip; what is left
// beside a piece in it is freed by rips, what is left above and below by trims, and so on in turn. Every
// layout packed here can therefore be cut with straight strokes from edge to edge.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace treadfold::rows {

using Ticks = std::int64_t;

/// x modulo m, never negative. REQUIRES: m > 0.
constexpr Ticks mod(Ticks x, Ticks m) {
  const Ticks r = x % m;
  return r < 0 ? r + m : r;
}

/// w across the strip, l along it. match: index of its match group, -1 if it may lie anywhere.
struct Rect {
  Ticks w = 0, l = 0;
  int match = -1;
  Ticks phase_u = 0, phase_v = 0;
};

/// Motifs at (i·repeat_u, i·drop + j·repeat_v).
struct Repeat {
  Ticks repeat_u = 0, repeat_v = 0, drop = 0;
};

/// A loose rectangle of the goods, or a stretch of them between two faults.
struct LoosePart {
  Ticks u = 0, v = 0, w = 0, l = 0;
};

/// Places of a match group's motifs across, modulo the repeat: from `begin`, `room` further.
struct MotifPlaces {
  Ticks begin = 0, room = 0;
};

struct Strip {
  Ticks width = 0;
  Ticks longest_row = 0; // no row is longer: what is handled at once
  Ticks longest_cut = 0; // that can be had; at least longest_row
  Ticks begin = 0;       // rows lie from here on
  /// Pieces lie in these first if they fit; all before `begin`.
  std::vector<LoosePart> loose;
  std::optional<Repeat> repeat;
  /// For each match group the places across (0 <= begin < repeat_u) where its motifs may lie so that every
  /// piece of the group still fits between the strip's edges.
  std::vector<std::vector<MotifPlaces>> motif_places;
  /// By match group: its place along, where that is settled already; else set by its first piece. May be
  /// empty: none is settled.
  std::vector<std::optional<Ticks>> motif_along;
};

/// Fills strip.motif_places for match groups 0…groups-1. The first group that cannot be kept, or -1.
int find_motif_places(const std::vector<Rect>& rects, int groups, Strip& strip);

struct Spot {
  Ticks u = 0, v = 0;
  bool turned = false; // half round, of what is laid by its outline
};

/// How the next piece finds its place.
struct Rule {
  enum class Fit {
    next,   // the row in hand or a new one, nothing below a shorter piece: whole rows by hand
    first,  // the first space it fits
    across, // the space it fills best across
    along   // the space it fills best along
  } fit = Fit::first;
  /// The last row may be lengthened for a piece by up to this share of the piece's length.
  int stretch_percent = 0;
  /// At which of the strip's places a group's motifs lie, or -1: where its first piece has them.
  int motif_place = 0;
  bool rip_loose = false; // loose parts are ripped first, not cut across
};

struct Packing {
  std::vector<Spot> at; // by index of Rect
  Ticks length = 0;     // where the last row ends; strip.begin if there is none
};

/// Packs the rects in the given order. REQUIRES: every rect fits the strip; order is a permutation.
/// Counts into `steps` the spaces looked at, which is the measure of work.
Packing pack(const std::vector<Rect>& rects, const std::vector<int>& order, const Rule& rule,
             const Strip& strip, std::int64_t& steps);

} // namespace treadfold::rows
