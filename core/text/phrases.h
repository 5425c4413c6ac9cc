// The phrase books: two tables of English formats and what each is in Spanish, made from core/text/*.es.json.
//
// In a format {} is where a value goes; its Spanish names the values by {0}, {1} …, in any order.
#pragma once

#include <span>
#include <string_view>

namespace treadfold {

struct Phrase {
  std::string_view english, spanish;
};

/// What the sheets say themselves. They write each phrase in the job's language from the start (reader.h).
std::span<const Phrase> sheet_phrases();

/// What the rooms before them say in a plan, always in English: problems, names of lines and faces, rules of
/// counting. Sheets and app match such a sentence back to its format (sentence.h, web/src/text/matcher.ts).
std::span<const Phrase> room_phrases();

} // namespace treadfold
