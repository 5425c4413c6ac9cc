// The files that hold a plan's sheets: the command writes them to a folder, the app hands them over.
//
// Guarantees
//  1. No two files of a plan have one name, not even but for capitals, and none is "plan.json".
//  2. A name is a stem of letters, digits, "-" and "_", and an ending.
#pragma once

#include "sheets/drawing.h"

#include <optional>

namespace treadfold {

struct SheetFile {
  enum class Form { svg, pdf, csv };

  std::string name;                 // "roll-main.svg", of the second page "roll-main-2.svg"; "all-sheets.pdf"
  Form form = Form::pdf;            // svg has one page; pdf all of a sheet; csv the sheet's table
  std::optional<std::size_t> sheet; // its place in the sheets; none: all of them, bound in one PDF
  std::size_t page = 0;             // of an SVG
};

/// In the order of the sheets: an SVG a page, a PDF, a CSV where the sheet is a table; "all-sheets.pdf" is
/// last.
std::vector<SheetFile> sheet_files(const std::vector<Sheet>& sheets);

/// The bytes of `file`, which is one of sheet_files(sheets). `title` is that of the bound PDF.
std::string write_sheet_file(const SheetFile& file, const std::vector<Sheet>& sheets,
                             const std::string& title);

} // namespace treadfold
