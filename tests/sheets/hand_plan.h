// A plan made by hand, so that the sheets' own tests do not move when the rooms before them improve.
#pragma once

#include "plan.h"

namespace treadfold::by_hand {

/// Four closed steps and a landing edge, laid out in two rows on a 12 ft roll of 6 ft, with every list
/// filled.
Plan small_plan();

/// `rows` rows of pieces of random widths on a roll, cut row by row, as a plan with nothing else in it.
Plan rows_plan(const std::vector<std::vector<Length>>& rows, Length row_length, LengthUnit unit,
               PaperSize paper);

} // namespace treadfold::by_hand
