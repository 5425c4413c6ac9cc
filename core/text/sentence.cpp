#include "text/sentence.h"

#include "text/phrases.h"

#include <algorithm>
#include <map>
#include <vector>

namespace treadfold {

namespace {

/// A format taken apart: what stands before, between and behind its places.
struct Format {
  std::vector<std::string_view> literals;
  std::size_t weight = 0; // letters in them
  std::string_view into;
};

/// Where a place "{}", "{:.1f}" that begins at `at` ends; npos if none begins there.
std::size_t place_end(std::string_view text, std::size_t at) {
  if (text[at] != '{') return std::string_view::npos;
  const auto end = text.find_first_not_of("0123456789", at + 1);
  if (end == std::string_view::npos || (text[end] != '}' && text[end] != ':')) return std::string_view::npos;
  const auto close = text.find_first_of("{} ", end);
  return close != std::string_view::npos && text[close] == '}' ? close + 1 : std::string_view::npos;
}

Format format_of(const Phrase& phrase) {
  Format format{{}, 0, phrase.spanish};
  std::size_t from = 0;
  const auto take = [&](std::size_t to) {
    format.literals.push_back(phrase.english.substr(from, to - from));
    format.weight += format.literals.back().size();
  };
  for (std::size_t at = 0; at < phrase.english.size();) {
    const auto end = place_end(phrase.english, at);
    if (end == std::string_view::npos) {
      ++at;
      continue;
    }
    take(at);
    from = at = end;
  }
  take(phrase.english.size());
  return format;
}

/// "1 in 200" is a chance, no length.
bool one_in(std::string_view rest) {
  return rest.size() > 1 && rest[0] == ' ' && rest[1] >= '0' && rest[1] <= '9';
}

/// Numbers, lengths, ids, keys of the job file: no word in lower case but the signs of units.
bool stays(std::string_view text) {
  const auto lower = [](char c) { return (c >= 'a' && c <= 'z') || c == '_'; };
  for (auto from = std::find_if(text.begin(), text.end(), lower); from != text.end();) {
    const auto to = std::find_if_not(from, text.end(), lower);
    const std::string_view word(from, to);
    const bool length = word == "mm" || word == "cm" || word == "m" || word == "ft";
    const bool unit = length || (word == "in" && !one_in(std::string_view(to, text.end())));
    if (!unit && word.find('_') == std::string_view::npos) return false;
    from = std::find_if(to, text.end(), lower);
  }
  return true;
}

struct Book {
  std::map<std::string_view, std::string_view> whole; // phrases without a place
  std::vector<Format> formats;                        // the heaviest first

  explicit Book(std::span<const Phrase> phrases) {
    for (const Phrase& phrase : phrases) {
      Format format = format_of(phrase);
      if (format.literals.size() == 1)
        whole.emplace(phrase.english, phrase.spanish);
      else
        formats.push_back(std::move(format));
    }
    std::stable_sort(formats.begin(), formats.end(),
                     [](const Format& a, const Format& b) { return a.weight > b.weight; });
  }
};

/// Of one sentence and its parts.
class Translator {
public:
  explicit Translator(const Book& book) : book_(book) {}

  const Sentence& read(std::string_view text) {
    const auto known = known_.find(text);
    if (known != known_.end()) return known->second;
    Sentence reading = read_anew(text);
    return known_.emplace(text, std::move(reading)).first->second;
  }

private:
  Sentence read_anew(std::string_view text) {
    if (const auto found = book_.whole.find(text); found != book_.whole.end())
      return {std::string(found->second), {}};
    Sentence best{std::string(text), {}};
    if (stays(text)) return best;
    best.unknown = {std::string(text)};
    std::size_t least = text.size(), weight = 0;
    for (const Format& format : book_.formats) {
      if (least == 0 && format.weight < weight) break;
      std::vector<std::string_view> parts;
      fill(format, 0, text, parts, [&] {
        Sentence way = put_in(format, parts);
        std::size_t letters = 0;
        for (const auto& words : way.unknown)
          letters += words.size();
        if (letters > least || (letters == least && format.weight <= weight)) return;
        best = std::move(way);
        least = letters;
        weight = format.weight;
      });
    }
    return best;
  }

  /// Every way to fill the places after the literal `i`, which stands at the front of `text`, in turn.
  template <typename Found>
  void fill(const Format& format, std::size_t i, std::string_view text, std::vector<std::string_view>& parts,
            const Found& found) {
    if (!text.starts_with(format.literals[i])) return;
    text.remove_prefix(format.literals[i].size());
    const auto next = format.literals[i + 1];
    const bool last = i + 2 == format.literals.size();
    if (last) {
      if (!text.ends_with(next)) return;
      parts.push_back(text.substr(0, text.size() - next.size()));
      found();
      parts.pop_back();
      return;
    }
    for (auto at = text.find(next); at != std::string_view::npos;
         at = at < text.size() ? text.find(next, at + 1) : std::string_view::npos) {
      parts.push_back(text.substr(0, at));
      fill(format, i + 1, text.substr(at), parts, found);
      parts.pop_back();
    }
  }

  Sentence put_in(const Format& format, const std::vector<std::string_view>& parts) {
    Sentence out;
    std::vector<std::string> values;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const bool quoted = format.literals[i].ends_with('\'') && format.literals[i + 1].starts_with('\'');
      const Sentence value = quoted ? Sentence{std::string(parts[i]), {}} : read(parts[i]);
      values.push_back(value.text);
      out.unknown.insert(out.unknown.end(), value.unknown.begin(), value.unknown.end());
    }
    for (std::size_t at = 0; at < format.into.size();) {
      const auto end = place_end(format.into, at);
      if (end == std::string_view::npos)
        out.text += format.into[at++];
      else
        out.text += values.at(static_cast<std::size_t>(format.into[at + 1] - '0')), at = end;
    }
    return out;
  }

  const Book& book_;
  std::map<std::string, Sentence, std::less<>> known_;
};

} // namespace

Sentence in_spanish(std::string_view sentence) {
  static const Book book(room_phrases());
  return Translator(book).read(sentence);
}

} // namespace treadfold
