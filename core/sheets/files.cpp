#include "sheets/files.h"

#include <fmt/format.h>

#include <set>

namespace treadfold {

namespace {

constexpr const char* kBound = "all-sheets.pdf";

bool plain(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
}

std::string small(std::string text) {
  for (char& c : text)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return text;
}

/// A sheet's name as a file name that no earlier file has. `taken` is in small letters: some disks know no
/// other.
std::string unused(const std::string& name, const char* ending, std::set<std::string>& taken) {
  std::string stem;
  for (const char c : name)
    stem += plain(c) ? c : '-';
  while (!taken.insert(small(stem) + ending).second)
    stem += "-b";
  return stem + ending;
}

} // namespace

std::vector<SheetFile> sheet_files(const std::vector<Sheet>& sheets) {
  using Form = SheetFile::Form;
  std::vector<SheetFile> files;
  std::set<std::string> taken{kBound};
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const Sheet& sheet = sheets[i];
    for (std::size_t page = 0; page < sheet.pages.size(); ++page) {
      const auto name = page == 0 ? sheet.name : fmt::format("{}-{}", sheet.name, page + 1);
      files.push_back({unused(name, ".svg", taken), Form::svg, i, page});
    }
    files.push_back({unused(sheet.name, ".pdf", taken), Form::pdf, i});
    if (!sheet.table.header.empty()) files.push_back({unused(sheet.name, ".csv", taken), Form::csv, i});
  }
  files.push_back({kBound, Form::pdf, {}});
  return files;
}

std::string write_sheet_file(const SheetFile& file, const std::vector<Sheet>& sheets,
                             const std::string& title) {
  if (!file.sheet) {
    std::vector<Drawing> all;
    for (const Sheet& sheet : sheets)
      all.insert(all.end(), sheet.pages.begin(), sheet.pages.end());
    return write_pdf(all, title);
  }
  const Sheet& sheet = sheets.at(*file.sheet);
  switch (file.form) {
  case SheetFile::Form::svg:
    return write_svg(sheet.pages.at(file.page));
  case SheetFile::Form::pdf:
    return write_pdf(sheet.pages, sheet.title);
  case SheetFile::Form::csv:
    return write_csv(sheet.table);
  }
  return {};
}

} // namespace treadfold
