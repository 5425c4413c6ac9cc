#include "http.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace treadfold {
namespace {

constexpr auto kNowhere = std::string::npos;

std::string lower(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return text;
}

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(" \t"), last = text.find_last_not_of(" \t");
  return first == kNowhere ? "" : text.substr(first, last - first + 1);
}

bool is_visible(const std::string& text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c > ' ' && c < '\x7f'; });
}

bool read_request_line(const std::string& line, Request& request) {
  const auto first = line.find(' '), last = line.rfind(' ');
  if (first == kNowhere || first == last) return false;
  const auto version = line.substr(last + 1);
  if (version != "HTTP/1.1" && version != "HTTP/1.0") return false;
  request.method = line.substr(0, first);
  const auto target = line.substr(first + 1, last - first - 1);
  request.path = target.substr(0, target.find('?'));
  return is_visible(request.method) && is_visible(target) && target[0] == '/';
}

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  const char small = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return small >= 'a' && small <= 'f' ? small - 'a' + 10 : -1;
}

std::string form_decoded(const std::string& text) {
  std::string plain;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool escape =
        text[i] == '%' && i + 2 < text.size() && hex_digit(text[i + 1]) >= 0 && hex_digit(text[i + 2]) >= 0;
    if (escape) {
      plain += static_cast<char>(16 * hex_digit(text[i + 1]) + hex_digit(text[i + 2]));
      i += 2;
    } else {
      plain += text[i] == '+' ? ' ' : text[i];
    }
  }
  return plain;
}

const char* reason(int status) {
  switch (status) {
  case 200:
    return "OK";
  case 303:
    return "See Other";
  case 304:
    return "Not Modified";
  case 400:
    return "Bad Request";
  case 403:
    return "Forbidden";
  case 404:
    return "Not Found";
  case 405:
    return "Method Not Allowed";
  case 413:
    return "Content Too Large";
  case 421:
    return "Misdirected Request";
  case 429:
    return "Too Many Requests";
  default:
    return "";
  }
}

} // namespace

std::string Request::header(const std::string& name) const {
  const auto found = headers.find(name);
  return found != headers.end() ? found->second : "";
}

std::optional<Request> read_head(const std::string& head) {
  Request request;
  auto end = head.find("\r\n");
  if (!read_request_line(head.substr(0, end), request)) return {};
  while (end != kNowhere) {
    const auto begin = end + 2;
    end = head.find("\r\n", begin);
    const auto line = head.substr(begin, end == kNowhere ? end : end - begin);
    const auto colon = line.find(':');
    if (colon == kNowhere || !is_visible(line.substr(0, colon))) return {};
    const auto name = lower(line.substr(0, colon));
    if (!request.headers.emplace(name, trimmed(line.substr(colon + 1))).second &&
        (name == "host" || name == "content-length"))
      return {}; // said twice: which one is meant?
  }
  return request;
}

std::string form_value(const std::string& body, const std::string& name) {
  for (std::size_t at = 0; at <= body.size();) {
    const auto end = std::min(body.find('&', at), body.size());
    const auto part = body.substr(at, end - at);
    const auto equals = part.find('=');
    if (equals != kNowhere && part.substr(0, equals) == name) return form_decoded(part.substr(equals + 1));
    at = end + 1;
  }
  return "";
}

std::string written(const Response& response, bool with_body) {
  auto text = fmt::format("HTTP/1.1 {} {}\r\n", response.status, reason(response.status));
  for (const auto& [name, value] : response.headers)
    text += fmt::format("{}: {}\r\n", name, value);
  if (response.status != 304) // which has no content to be told of
    text += fmt::format("Content-Type: {}\r\nContent-Length: {}\r\n", response.type, response.body.size());
  text += "Connection: close\r\n\r\n";
  return with_body && response.status != 304 ? text + response.body : text;
}

} // namespace treadfold
