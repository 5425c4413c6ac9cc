#include "sheets/drawing.h"

namespace treadfold {

namespace {

std::string field(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + "\"";
}

std::string record(const std::vector<std::string>& fields) {
  std::string out;
  for (std::size_t i = 0; i < fields.size(); ++i)
    out += (i == 0 ? "" : ",") + field(fields[i]);
  return out + "\r\n";
}

} // namespace

std::string write_csv(const Table& table) {
  std::string out = record(table.header);
  for (const auto& row : table.rows)
    out += record(row);
  return out;
}

} // namespace treadfold
