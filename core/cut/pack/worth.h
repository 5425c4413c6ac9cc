// What pieces are worth across a strip, and so what a room can hold of it.
#pragma once

#include "cut/pack/sheet.h"

#include <vector>

namespace treadfold::pack {

/// By kind; and of any pieces side by side in a room, by its width, the most that they are worth together.
struct Worth {
  std::vector<Ticks> of_kind, in_room;
};

/// Their widths. Adds to `work`.
Worth worth_by_width(const Sheet& sheet, std::int64_t& work);

/// The values that make the sum of all pieces' worth times length great: those of a linear program
/// (scales.h), given up at `most_work` steps. Adds to `work`.
Worth worth_by_program(const Sheet& sheet, std::int64_t most_work, std::int64_t& work);

} // namespace treadfold::pack
