// Full-size templates of pieces: to print and join, to plot, to cut by machine.
//
// Guarantees
//  1. Every line of a piece is in every form at true size (tests read it back to 0.1 mm).
//  2. The outline to cut by holds all that the stair needs: what is tucked, trimmed or seamed there is left
//     long.
//  3. The same piece gives the same bytes.
#pragma once

#include "plan.h"
#include "sheets/template_shape.h"

namespace treadfold {

/// tiles: PDF on the job's paper, to be joined. plotter: PDF of one page as large as the piece. dxf: R12, mm,
/// layers by role. svg: one page, mm.
enum class TemplateFormat { tiles, plotter, dxf, svg };
inline constexpr TemplateFormat kTemplateFormats[] = {TemplateFormat::tiles, TemplateFormat::plotter,
                                                      TemplateFormat::dxf, TemplateFormat::svg};

struct TemplateFile {
  std::string name; // "a-05-backing-up-tiles.pdf": no folder in it, no other file's
  std::string bytes;
  std::string piece; // its id
  TemplateFormat format = TemplateFormat::tiles;
  int pages = 1;
};

/// Of `planned`, one of the plan's pieces; empty if it failed its proof: such a piece is not cut.
std::vector<TemplateFile> template_files(const Plan& plan, const PlannedPiece& planned, TemplateSide side,
                                         const std::vector<TemplateFormat>& formats);

} // namespace treadfold
