#include "sheets/sheets.h"

#include "sheets/page.h"
#include "sheets/sheet_kinds.h"
#include "sheets/step_sheet.h"

#include <algorithm>

namespace treadfold {

namespace {

void give_each_its_own_name(std::vector<Sheet>& sheets) {
  std::vector<std::string> given;
  for (Sheet& sheet : sheets) {
    const std::string stem = file_stem(sheet.name);
    std::string name = stem;
    for (int n = 2; std::find(given.begin(), given.end(), name) != given.end(); ++n)
      name = stem + "-" + std::to_string(n);
    sheet.name = name;
    given.push_back(name);
  }
}

} // namespace

std::string file_stem(const std::string& name) {
  std::string out;
  for (const char c : name) {
    const bool upper = c >= 'A' && c <= 'Z';
    const bool keep = upper || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (keep)
      out += upper ? static_cast<char>(c - 'A' + 'a') : c;
    else if (!out.empty() && out.back() != '-')
      out += '-';
  }
  while (!out.empty() && out.back() == '-')
    out.pop_back();
  out.resize(std::min<std::size_t>(out.size(), 60));
  return out.empty() ? "sheet" : out;
}

std::vector<Sheet> draw_sheets(const Plan& plan) {
  std::vector<Sheet> sheets = roll_sheets(plan);
  sheets.push_back(cutting_list(plan));
  for (Sheet& sheet : step_sheets(plan))
    sheets.push_back(std::move(sheet));
  sheets.push_back(shopping_list(plan));
  sheets.push_back(quote_sheet(plan));
  sheets.push_back(work_order(plan));
  give_each_its_own_name(sheets);
  for (std::size_t i = 0; i < sheets.size(); ++i)
    frame_pages(sheets[i], plan.job, static_cast<int>(i + 1), static_cast<int>(sheets.size()));
  return sheets;
}

} // namespace treadfold
