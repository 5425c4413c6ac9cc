// The one face of all sheets: Helvetica, as every PDF reader and printer has it, in the Windows Latin
// encoding.
#pragma once

#include <string>
#include <string_view>

namespace treadfold {

/// `utf8` in WinAnsiEncoding (PDF 1.4, Annex D). Signs it lacks become their nearest likeness ("′" → "'"), or
/// "?"; bytes that are not UTF-8 and control characters become "?" and a space.
std::string win_ansi(std::string_view utf8);

/// The same text with the same replacements, as UTF-8, for writers of Unicode formats.
std::string printable(std::string_view utf8);

/// `x` with at most three decimals, no exponent, the point as the sign, no "-0": "12.5".
std::string decimal(double x);

} // namespace treadfold
