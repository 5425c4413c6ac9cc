// The languages in which a job's sheets can be drawn.
#pragma once

namespace treadfold {

enum class Language { english, spanish };

} // namespace treadfold
