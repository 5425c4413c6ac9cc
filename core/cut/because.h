// Why an order could not be less, in words that a customer follows.
#pragma once

#include <string>

namespace treadfold {

/// "because …" without its first word, for the name of a bound (Layout::bound_name). A name that is not known
/// is handed back as it is.
std::string because(const std::string& bound_name);

} // namespace treadfold
