#include "job/object_reader.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>

namespace treadfold {

namespace {

constexpr std::size_t kNameLength = 60, kTextLength = 500, kListLength = 100;

std::size_t characters(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(
      text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u; }));
}

bool has_control_character(std::string_view text) {
  return std::any_of(text.begin(), text.end(), [](char c) {
    const auto u = static_cast<unsigned char>(c);
    return u < 0x20 || u == 0x7F;
  });
}

std::string without_trailing_comma(std::string text) {
  if (text.ends_with(", ")) text.resize(text.size() - 2);
  return text;
}

/// Limits are round in inches; a metric reader is told whole millimetres, and those are what counts.
LengthRange in_unit(LengthRange range, LengthUnit unit) {
  if (unit == LengthUnit::inch) return range;
  return {floor_to(range.least, kMillimetre), ceil_to(range.most, kMillimetre)};
}

double mm_per(LengthUnit unit) {
  switch (unit) {
  case LengthUnit::inch:
    return 25.4;
  case LengthUnit::millimetre:
    return 1;
  case LengthUnit::centimetre:
    return 10;
  }
  return 1;
}

/// Letters to change, add or drop to make `b` of `a`, capitals and word gaps forgiven.
std::size_t distance(std::string_view a, std::string_view b) {
  const auto plain = [](char c) {
    if (c == ' ' || c == '-') return '_';
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  };
  std::vector<std::size_t> row(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 0; i < a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i + 1;
    for (std::size_t j = 0; j < b.size(); ++j) {
      const std::size_t change = diagonal + (plain(a[i]) == plain(b[j]) ? 0 : 1);
      diagonal = row[j + 1];
      row[j + 1] = std::min({change, row[j] + 1, diagonal + 1});
    }
  }
  return row.back();
}

} // namespace

std::string_view nearest_word(std::string_view text, const std::vector<std::string>& words) {
  if (text.empty() || text.size() > 40) return {};
  const std::size_t enough = std::max<std::size_t>(1, std::min<std::size_t>(3, text.size() / 2));
  std::string_view best;
  std::size_t least = enough + 1;
  for (const auto& word : words)
    if (const std::size_t d = distance(text, word); d < least) least = d, best = word;
  return best;
}

