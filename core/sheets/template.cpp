#include "sheets/template.h"

#include "sheets/sheets.h"
#include "sheets/template_page.h"

namespace treadfold {

std::vector<TemplateFile> template_files(const Plan& plan, const PlannedPiece& planned, TemplateSide side,
                                         const std::vector<TemplateFormat>& formats) {
  std::vector<TemplateFile> out;
  if (!planned.proof.passed) return out;
  const Template t{template_head(plan, planned, side), template_shape(planned.piece, side)};
  const std::string stem =
      file_stem(t.head.id) + (side == TemplateSide::backing ? "-backing-up" : "-pile-up");
  const std::string title = t.head.id + ", " + t.head.place + ", " + side_name(t.head);
  for (const TemplateFormat format : formats) {
    TemplateFile file{"", "", t.head.id, format, 1};
    const auto pdf = [&](const std::vector<Drawing>& pages, const char* ending) {
      file.name = stem + ending;
      file.bytes = write_pdf(pages, title);
      file.pages = static_cast<int>(pages.size());
    };
    switch (format) {
    case TemplateFormat::tiles:
      pdf(tiled_pages(t, plan.job.paper), "-tiles.pdf");
      break;
    case TemplateFormat::plotter:
      pdf(plotter_pages(t), "-plotter.pdf");
      break;
    case TemplateFormat::dxf:
      file.name = stem + ".dxf";
      file.bytes = write_dxf(machine_drawing(t));
      break;
    case TemplateFormat::svg:
      file.name = stem + ".svg";
      file.bytes = write_svg(long_page(t));
      break;
    }
    out.push_back(std::move(file));
  }
  return out;
}

} // namespace treadfold
