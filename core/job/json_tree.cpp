#include "job/json_tree.h"

#include <algorithm>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace treadfold {

namespace {

/// Length of the UTF-8 character at `i`, 0 if it is not one (overlong forms, surrogates and NUL included).
std::size_t utf8_at(std::string_view s, std::size_t i) {
  const auto byte = [&](std::size_t k) { return k < s.size() ? static_cast<unsigned char>(s[k]) : 0u; };
  const auto tail = [&](std::size_t k) { return (byte(k) & 0xC0u) == 0x80u; };
  const unsigned a = byte(i), b = byte(i + 1);
  if (a == 0) return 0;
  if (a < 0x80) return 1;
  if (a >= 0xC2 && a <= 0xDF) return tail(i + 1) ? 2 : 0;
  if (a >= 0xE0 && a <= 0xEF) {
    const bool in_range = (a != 0xE0 || b >= 0xA0) && (a != 0xED || b <= 0x9F);
    return in_range && tail(i + 1) && tail(i + 2) ? 3 : 0;
  }
  if (a >= 0xF0 && a <= 0xF4) {
    const bool in_range = (a != 0xF0 || b >= 0x90) && (a != 0xF4 || b <= 0x8F);
    return in_range && tail(i + 1) && tail(i + 2) && tail(i + 3) ? 4 : 0;
  }
  return 0;
}

/// "line 3, column 7" of the byte at `offset`, columns in characters.
std::string place(std::string_view text, std::size_t offset) {
  std::size_t line = 1, column = 1;
  for (std::size_t i = 0; i < std::min(offset, text.size()); ++i) {
    const unsigned c = static_cast<unsigned char>(text[i]);
    if (c == '\n')
      ++line, column = 1;
    else if ((c & 0xC0u) != 0x80u)
      ++column;
  }
  return fmt::format("line {}, column {}", line, column);
}

/// The reader calls these as it meets values; false stops it.
class TreeBuilder {
public:
  TreeBuilder(std::string_view text, Findings& findings) : text_(text), findings_(findings) {}

  using json = nlohmann::json;
  bool null() { return put({}) != nullptr; }
  bool boolean(bool v) { return put({.kind = Node::Kind::boolean, .truth = v}) != nullptr; }
  bool number_integer(json::number_integer_t v) { return number(static_cast<double>(v), fmt::to_string(v)); }
  bool number_unsigned(json::number_unsigned_t v) {
    return number(static_cast<double>(v), fmt::to_string(v));
  }
  bool number_float(json::number_float_t v, const std::string& written) {
    std::string text = written; // the reader writes the decimal point of the C locale in force
    std::replace(text.begin(), text.end(), ',', '.');
    return number(v, std::move(text));
  }
  bool string(std::string& v) { return put({.kind = Node::Kind::string, .text = std::move(v)}) != nullptr; }
  bool binary(json::binary_t&) { return false; } // JSON text has none
  bool start_object(std::size_t) { return open(Node::Kind::object); }
  bool start_array(std::size_t) { return open(Node::Kind::array); }
  bool key(std::string& k) { return stack_.back()->keys.push_back(std::move(k)), true; }
  bool end_object() {
    name_duplicates(*stack_.back());
    return close();
  }
  bool end_array() { return close(); }

  bool parse_error(std::size_t position, const std::string&, const json::exception& e) {
    // "[…] parse error at line 1, column 2: syntax error while parsing X - Y; last read: 'Z'; expected W"
    std::string_view what = e.what();
    std::string_view found = "something that is not JSON", expected = "JSON";
    if (const auto dash = what.find(" - "); dash != std::string_view::npos) {
      found = what.substr(dash + 3);
      if (const auto at = what.rfind("; expected "); at != std::string_view::npos && at > dash)
        expected = what.substr(at + 11);
      found = found.substr(0, found.find(';'));
    } else if (what.find("number overflow") != std::string_view::npos) {
      found = "a number too large to hold", expected = "a number within reason";
    }
    findings_.error("", fmt::format("{} at {}", found, place(text_, position > 0 ? position - 1 : 0)),
                    std::string(expected));
    return false;
  }

  std::optional<Node> take() { return std::move(root_); }

private:
  bool number(double v, std::string text) {
    return put({.kind = Node::Kind::number, .number = v, .text = std::move(text)}) != nullptr;
  }

