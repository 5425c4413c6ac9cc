#include "sheets/template_page.h"

#include "units/steady.h"
#include "units/words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace treadfold {
namespace {

constexpr double kEdge = 12;  // of paper that stays white
constexpr double kJoin = 4;   // beside the window, for the words about joining
constexpr double kStrip = 19; // below the window, for what every page says
constexpr double kMark = 4;   // from the middle of a registration mark to its tips
constexpr double kMarkType = 3.1;

Drawing paper_page(double width, double height) {
  Drawing page;
  page.width_mm = width;
  page.height_mm = height;
  return page;
}

Box window_of(double width, double height) {
  return {kEdge + kJoin, kEdge + kJoin, width - kEdge, height - kEdge - kStrip};
}

/// Two marks on each edge that two printed tiles share. Places in template coordinates; numbers from 1.
struct Joint {
  int column = 0, row = 0; // of the sheet that is laid over
  bool left = false;       // its left edge; otherwise its top edge
  std::array<PagePoint, 2> marks;
  int number = 0;
};

/// Is paper for a mark and its numbers clear of lines around `m`?
bool clear_for_mark(const TemplateShape& shape, PagePoint m) {
  const double room = kMark + 1.5 * kMarkType + 1;
  const Box box{m.x - room, m.y - room, m.x + room, m.y + room};
  const auto all = all_lines(shape);
  return std::none_of(all.begin(), all.end(),
                      [&](const TemplateLine* l) { return !clipped(*l, box).empty(); });
}

/// On the edge from a to b: one in each half, off the piece's lines if there is a place.
std::array<PagePoint, 2> marks_on(const TemplateShape& shape, PagePoint a, PagePoint b) {
  const auto at = [&](double t) { return PagePoint{a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}; };
  const auto place = [&](double usual) {
    for (int k = 0; k <= 46; ++k) { // farther and farther to both sides
      const PagePoint m = at(usual + (k % 2 == 0 ? 0.01 : -0.01) * (k / 2));
      if (clear_for_mark(shape, m)) return m;
    }
    return at(usual);
  };
  return {place(0.25), place(0.75)};
}

std::vector<Joint> joints_of(const TileGrid& grid, const TemplateShape& shape) {
  std::vector<Joint> out;
  for (int row = 0; row < grid.rows; ++row)
    for (int column = 0; column < grid.columns; ++column) {
      if (!grid.has(column, row)) continue;
      const Box box = grid.shown(column, row);
      const auto add = [&](bool left, PagePoint to) {
        const auto marks = marks_on(shape, {box.left, box.top}, to);
        out.push_back({column, row, left, marks, static_cast<int>(out.size()) + 1});
      };
      if (grid.has(column - 1, row)) add(true, {box.left, box.bottom});
      if (grid.has(column, row - 1)) add(false, {box.right, box.top});
    }
  return out;
}

/// One tile as it is drawn: template coordinates to the page.
class Tile {
public:
  Tile(const Template& t, const TileGrid& grid, int column, int row)
      : template_(t), grid_(grid), column_(column), row_(row), shown_(grid.shown(column, row)),
        page_(paper_page(grid.page_width, grid.page_height)), words_(word_room()) {}

  Drawing draw(const std::vector<Joint>& joints, int number, int count) {
    draw_lines();
    draw_frame();
    for (const auto& joint : joints)
      draw_joint(joint);
    words();
    draw_strip(number, count);
    return std::move(page_);
  }

private:
  PagePoint at(PagePoint p) const {
    return {p.x - shown_.left + grid_.window.left, p.y - shown_.top + grid_.window.top};
  }
  std::string name() const { return tile_name(column_, row_); }
  const Reader& reader() const { return template_.head.reader; }

  /// What no sheet laid over this one hides, and not the frame itself.
  Box word_room() const {
    Box room = grid_.window;
    room.left += 1, room.top += 1, room.right -= 1, room.bottom -= 1;
    if (grid_.has(column_ + 1, row_)) room.right -= kTileOverlap;
    if (grid_.has(column_, row_ + 1)) room.bottom -= kTileOverlap;
    return room;
  }

  std::vector<std::vector<PagePoint>> on_page(const TemplateLine& line, const Box& part) const {
    auto paths = clipped(line, part);
    for (auto& path : paths)
      for (auto& p : path)
        p = at(p);
    return paths;
  }

  void draw_line(const TemplateLine& line) {
    for (auto& path : on_page(line, shown_)) {
      words_.keep_off(path, false);
      page_.paths.push_back({std::move(path), false, line.pen, Fill::none, line.layer});
    }
  }

