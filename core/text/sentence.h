// A finished sentence in another language: matched back to the format it was made from.
//
// The whole sentence must fit the format; what fills its places is itself a sentence, a value that stays as
// it is, or words of the user's, and what stands in quotes always stays. web/src/text/matcher.ts does the
// same.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace treadfold {

struct Sentence {
  std::string text;                 // as far as it is known in Spanish
  std::vector<std::string> unknown; // words that are neither in the book nor a value
};

/// By room_phrases(). Of all readings the one that leaves the fewest letters unknown; of those, by the format
/// with most letters of its own.
Sentence in_spanish(std::string_view sentence);

} // namespace treadfold
