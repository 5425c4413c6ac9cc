#include "text/reader.h"

#include "text/phrases.h"
#include "text/sentence.h"

namespace treadfold {

std::string_view phrase(std::string_view english, Language language) {
  if (language == Language::spanish)
    for (const Phrase& p : sheet_phrases())
      if (p.english == english) return p.spanish;
  return english;
}

std::string Reader::said(const std::string& sentence) const {
  if (language == Language::english) return sentence;
  const Sentence whole = in_spanish(sentence);
  const auto end = sentence.find(". ");
  if (whole.unknown.empty() || end == std::string::npos) return whole.text;
  return said(sentence.substr(0, end + 1)) + " " + said(sentence.substr(end + 2)); // several
}

std::string Reader::list(const std::vector<std::string>& words) const {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i)
    text = i == 0                  ? words[i]
           : i + 1 == words.size() ? say("{} and {}", text, words[i])
                                   : text + ", " + words[i];
  return text;
}

} // namespace treadfold
