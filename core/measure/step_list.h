#pragma once

#include <string>
#include <vector>

namespace treadfold {

/// "step 3", "steps 1–4, 6 and 9". REQUIRES: numbers ascending.
std::string step_list(const std::vector<int>& numbers);

} // namespace treadfold