std::optional<std::int64_t> parse_decimal(std::string_view text, int places) {
  std::int64_t value = 0;
  int after = -1;
  bool digits = false;
  for (const char c : text) {
    if (c == '.' && after < 0) {
      after = 0;
    } else if (c >= '0' && c <= '9') {
      digits = true;
      if (after >= 0 && ++after > places) {
        if (c != '0') return {};
        continue;
      }
      value = value * 10 + (c - '0');
      if (value > 1'000'000'000'000'000) return {};
    } else {
      return {};
    }
  }
  if (!digits) return {};
  for (int i = std::clamp(after, 0, places); i < places; ++i) {
    value *= 10;
    if (value > 1'000'000'000'000'000) return {};
  }
  return value;
}

std::string ObjectReader::one_of(const std::vector<std::string_view>& words) {
  std::string list;
  for (const auto& word : words)
    list += fmt::format("'{}', ", word);
  list = without_trailing_comma(list);
  return words.size() == 1 ? list : "one of " + list;
}

ObjectReader::ObjectReader(Context& context, const Node& node, std::string where)
    : context_(context), node_(node), where_(std::move(where)), is_object_(node.kind == Node::Kind::object) {
  if (!is_object_) context_.findings.error(where_, shown(node), "an object in { }");
}

ObjectReader::~ObjectReader() {
  if (!is_object_) return;
  for (const auto& key : node_.keys) {
    if (std::find(asked_.begin(), asked_.end(), key) != asked_.end()) continue;
    const auto near = context_.findings.full() ? std::string_view{} : nearest_word(key, asked_);
    std::string expected = fmt::format("'{}'", near);
    if (near.empty()) {
      std::vector<std::string_view> words(asked_.begin(), asked_.end());
      expected = one_of(words);
    }
    context_.findings.error(at(key), fmt::format("the unknown key {}", in_quotes(key)), expected);
  }
}

const Node* ObjectReader::find(std::string_view key) {
  if (std::find(asked_.begin(), asked_.end(), key) == asked_.end()) asked_.emplace_back(key);
  return node_.find(key);
}

const Node* ObjectReader::need(std::string_view key, std::string_view expected) {
  const Node* node = find(key);
  if (!node && is_object_) context_.findings.error(at(key), "nothing", std::string(expected));
  return node;
}

std::optional<Length> ObjectReader::read_length(Context& context, const Node& node, std::string_view where,
                                                LengthRange wide_range) {
  const LengthRange range = in_unit(wide_range, context.unit);
  std::optional<Length> length;
  if (node.kind == Node::Kind::string)
    length = parse_length(node.text, context.unit);
  else if (node.kind == Node::Kind::number && std::abs(node.number) <= 1e6)
    length = from_mm(node.number * mm_per(context.unit));
  const bool in_range = length && (!context.unit_known || (*length >= range.least && *length <= range.most));
  if (in_range) return length;
  std::string expected = "a length such as '7 1/2', '2 ft 3 in' or '190 mm'";
  if (context.unit_known)
    expected = fmt::format("a length from {} to {}{}", show_length(range.least, context.unit, true),
                           show_length(range.most, context.unit, true),
                           length ? "" : ", written like '7 1/2', '2 ft 3 in' or '190 mm'");
  context.findings.error(std::string(where), shown(node), expected);
  return {};
}

std::optional<Length> ObjectReader::length(std::string_view key, LengthRange range) {
  const LengthRange shown_range = in_unit(range, context_.unit);
  const Node* node =
      need(key, context_.unit_known ? fmt::format("a length from {} to {}",
                                                  show_length(shown_range.least, context_.unit, true),
                                                  show_length(shown_range.most, context_.unit, true))
                                    : "a length");
  return node ? read_length(context_, *node, at(key), range) : std::nullopt;
}

std::optional<Length> ObjectReader::length_if(std::string_view key, LengthRange range) {
  const Node* node = find(key);
  return node ? read_length(context_, *node, at(key), range) : std::nullopt;
}

Length ObjectReader::length_or(std::string_view key, LengthRange range, Length fallback) {
  return length_if(key, range).value_or(fallback);
}

std::optional<int> ObjectReader::integer_if(std::string_view key, int least, int most) {
  const Node* node = find(key);
  if (!node) return {};
  const bool whole = node->kind == Node::Kind::number && std::trunc(node->number) == node->number;
  if (whole && node->number >= least && node->number <= most) return static_cast<int>(node->number);
  context_.findings.error(at(key), shown(*node), fmt::format("a whole number from {} to {}", least, most));
  return {};
}

std::optional<int> ObjectReader::integer(std::string_view key, int least, int most) {
  if (!has(key)) {
    need(key, fmt::format("a whole number from {} to {}", least, most));
    return {};
  }
  return integer_if(key, least, most);
}

int ObjectReader::integer_or(std::string_view key, int least, int most, int fallback) {
  return integer_if(key, least, most).value_or(fallback);
}

bool ObjectReader::boolean_or(std::string_view key, bool fallback) {
  const Node* node = find(key);
  if (!node) return fallback;
  if (node->kind == Node::Kind::boolean) return node->truth;
  context_.findings.error(at(key), shown(*node), "true or false");
  return fallback;
}

std::optional<std::string> ObjectReader::text(std::string_view key, const Node& node, std::size_t least,
                                              std::size_t most) {
  if (node.kind == Node::Kind::string) {
    const std::size_t n = characters(node.text);
    const bool blank = node.text.find_first_not_of(' ') == std::string::npos;
    if (n >= least && n <= most && !(least > 0 && blank) && !has_control_character(node.text))
      return node.text;
  }
  context_.findings.error(std::string(key), shown(node),
                          least > 0 ? fmt::format("a text of {} to {} characters in one line", least, most)
                                    : fmt::format("a text of up to {} characters in one line", most));
  return {};
}

std::string ObjectReader::name(std::string_view key) {
  const Node* node = need(key, fmt::format("a text of 1 to {} characters in one line", kNameLength));
  return node ? text(at(key), *node, 1, kNameLength).value_or("") : "";
}

std::string ObjectReader::text_or(std::string_view key) {
  const Node* node = find(key);
  return node ? text(at(key), *node, 0, kTextLength).value_or("") : "";
}

std::vector<std::string> ObjectReader::texts_or(std::string_view key) {
  std::vector<std::string> out;
  for (const auto& entry : list(key, 0, kListLength))
    if (auto t = text(entry.where, *entry.node, 1, kTextLength)) out.push_back(std::move(*t));
  return out;
}

std::optional<Money> ObjectReader::money(std::string_view key) {
  constexpr Money kMost{100'000'000};
  const std::string expected = "an amount from 0 to 1,000,000.00 with at most two decimals";
  const Node* node = need(key, expected);
  if (!node) return {};
  std::optional<Money> amount;
  if (node->kind == Node::Kind::string || node->kind == Node::Kind::number) amount = parse_money(node->text);
  if (amount && *amount >= Money{0} && *amount <= kMost) return amount;
  context_.findings.error(at(key), shown(*node), expected);
  return {};
}

std::int64_t ObjectReader::decimal_or(std::string_view key, int places, std::int64_t most, bool percent,
                                      std::int64_t fallback) {
  const Node* node = find(key);
  if (!node) return fallback;
  std::optional<std::int64_t> value;
  if (node->kind == Node::Kind::number) {
    value = parse_decimal(node->text, places);
  } else if (node->kind == Node::Kind::string) {
    std::string_view text = node->text;
    if (percent && text.ends_with('%')) text.remove_suffix(1);
    while (percent && text.ends_with(' '))
      text.remove_suffix(1);
    value = parse_decimal(text, places);
  }
  if (value && *value <= most) return *value;
  std::int64_t scale = 1;
  for (int i = 0; i < places; ++i)
    scale *= 10;
  context_.findings.error(at(key), shown(*node),
                          fmt::format("a number from 0 to {}{}, with at most {} decimals", most / scale,
                                      percent ? " %" : "", places));
  return fallback;
}

std::vector<Entry> ObjectReader::list(std::string_view key, std::size_t least, std::size_t most) {
  const std::string expected = fmt::format("a list of {} to {} entries in [ ]", least, most);
  const Node* node = least > 0 ? need(key, expected) : find(key);
  if (!node) return {};
  const bool is_list = node->kind == Node::Kind::array;
  if (!is_list || node->items.size() < least || node->items.size() > most) {
    context_.findings.error(at(key),
                            is_list && !node->items.empty() ? fmt::format("{} entries", node->items.size())
                                                            : shown(*node),
                            expected);
    return {};
  }
  std::vector<Entry> entries;
  for (std::size_t i = 0; i < node->items.size(); ++i)
    entries.push_back({&node->items[i], pointer_to(at(key), i)});
  return entries;
}

} // namespace treadfold