  void draw_lines() {
    for (const auto& l : template_.shape.rest)
      draw_line(l);
    draw_line(template_.shape.outline);
    for (const auto& l : template_.shape.lines)
      draw_line(l);
  }

  /// Firm where the sheet is to be cut, thin where it only ends.
  void draw_frame() {
    const Box& w = grid_.window;
    rectangle(page_, w, Pen::hairline);
    const auto firm = [&](PagePoint a, PagePoint b, int column, int row, double turn) {
      if (!grid_.has(column, row)) return;
      line(page_, a, b, Pen::dimension);
      Text text{{},
                kRulerWords,
                reader().say("cut this edge off along the line, and lay it over {}", tile_name(column, row))};
      text.anchor = Anchor::middle;
      text.turn_deg = turn;
      text.at = turn == 0 ? PagePoint{w.centre().x, w.top - 1.2} : PagePoint{w.left - 1.2, w.centre().y};
      page_.texts.push_back(text);
    };
    firm({w.left, w.top}, {w.left, w.bottom}, column_ - 1, row_, 90);
    firm({w.left, w.top}, {w.right, w.top}, column_, row_ - 1, 0);
    // Where the next sheet's edge will lie.
    if (grid_.has(column_ + 1, row_))
      line(page_, {w.right - kTileOverlap, w.top}, {w.right - kTileOverlap, w.bottom}, Pen::hairline);
    if (grid_.has(column_, row_ + 1))
      line(page_, {w.left, w.bottom - kTileOverlap}, {w.right, w.bottom - kTileOverlap}, Pen::hairline);
  }

  /// A whole diamond below, half of it on the sheet that is laid over; the joint's number on either side.
  void draw_joint(const Joint& joint) {
    const bool over = joint.column == column_ && joint.row == row_;
    const bool under = joint.left ? joint.column - 1 == column_ && joint.row == row_
                                  : joint.column == column_ && joint.row - 1 == row_;
    if (!over && !under) return;
    for (const PagePoint place : joint.marks) {
      const PagePoint m = at(place);
      const PagePoint along = joint.left ? PagePoint{0, kMark} : PagePoint{kMark, 0},
                      across = joint.left ? PagePoint{kMark, 0} : PagePoint{0, kMark};
      const PagePoint a{m.x - along.x, m.y - along.y}, b{m.x + across.x, m.y + across.y},
          c{m.x + along.x, m.y + along.y}, d{m.x - across.x, m.y - across.y};
      if (over)
        page_.paths.push_back({{a, b, c}, false, Pen::dimension, Fill::none});
      else
        page_.paths.push_back({{a, b, c, d}, true, Pen::dimension, Fill::none});
      line(page_, over ? m : d, b, Pen::hairline);
      words_.keep_off({a, b, c, d}, true);
      draw_number(joint, m, over);
    }
  }

  /// Beyond the mark's tip; to one side of there, or beside the mark, if a line is in the way.
  void draw_number(const Joint& joint, PagePoint m, bool over) {
    Text text{{}, kMarkType, std::to_string(joint.number)};
    text.anchor = Anchor::middle;
    const double half = joint.left ? text_width(text.text, kMarkType, false) / 2 : 0.36 * kMarkType;
    const double beyond = kMark + 1.8 + half, beside = 1.8 + half;
    for (const auto& [along, across] :
         {std::pair{0.0, beyond}, std::pair{-4.5, beyond}, std::pair{4.5, beyond}, std::pair{-6.5, beside},
          std::pair{6.5, beside}, std::pair{0.0, beyond + 4}}) {
      const double off = over ? across : -across;
      const PagePoint c = joint.left ? PagePoint{m.x + off, m.y + along} : PagePoint{m.x + along, m.y + off};
      text.at = {c.x, c.y + 0.36 * kMarkType};
      if (words_.set(page_, text)) return;
    }
  }

  void words() {
    const auto& head = template_.head;
    draw_badge(page_, words_, word_room(), {head.id + "  " + name(), side_name(head)}, kBodyType, reader());
    Box part = word_room();
    const PagePoint shift{shown_.left - grid_.window.left, shown_.top - grid_.window.top};
    part = {part.left + shift.x, part.top + shift.y, part.right + shift.x, part.bottom + shift.y};
    for (const auto& l : template_.shape.lines)
      draw_names(page_, words_, on_page(l, part), l, head);
  }

