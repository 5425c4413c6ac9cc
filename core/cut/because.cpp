#include "cut/because.h"

#include <fmt/format.h>
#include <string_view>

namespace treadfold {

std::string because(const std::string& bound_name) {
  struct Meaning {
    std::string_view name; // begins with it
    const char* words;
  };
  static constexpr Meaning kReasons[] = {
      {"longest piece", "the longest piece alone takes so much"},
      {"area of the width that can be used",
       "the pieces cover so much, and no choice of them fills more of the width"},
      {"area", "the pieces themselves cover so much"},
      {"pieces that cannot lie side by side", "so many pieces are too wide to lie beside one another"},
      {"dual feasible functions across and along",
       "no choice of the pieces fits side by side and behind one another in less"},
      {"dual feasible function", "no choice of the pieces fits better side by side"},
      {"lines a pattern step apart", "to match, pieces lie whole steps of the pattern apart, and no choice "
                                     "of them fits better side by side"},
      {"conservative scales", "no choice of the pieces fits side by side and behind one another in less"},
      {"no shorter packing exists", "every way to lay them shorter was ruled out"},
      {"nothing to buy", "the remnants serve"},
  };
  for (const auto& reason : kReasons) {
    if (bound_name.rfind(reason.name, 0) != 0) continue;
    std::string words = reason.words;
    if (bound_name.find(", next sum of piece lengths") != std::string::npos)
      words = fmt::format("{}, and pieces behind one another come to no length in between", words);
    if (bound_name.find(", at the pattern's spacing") != std::string::npos)
      words = fmt::format("{}, and to match they lie whole repeats apart", words);
    return words;
  }
  return bound_name;
}

} // namespace treadfold
