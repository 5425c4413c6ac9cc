// Can a page be read? Every sheet's test asks this of every page.
#pragma once

#include "sheets/drawing.h"

#include <array>
#include <string>
#include <vector>

namespace treadfold {

/// The corners of what a text covers, from the descenders to the ascenders, in order around.
std::array<PagePoint, 4> covered_by(const Text& text);

/// One sentence for each fault: words or marks that leave the page or come within `margin_mm` of its edge,
/// words that overlap other words, words that do not fit the encoding. Empty: the page can be read.
std::vector<std::string> faults_of(const Drawing& page, double margin_mm = 12);

/// One sentence for each word that a stroke runs through, unless a fill lies between the two.
std::vector<std::string> struck_words(const Drawing& page);

} // namespace treadfold
