// A lower bound on the length of a strip of patterned goods, by what its motifs have room for.
#pragma once

#include "cut/bound.h"

namespace treadfold::rows {

/// How the groups' motifs lie beside one another is not known: all ways in which they can are divided into
/// fewer and fewer, those first that seem the shortest, until the strip was swept (motif_sweep.h) and found
/// too short for each. Raises `bound` to `limit` + 1 if no layout is as short as that, or less far; within
/// about `most_steps`. Does nothing where no piece keeps a pattern, or the ways are many.
void raise_by_motifs(const std::vector<Rect>& rects, const Strip& strip, Ticks limit, std::int64_t most_steps,
                     Bound& bound);

} // namespace treadfold::rows
