// What joining steps saves, in a sentence.
#pragma once

#include "plan.h"

namespace treadfold {

/// "Steps joined 3, 3, 2: 1' 0\" less to order than every step on its own.", in the job's language. Empty
/// where joins were not chosen with this layout.
std::string joins_in_words(const Plan& plan, const Layout& layout);

} // namespace treadfold