  Node* put(Node node) {
    if (++values_ > kMaxValues) {
      findings_.error("", fmt::format("more than {} values", kMaxValues), "a job file, which has far fewer");
      return nullptr;
    }
    if (stack_.empty()) return &root_.emplace(std::move(node));
    return &stack_.back()->items.emplace_back(std::move(node));
  }

  bool open(Node::Kind kind) {
    if (stack_.size() >= kMaxDepth) {
      findings_.error(where(), fmt::format("more than {} levels of brackets", kMaxDepth),
                      "a job file, which has far fewer");
      return false;
    }
    // The parent gets no further child while this one is open, so the pointer stays good.
    Node* node = put({.kind = kind});
    if (node) stack_.push_back(node);
    return node != nullptr;
  }

  bool close() { return stack_.pop_back(), true; }

  std::string where() const {
    std::string path; // of the value that comes next in the innermost open bracket
    for (const Node* n : stack_) {
      const std::size_t open = n == stack_.back() ? 0 : 1; // an open child is in its parent's list already
      path = n->kind == Node::Kind::object ? pointer_to(path, n->keys.empty() ? "" : n->keys.back())
                                           : pointer_to(path, n->items.size() - open);
    }
    return path;
  }

  void name_duplicates(const Node& object) {
    std::vector<std::string_view> keys(object.keys.begin(), object.keys.end());
    std::sort(keys.begin(), keys.end());
    for (std::size_t i = 1; i < keys.size(); ++i)
      if (keys[i] == keys[i - 1] && (i < 2 || keys[i] != keys[i - 2])) {
        // where() of an open object points at its last key; this one's place is its parent's.
        std::string path = where();
        path.resize(path.rfind('/'));
        findings_.error(pointer_to(path, keys[i]), fmt::format("the key {} twice", in_quotes(keys[i])),
                        "it once in one object");
      }
  }

  std::string_view text_;
  Findings& findings_;
  std::optional<Node> root_;
  std::vector<Node*> stack_;
  std::size_t values_ = 0;
};

} // namespace

const Node* Node::find(std::string_view key) const {
  for (std::size_t i = 0; i < keys.size() && i < items.size(); ++i)
    if (keys[i] == key) return &items[i];
  return nullptr;
}

std::optional<Node> parse_tree(std::string_view text, Findings& findings) {
  if (text.size() > kMaxJobBytes) {
    findings.error("", fmt::format("a file of {} bytes", text.size()),
                   fmt::format("at most {} bytes", kMaxJobBytes));
    return {};
  }
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t n = utf8_at(text, i);
    if (n == 0) {
      findings.error("",
                     fmt::format("byte 0x{:02X} at {}", static_cast<unsigned char>(text[i]), place(text, i)),
                     "text in UTF-8");
      return {};
    }
    i += n;
  }
  TreeBuilder builder(text, findings);
  if (!nlohmann::json::sax_parse(text, &builder, nlohmann::json::input_format_t::json, true, true)) return {};
  return builder.take();
}

std::string in_quotes(std::string_view text) {
  constexpr std::size_t kLongest = 60; // bytes of a line of the terminal
  std::string out = "'";
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t n = std::max<std::size_t>(utf8_at(text, i), 1);
    if (i + n > kLongest) {
      out += "…";
      break;
    }
    const auto c = static_cast<unsigned char>(text[i]);
    out += c < 0x20 || c == 0x7F ? std::string("?") : std::string(text.substr(i, n));
    i += n;
  }
  return out + "'";
}

std::string shown(const Node& node) {
  switch (node.kind) {
  case Node::Kind::null:
    return "null";
  case Node::Kind::boolean:
    return node.truth ? "true" : "false";
  case Node::Kind::number:
    return node.text.size() <= 60 ? node.text : node.text.substr(0, 60) + "…";
  case Node::Kind::string:
    return node.text.empty() ? "an empty text" : in_quotes(node.text);
  case Node::Kind::array:
    return node.items.empty() ? "an empty list" : "a list";
  case Node::Kind::object:
    return "an object";
  }
  return {};
}

std::string pointer_to(std::string_view where, std::string_view key) {
  std::string out(where);
  out += '/';
  for (const char c : key) {
    if (c == '~')
      out += "~0";
    else if (c == '/')
      out += "~1";
    else
      out += c;
  }
  return out;
}

std::string pointer_to(std::string_view where, std::size_t index) {
  return fmt::format("{}/{}", where, index);
}

} // namespace treadfold
