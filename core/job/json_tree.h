// JSON text as a tree of plain values, with everything that can be wrong with the text said as problems.
#pragma once

#include "job/findings.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace treadfold {

inline constexpr std::size_t kMaxJobBytes = 8u << 20;
inline constexpr std::size_t kMaxDepth = 32;
/// Far above any real job; keeps 8 MB of "[[],[],…" from becoming half a gigabyte of tree.
inline constexpr std::size_t kMaxValues = 200000;

struct Node {
  enum class Kind { null, boolean, number, string, array, object } kind = Kind::null;
  bool truth = false;
  double number = 0;
  std::string text = {};              // of a string; of a number, as written
  std::vector<std::string> keys = {}; // of an object: keys[i] names items[i]
  std::vector<Node> items = {};       // of an array or object, in the order of the file

  const Node* find(std::string_view key) const; // nullptr if absent or not an object; the first if twice
};

/// Reads UTF-8 JSON with `//` comments; a byte order mark is skipped. Empty when the text is no JSON, not
/// UTF-8, or over a limit; then findings has one error that tells line and column. A key given twice is an
/// error at its place, and reading goes on.
std::optional<Node> parse_tree(std::string_view text, Findings& findings);

/// What stands there, for a problem's `found`: "'7 1/2'", "-3", "a list"; never longer than a line.
std::string shown(const Node& node);
std::string in_quotes(std::string_view text);

/// `where` + "/" + `key`, escaped as RFC 6901 says.
std::string pointer_to(std::string_view where, std::string_view key);
std::string pointer_to(std::string_view where, std::size_t index);

} // namespace treadfold
