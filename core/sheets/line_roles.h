// How each line of a piece is drawn, what its style means, and the letters by which lines are named.
#pragma once

#include "cover/piece.h"
#include "sheets/page.h"

namespace treadfold {

/// A fold's pen depends on which way it goes.
Pen pen_of(const FlatLine& line);

/// The net outline in stretches drawn alike. Only what is cut at the bench has the outline's pen: along a
/// tuck, a trim or the landing's seam the piece stays long, and its own line says so. Stretches between
/// those, and a hem's foot, which is tucked with the rest, have the pen of the line they prolong.
struct DrawnStretch {
  FlatPath points;
  Pen pen = Pen::none; // none: the line of the piece that lies here draws it
};
std::vector<DrawnStretch> edge_stretches(const Piece& piece);

/// Which line means what: the roles that this piece has, and no others.
struct LegendEntry {
  Pen pen = Pen::outline;
  std::string words;
};
std::vector<LegendEntry> legend_of(const Piece& piece, const Reader& reader);
/// What a line drawn with this pen means; REQUIRES: a pen that lines of a piece are drawn with.
std::string legend_words(Pen pen, const Reader& reader);
double legend_height(double width, const std::vector<LegendEntry>& legend);
/// Both return the y below.
double draw_legend(Drawing& page, double left, double right, double top,
                   const std::vector<LegendEntry>& legend);

/// Labels of lines that have no room for them, as the piece has them: the first is "a", the next "b" …
using Keys = std::vector<std::string>;
double draw_keys(Drawing& page, const Box& box, int columns, const Keys& keys, const Reader& reader);
double keys_height(std::size_t count, int columns);
std::string key_letter(const Keys& keys, const std::string& label);
/// One of many alike, which the piece's template has.
bool is_relief(const FlatLine& line);
/// Of a hem, a trim, glue … the legend says enough.
bool wants_letter(const FlatLine& line);
/// Without side and step, which stand beside every detail: "mitre under the lip".
std::string short_label(const std::string& label);

} // namespace treadfold
