// Takes an object's members by name, checks each, and names every member that nobody asked for.
#pragma once

#include "job/json_tree.h"
#include "units/length.h"
#include "units/money.h"

namespace treadfold {

struct Context {
  Findings& findings;
  LengthUnit unit = LengthUnit::inch;
  bool unit_known = true; // false: the job does not say; ranges cannot be judged
};

/// Both ends allowed.
struct LengthRange {
  Length least, most;
};

struct Entry {
  const Node* node;
  std::string where;
};

/// Reading never stops at a problem: it is noted, and the answer is empty. A member of which the job may be
/// silent is asked for with `_or`, and the fallback answers. Members that were not asked for by the time the
/// reader goes out of scope are unknown keys.
class ObjectReader {
public:
  ObjectReader(Context& context, const Node& node, std::string where);
  ~ObjectReader();
  ObjectReader(const ObjectReader&) = delete;
  ObjectReader& operator=(const ObjectReader&) = delete;

  bool is_object() const { return is_object_; }
  bool has(std::string_view key) const { return node_.find(key) != nullptr; }
  const std::string& where() const { return where_; }
  std::string at(std::string_view key) const { return pointer_to(where_, key); }
  Context& context() { return context_; }

  /// The member, or nullptr. `need` notes a missing one, with `expected` as what should be there.
  const Node* find(std::string_view key);
  const Node* need(std::string_view key, std::string_view expected);

  std::optional<Length> length(std::string_view key, LengthRange range);
  /// A wrong length is noted and the fallback answers: later checks then have something to go on.
  Length length_or(std::string_view key, LengthRange range, Length fallback);
  std::optional<Length> length_if(std::string_view key, LengthRange range);

  std::optional<int> integer(std::string_view key, int least, int most);
  int integer_or(std::string_view key, int least, int most, int fallback);
  std::optional<int> integer_if(std::string_view key, int least, int most);

  bool boolean_or(std::string_view key, bool fallback);
  std::string name(std::string_view key);    // 1 to 60 characters, as labels and file names need them
  std::string text_or(std::string_view key); // up to 500 characters, "" when absent
  std::vector<std::string> texts_or(std::string_view key);

  std::optional<Money> money(std::string_view key);
  /// A decimal in units of 10^-places: decimal_or("20 %", places 4) = 200,000. `percent` allows the sign.
  std::int64_t decimal_or(std::string_view key, int places, std::int64_t most, bool percent,
                          std::int64_t fallback);

  /// Members of a list of `least` to `most` entries. Absent is an error only if least > 0.
  std::vector<Entry> list(std::string_view key, std::size_t least, std::size_t most);

  template <class E>
  struct Choice {
    std::string_view word;
    E value;
  };
  template <class E>
  std::optional<E> choice(std::string_view key, std::initializer_list<Choice<E>> choices) {
    if (!has(key)) need(key, one_of(words_of(choices)));
    return choice_if(key, choices);
  }
  template <class E>
  std::optional<E> choice_if(std::string_view key, std::initializer_list<Choice<E>> choices) {
    const Node* node = find(key);
    if (!node) return {};
    if (node->kind == Node::Kind::string)
      for (const auto& c : choices)
        if (c.word == node->text) return c.value;
    context_.findings.error(at(key), shown(*node), one_of(words_of(choices)));
    return {};
  }

  /// A length on its own, at `where`.
  static std::optional<Length> read_length(Context& context, const Node& node, std::string_view where,
                                           LengthRange range);
  static std::string one_of(const std::vector<std::string_view>& words);

private:
  template <class E>
  static std::vector<std::string_view> words_of(std::initializer_list<Choice<E>> choices) {
    std::vector<std::string_view> words;
    for (const auto& c : choices)
      words.push_back(c.word);
    return words;
  }
  std::optional<std::string> text(std::string_view key, const Node& node, std::size_t least,
                                  std::size_t most);

  Context& context_;
  const Node& node_;
  std::string where_;
  bool is_object_;
  std::vector<std::string> asked_;
};

/// The word of `words` that `text` most likely meant; empty if none is near.
std::string_view nearest_word(std::string_view text, const std::vector<std::string>& words);

/// "12.5" in units of 10^-places, no sign; empty if it is no such number or needs more places.
std::optional<std::int64_t> parse_decimal(std::string_view text, int places);

} // namespace treadfold
