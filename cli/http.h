// As much of HTTP/1.1 (RFC 9110, RFC 9112; from memory) as it takes to hand out files: one request a
// connection, no chunks, no ranges.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace treadfold {

struct Request {
  std::string method, path;                   // path: as it was sent, without what follows "?"
  std::map<std::string, std::string> headers; // names in lower case
  std::string body;

  std::string header(const std::string& name) const; // "" if there is none
};

struct Response {
  int status = 200;
  std::string type = "text/plain; charset=utf-8";
  std::string body;
  std::vector<std::pair<std::string, std::string>> headers; // besides type, length and connection
};

/// The head of a request, all up to the blank line: "GET /a?b HTTP/1.1\r\nHost: x". Empty if it is none.
std::optional<Request> read_head(const std::string& head);

/// A value of the form "name=27+1%2F2&other=…"; "" if it is not there.
std::string form_value(const std::string& body, const std::string& name);

/// All bytes of an answer. `with_body`: false for HEAD, whose headers are those of GET.
std::string written(const Response& response, bool with_body);

} // namespace treadfold