  void draw_strip(int number, int count) {
    const auto& head = template_.head;
    const Box box{grid_.window.left, grid_.window.bottom + 1.5, grid_.window.right,
                  grid_.page_height - kEdge};
    draw_ruler(page_, {box.left + 2, box.top + kRulerHalf}, false);
    const std::string tile = name();
    const double tile_width = text_width(tile, 11, true), right = box.right;
    write(page_, {right, box.top + 9}, tile, {11, true, false, Anchor::right});
    const double arrow = right - tile_width - 4;
    draw_pile(page_, {arrow, box.top}, 12, reader());
    const double left = box.left + kRulerLength + 12, room = arrow - 7 - left;
    write(page_, {left, box.top + 3.4}, shortened(head.id + ", " + head.place, room, kBodyType, true),
          {kBodyType, true});
    write(page_, {left, box.top + 7.8}, side_name(head), {kBodyType, true});
    write(page_, {left, box.top + 11.8}, reader().say("page {} of {}", number, count), {kSmallType});
    write(page_, {box.left, box.bottom - 0.8},
          reader().say("Print at 100 %, no scaling; measure the rulers.") + "  " + knife_caution(reader()),
          {kSmallType});
  }

  static constexpr double kRulerWords = 2.6;
  const Template& template_;
  const TileGrid& grid_;
  int column_, row_;
  Box shown_;
  Drawing page_;
  WordPlacer words_;
};

// ---- the first page

std::vector<std::string> blank_tiles(const TileGrid& grid) {
  std::vector<std::string> out;
  for (int row = 0; row < grid.rows; ++row)
    for (int column = 0; column < grid.columns; ++column)
      if (!grid.has(column, row)) out.push_back(tile_name(column, row));
  return out;
}

/// The shape to scale with the tiles over it: names in those that are printed, hatching over the others.
void draw_map(Drawing& page, const Box& box, const Template& t, const TileGrid& grid) {
  const Box first = grid.shown(0, 0), last = grid.shown(grid.columns - 1, grid.rows - 1);
  const double scale =
      std::max((last.right - first.left) / box.width(), (last.bottom - first.top) / box.height());
  const auto at = [&](PagePoint p) {
    return PagePoint{box.left + (p.x - first.left) / scale, box.top + (p.y - first.top) / scale};
  };
  const auto cell = [&](int column, int row) {
    const Box own = grid.own(column, row);
    const PagePoint a = at({own.left, own.top}), b = at({own.right, own.bottom});
    return Box{a.x, a.y, b.x, b.y};
  };
  const auto draw = [&](const TemplateLine& l, Pen pen) {
    Path path{{}, l.closed, pen, Fill::none, ""};
    for (const auto& p : l.points)
      path.points.push_back(at(p));
    page.paths.push_back(std::move(path));
  };
  for (int row = 0; row < grid.rows; ++row)
    for (int column = 0; column < grid.columns; ++column)
      rectangle(page, cell(column, row), Pen::hairline, grid.has(column, row) ? Fill::none : Fill::offcut);
  for (const auto& l : t.shape.lines)
    draw(l, l.pen == Pen::cut ? Pen::outline : Pen::dimension);
  draw(t.shape.outline, Pen::outline);
  for (int row = 0; row < grid.rows; ++row)
    for (int column = 0; column < grid.columns; ++column) {
      const Box c = cell(column, row);
      const std::string name = tile_name(column, row);
      const double size = std::min(kSmallType, 0.4 * c.height()), width = text_width(name, size, true);
      if (size < 2.2 || width + 3 > c.width()) continue; // "columns are letters" then has to do
      const PagePoint left{c.left + 1.2, c.top + 1.2};   // in a corner, where it hides least
      rectangle(page, {left.x - 0.6, left.y - 0.6, left.x + width + 0.6, left.y + 0.95 * size + 0.6},
                Pen::none, Fill::paper);
      write(page, {left.x, left.y + 0.74 * size}, name, {size, true});
    }
}

std::vector<std::string> how_to_join(const Template& t, const TileGrid& grid) {
  const auto& head = t.head;
  const Reader& reader = head.reader;
  std::vector<std::string> out;
  const int count = grid.count();
  std::string sheets = count == 1 ? reader.say("One sheet follows.") : reader.say("{} sheets follow.", count);
  sheets += " " + reader.say("Columns are letters, rows are numbers, as on the map.");
  if (auto blank = blank_tiles(grid); !blank.empty()) {
    constexpr std::size_t kMost = 24;
    const auto more = blank.size() - std::min(blank.size(), kMost);
    blank.resize(blank.size() - more);
    const auto named = more > 0 ? reader.say("{} and {} more", joined(blank), more) : joined(blank);
    sheets += " " + reader.say("Left out, because nothing is on them: {}, hatched on the map.", named);
  }
  out.push_back(sheets);
  if (count > 1)
    out.push_back(reader.say(
        "Work from the top left, row by row. Where a sheet says so, cut its left or top edge off along "
        "the line, and lay it over its neighbour: half diamonds become whole ones, with the same number "
        "on both sides, and lines run on. Tape on both faces."));
  const double diagonal = steady::hypot(head.cut_width.mm(), head.cut_length.mm());
  out.push_back(reader.say("When joined, measure the rectangle: {}, and from corner to corner both ways {}. "
                           "If not, join it again.",
                           show_size(head.cut_width, head.cut_length, reader),
                           show_length(from_mm(diagonal), reader)));
  out.push_back(reader.say(
      "Cut the paper along the outline, lay it down with the arrow along the pile, weigh it down, and "
      "mark around it. What is to be tucked, trimmed or seamed on the stair is left long in it."));
  return out;
}

std::vector<Drawing> first_pages(const Template& t, const TileGrid& grid, PaperSize paper) {
  const auto& head = t.head;
  Flow flow(paper);
  flow.paragraph(side_name(head) + ". " + side_words(head), {kCutType, true});
  flow.warning(head.reader.say(
      "Print at 100 %, no scaling. Then measure these two rulers, across and down: 100 mm and 4 in to "
      "the tick. If one is off, do not cut by this print."));
  const double high = 2 * kRulerHalf + 92;
  const Box box = flow.rest();
  draw_ruler(flow.page(), {box.left + 2, box.top + kRulerHalf}, false);
  draw_ruler(flow.page(), {box.right - kRulerHalf - 8, box.top + 2}, true);
  draw_map(flow.page(),
           {box.left, box.top + 2 * kRulerHalf + 2, box.right - 4 * kRulerHalf - 5, box.top + high}, t, grid);
  flow.skip(high + 3);
  flow.list(how_to_join(t, grid), true);
  flow.warning(knife_caution(head.reader));
  Drawing measure;
  const double needed = draw_meanings(measure, box.left, box.right, 0, t);
  // There is no foot below.
  if (flow.y() + needed > flow.page().height_mm - kMargin) flow.new_page();
  draw_meanings(flow.page(), box.left, box.right, flow.y(), t);
  return flow.finish();
}

void write_head(Drawing& page, const TemplateHead& head, int number, int count) {
  const double left = kMargin, right = page.width_mm - kMargin, half = (right - left) * 0.68;
  write(page, {left, kMargin + 6.5},
        shortened(head.id + "   " + head.reader.say("{}, full size", head.place), half, kTitleType, true),
        {kTitleType, true});
  write(page, {right, kMargin + 3.4}, shortened(head.site, right - left - half - 4, kBodyType, true),
        {kBodyType, true, false, Anchor::right});
  write(page, {right, kMargin + 8.4}, head.reader.say("page {} of {}", number, count),
        {kSmallType, false, false, Anchor::right});
  line(page, {left, kMargin + 11}, {right, kMargin + 11}, Pen::outline);
}

std::vector<Drawing> tiles(const Template& t, const TileGrid& grid, std::vector<Drawing> before) {
  const int first = static_cast<int>(before.size()), count = first + grid.count();
  for (int i = 0; i < first; ++i)
    write_head(before[static_cast<std::size_t>(i)], t.head, i + 1, count);
  const auto joints = joints_of(grid, t.shape);
  for (int row = 0; row < grid.rows; ++row)
    for (int column = 0; column < grid.columns; ++column)
      if (grid.has(column, row))
        before.push_back(Tile(t, grid, column, row).draw(joints, static_cast<int>(before.size()) + 1, count));
  return before;
}

TileGrid grid_on(double width, double height, const TemplateShape& shape) {
  return tile_grid(width, height, window_of(width, height), shape);
}

} // namespace

std::vector<Drawing> tiled_pages(const Template& t, PaperSize paper) {
  const Drawing page = blank_page(paper);
  TileGrid upright = grid_on(page.width_mm, page.height_mm, t.shape),
           lying = grid_on(page.height_mm, page.width_mm, t.shape);
  const TileGrid& grid = lying.count() < upright.count() ? lying : upright;
  return tiles(t, grid, first_pages(t, grid, paper));
}

std::vector<Drawing> plotter_pages(const Template& t) {
  constexpr double kLongest = 14400 * 25.4 / 72; // mm; PDF Reference 1.4, Appendix C: 14,400 units
  auto page = long_page(t);
  if (page.width_mm <= kLongest && page.height_mm <= kLongest) return {std::move(page)};
  constexpr double kSheet = 5000, kEdges = 2 * kAroundShape + 1;
  const Box none = window_of(0, 0); // minus what a page takes beside its window
  const double width = t.shape.width_mm + kEdges - none.width(),
               height = t.shape.height_mm + kEdges - none.height();
  const TileGrid grid = grid_on(std::min(width, kSheet), std::min(height, kSheet), t.shape);
  return tiles(t, grid, {});
}

} // namespace treadfold
