// A lower bound on the length of a strip of patterned goods: conservative scales (cut/pack/scales.h) of
// pieces that keep their pattern.
#pragma once

#include "cut/bound.h"

namespace treadfold::rows {

/// Values of the pieces across, of which no line across holds more than 1, and values along, of which no line
/// along holds more than 1: then the products sum to no more than 1. How the groups' motifs lie beside one
/// another is not known; for every way across and every way along such values are found. Raises `bound` if
/// that proves more; looks at about `most_work` places of pieces on lines, or at nothing where the groups or
/// the columns of the pattern are many.
void raise_by_match_scales(const std::vector<Rect>& rects, const Strip& strip, std::int64_t most_work,
                           Bound& bound);

} // namespace treadfold::rows
