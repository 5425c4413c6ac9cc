// Who reads a sheet: in which language, and in which unit lengths are shown.
//
// Guarantees
//  1. In English say() is fmt::format() and said() changes nothing.
//  2. A phrase without a Spanish is written in English (tests see to it that there is none), and so is what
//     said() does not know: names, and words of the user's.
#pragma once

#include "text/language.h"
#include "units/length.h"

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <vector>

namespace treadfold {

/// The format in that language.
std::string_view phrase(std::string_view english, Language language);

struct Reader {
  LengthUnit unit = LengthUnit::inch;
  Language language = Language::english;

  operator LengthUnit() const { return unit; }

  /// say("Step {} of {}", 3, 14) is "Escalón 3 de 14". The phrase is one of sheet_phrases().
  template <typename... Values>
  std::string say(fmt::format_string<Values...> english, Values&&... values) const {
    const fmt::string_view format = english;
    const auto own = phrase({format.data(), format.size()}, language);
    return fmt::vformat({own.data(), own.size()}, fmt::make_format_args(values...));
  }

  /// A sentence that the plan has in English.
  std::string said(const std::string& sentence) const;

  /// "A-14, A-13 and A-12".
  std::string list(const std::vector<std::string>& words) const;
};

} // namespace treadfold
