// The promises of sheets/template.h: every form of template, read back by readers that share no code with us
// (poppler, ezdxf, Python's XML), is the piece to 0.1 mm.
#include "legible.h"
#include "outside.h"
#include "step_sample.h"

#include "measure/tread_plan.h"
#include "sheets/line_roles.h"
#include "sheets/looks.h"
#include "sheets/template.h"
#include "sheets/template_outline.h"
#include "sheets/template_page.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <map>
#include <sstream>

namespace treadfold {
namespace {

using sample::Choices;
constexpr double kTrue = 0.1; // mm

using Points = std::vector<PagePoint>;
struct Stroke {
  bool closed = false;
  Points points;
};
using Strokes = std::vector<Stroke>;

// ---- what a template must show, worked out from the piece apart from the templates

struct Expected {
  std::map<Pen, Strokes> by_pen; // net lines by role; the outline's bench edges; slits and holes
  Stroke net, outline, rectangle;
};

Expected expected(const Piece& piece, TemplateSide side) {
  const double u0 = piece.net_origin.u - piece.trim_left.mm(), v0 = piece.net_origin.v - piece.trim_back.mm();
  const double width = piece.cut_width.mm(), height = piece.cut_length.mm();
  const auto laid = [&](const FlatPath& path) {
    Points out;
    for (const auto& p : path)
      out.push_back({side == TemplateSide::backing ? width - (p.u - u0) : p.u - u0, p.v - v0});
    return out;
  };
  Expected e;
  for (const auto& l : piece.lines)
    if (l.role != LineRole::cut) e.by_pen[pen_of(l)].push_back({false, laid(l.points)});
  for (const auto& edge : edge_stretches(piece))
    if (edge.pen != Pen::none) e.by_pen[edge.pen].push_back({false, laid(edge.points)});
  const auto cut = cut_outline(piece); // proved in template_outline_test.cpp
  for (const auto& slit : cut.slits)
    e.by_pen[Pen::cut].push_back({false, laid(slit.points)});
  e.net = {true, laid(piece.outline)};
  e.outline = {true, laid(cut.outline)};
  e.rectangle = {true, {{0, 0}, {width, 0}, {width, height}, {0, height}}};
  return e;
}

// ---- distances

double distance(PagePoint p, PagePoint a, PagePoint b) {
  const double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
  const double t = square > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / square, 0.0, 1.0) : 0;
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

double distance(PagePoint p, const Strokes& strokes) {
  double least = 1e12;
  for (const auto& s : strokes)
    for (std::size_t i = 0; i + (s.closed ? 0 : 1) < s.points.size(); ++i)
      least = std::min(least, distance(p, s.points[i], s.points[(i + 1) % s.points.size()]));
  return least;
}

/// How far a point of `some`, of which one is taken every 2 mm, lies from `others` at most.
double farthest(const Strokes& some, const Strokes& others) {
  double most = 0;
  for (const auto& s : some)
    for (std::size_t i = 0; i + (s.closed ? 0 : 1) < s.points.size(); ++i) {
      const PagePoint a = s.points[i], b = s.points[(i + 1) % s.points.size()];
      const int steps = 1 + static_cast<int>(std::hypot(b.x - a.x, b.y - a.y) / 2);
      for (int k = 0; k <= steps; ++k) {
        const double t = static_cast<double>(k) / steps;
        most = std::max(most, distance({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}, others));
      }
    }
  return most;
}

void shift_to_origin(std::map<std::string, Strokes>& by_layer) {
  double x = 1e12, y = 1e12;
  for (const auto& [layer, strokes] : by_layer)
    for (const auto& s : strokes)
      for (const auto& p : s.points)
        x = std::min(x, p.x), y = std::min(y, p.y);
  for (auto& [layer, strokes] : by_layer)
    for (auto& s : strokes)
      for (auto& p : s.points)
        p = {p.x - x, p.y - y};
}

/// The greatest difference between two closed outlines that begin alike or not, run the same way or not.
double difference(const Stroke& a, const Stroke& b) {
  EXPECT_TRUE(a.closed && b.closed);
  return std::max(farthest({a}, {b}), farthest({b}, {a}));
}

// ---- the pieces

struct Sample {
  std::string name;
  Plan plan;
  std::size_t piece = 0;
  TemplateSide side = TemplateSide::backing;
  const PlannedPiece& planned() const { return plan.pieces[piece]; }
};

std::vector<Sample> samples() {
  std::vector<Sample> out;
  Choices c;
  out.push_back({"closed", sample::plan_of(c), 1, TemplateSide::backing});
  c.left = c.right = sample::open_end();
  c.paper = PaperSize::a4;
  c.unit = LengthUnit::millimetre;
  out.push_back({"open", sample::plan_of(c), 1, TemplateSide::pile});
  c.left = {};
  c.paper = PaperSize::letter;
  c.style = CoverStyle::wrapped;
  out.push_back({"wrapped", sample::plan_of(c), 1, TemplateSide::backing});
  c.style = CoverStyle::waterfall;
  c.join = 3;
  out.push_back({"joined", sample::plan_of(c), 0, TemplateSide::backing});
  c.join = 1;
  set_plan(c.step, {{0, 0}, {50, 127}}, {{900, 0}, {1200, 560}});
  out.push_back({"winder", sample::plan_of(c), 1, TemplateSide::backing});
  for (const auto closing : {StarterClosing::band, StarterClosing::cuts}) {
    Plan starter = sample::plan_of({});
    sample::add_starter(starter, closing);
    out.push_back({"starter-cap", starter, 2, TemplateSide::backing});
    out.push_back({"starter-band", starter, 3, TemplateSide::pile});
  }
  Plan landing = sample::plan_of({});
  sample::add_landing(landing);
  landing.pieces.back().piece.lines.push_back(
      {LineRole::cut, {{480, -460}, {530, -460}, {530, -410}, {480, -410}, {480, -460}}, "newel"});
  out.push_back({"landing", landing, landing.pieces.size() - 1, TemplateSide::backing});
  return out;
}

TemplateFile file_of(const Sample& s, TemplateFormat format) {
  auto files = template_files(s.plan, s.planned(), s.side, {format});
  EXPECT_EQ(files.size(), 1u);
  return std::move(files.at(0));
}

std::string script(const std::string& name) { return SOURCE_DIR "/tests/sheets/" + name; }

/// Lines "LAYER closed|open x y …".
std::map<std::string, Strokes> layers_in(std::istream& in, std::vector<std::string>* texts = nullptr) {
  std::map<std::string, Strokes> out;
  for (std::string line; std::getline(in, line);) {
    std::istringstream words(line);
    std::string layer, closed;
    words >> layer >> closed;
    if (layer == "TEXT") {
      if (texts) texts->push_back(line.substr(line.find(closed) + closed.size() + 1));
      continue;
    }
    Stroke stroke{closed == "closed", {}};
    for (PagePoint p; words >> p.x >> p.y;)
      stroke.points.push_back(p);
    out[layer].push_back(std::move(stroke));
  }
  return out;
}

const std::map<Pen, std::string>& layer_names() {
  static const std::map<Pen, std::string> names{{Pen::fold_under, "FOLD-PILE-OUT"},
                                                {Pen::fold_up, "FOLD-PILE-IN"},
                                                {Pen::seam, "SEAM"},
                                                {Pen::hem, "HEM"},
                                                {Pen::tuck, "TUCK"},
                                                {Pen::trim, "TRIM"},
                                                {Pen::glue, "GLUE"},
                                                {Pen::cut, "CUT-INSIDE"},
                                                {Pen::strip, "STRIP"}};
  return names;
}

void expect_lines_on_layers(const Expected& e, std::map<std::string, Strokes>& read) {
  for (const auto& [pen, name] : layer_names()) {
    const auto wanted = e.by_pen.find(pen);
    EXPECT_EQ(wanted != e.by_pen.end(), read.count(name) == 1) << name;
    if (wanted == e.by_pen.end() || read.count(name) == 0) continue;
    EXPECT_LT(farthest(wanted->second, read[name]), kTrue) << name;
    EXPECT_LT(farthest(read[name], wanted->second), kTrue) << name;
  }
}

// ---- DXF

TEST(TemplateDxf, ReadByEzdxfIsThePieceOnItsLayers) {
  for (const auto& s : samples()) {
    SCOPED_TRACE(s.name);
    const auto path = in_file(file_of(s, TemplateFormat::dxf).bytes, "template.dxf");
    const auto result = run("/usr/bin/python3 " + script("read_dxf.py") + " " + path);
    ASSERT_EQ(result.status, 0) << result.output;
    std::istringstream in(result.output);
    std::string head;
    std::getline(in, head);
    EXPECT_EQ(head, "AC1009 4 1"); // R12; $INSUNITS 4: mm; $MEASUREMENT 1: metric
    std::vector<std::string> texts;
    auto read = layers_in(in, &texts);
    const Expected e = expected(s.planned().piece, s.side);
    for (auto& [layer, strokes] : read) // DXF counts y from the foot
      for (auto& stroke : strokes)
        for (auto& p : stroke.points)
          p.y = e.rectangle.points[2].y - p.y;
    for (const auto& [layer, outline] :
         {std::pair{"NET-OUTLINE", &e.net}, std::pair{"CUT-OUTLINE", &e.outline},
          std::pair{"RECTANGLE", &e.rectangle}}) {
      ASSERT_EQ(read[layer].size(), 1u) << layer;
      EXPECT_TRUE(read[layer][0].closed) << layer;
      EXPECT_LT(difference(read[layer][0], *outline), kTrue) << layer;
    }
    if (e.by_pen.count(Pen::outline)) {
      EXPECT_LT(farthest(e.by_pen.at(Pen::outline), {read["CUT-OUTLINE"][0], read["NET-OUTLINE"][0]}), kTrue);
    }
    expect_lines_on_layers(e, read);
    const auto says = [&](const std::string& words) {
      return std::any_of(texts.begin(), texts.end(),
                         [&](const std::string& t) { return t.find(words) != std::string::npos; });
    };
    EXPECT_TRUE(says(s.planned().piece.id));
    EXPECT_TRUE(says(s.side == TemplateSide::backing ? "BACKING UP" : "PILE UP"));
    EXPECT_TRUE(says("millimetres"));
    EXPECT_TRUE(says("Keep hands clear"));
    ASSERT_EQ(read["PILE"].size(), 2u);
    EXPECT_GT(read["PILE"][0].points[1].y, read["PILE"][0].points[0].y); // down the stair
  }
}

TEST(TemplateDxf, HasNothingThatEzdxfWouldMend) {
  std::string paths;
  for (const auto& s : samples())
    paths += " " + in_file(file_of(s, TemplateFormat::dxf).bytes, s.name + ".dxf");
  const auto audit = run("ezdxf audit" + paths);
  EXPECT_EQ(audit.status, 0) << audit.output;
  std::size_t clean = 0;
  for (auto at = audit.output.find("No errors found"); at != std::string::npos;
       at = audit.output.find("No errors found", at + 1))
    ++clean;
  EXPECT_EQ(clean, samples().size()) << audit.output;
}

TEST(TemplateDxf, HolesAreClosedAndCutBeforeTheOutline) {
  const auto s = samples().back();
  const auto path = in_file(file_of(s, TemplateFormat::dxf).bytes, "hole.dxf");
  std::istringstream in(run("/usr/bin/python3 " + script("read_dxf.py") + " " + path).output);
  const auto read = layers_in(in);
  ASSERT_EQ(read.at("CUT-INSIDE").size(), 1u);
  EXPECT_TRUE(read.at("CUT-INSIDE")[0].closed);
  EXPECT_EQ(read.at("CUT-INSIDE")[0].points.size(), 4u);
  EXPECT_LT(in.str().find("CUT-INSIDE"), in.str().find("CUT-OUTLINE"));
}

TEST(TemplateDxf, TextIsPlainWhateverItsSigns) {
  Drawing page;
  page.paths.push_back({{{0, 0}, {10, 0}, {10, 10}}, true, Pen::outline, Fill::none, "CUT-OUTLINE"});
  page.texts.push_back({{5, 5}, 4, "50%%u Élan × 1/2\"\n0"});
  const auto path = in_file(write_dxf(page), "signs.dxf");
  const auto result = run("/usr/bin/python3 " + script("read_dxf.py") + " " + path);
  EXPECT_EQ(result.status, 0);
  EXPECT_NE(result.output.find("TEXT NOTES 50% %u Élan × 1/2\" 0\n"), std::string::npos) << result.output;
}

// ---- SVG

TEST(TemplateSvg, ReadAsXmlIsThePieceInMillimetres) {
  for (const auto& s : samples()) {
    SCOPED_TRACE(s.name);
    const auto path = in_file(file_of(s, TemplateFormat::svg).bytes, "template.svg");
    const auto result = run("python3 " + script("read_svg.py") + " " + path);
    ASSERT_EQ(result.status, 0) << result.output;
    std::istringstream in(result.output);
    std::string size;
    std::getline(in, size);
    auto read = layers_in(in);
    shift_to_origin(read);
    const Expected e = expected(s.planned().piece, s.side);
    ASSERT_EQ(read["CUT-OUTLINE"].size(), 1u);
    EXPECT_TRUE(read["CUT-OUTLINE"][0].closed);
    EXPECT_LT(difference(read["CUT-OUTLINE"][0], e.outline), kTrue);
    auto whole = read["RECTANGLE"];
    whole.push_back(read["CUT-OUTLINE"][0]);
    EXPECT_LT(farthest({e.rectangle}, whole), kTrue);
    expect_lines_on_layers(e, read);
  }
}

// ---- PDF

struct Joined {
  int tiles = 0, joints = 0;
  double worst = 0;
  std::vector<std::pair<double, double>> rulers; // 100 mm, 4 in
  std::map<std::string, Strokes> by_width;
};

Joined read_pages(const std::string& pdf, const std::string& pages) {
  const auto result =
      run("python3 " + script("read_tiles.py") + " " + in_file(pdf, "template.pdf") + " " + pages);
  EXPECT_EQ(result.status, 0) << result.output.substr(0, 1000);
  Joined joined;
  std::istringstream in(result.output);
  for (std::string line; std::getline(in, line);) {
    std::istringstream words(line);
    std::string first, skip;
    words >> first;
    if (first == "TILES") {
      words >> joined.tiles;
    } else if (first == "JOINTS") {
      words >> joined.joints >> skip >> joined.worst;
    } else if (first == "RULER") {
      std::pair<double, double> lengths;
      words >> lengths.first >> lengths.second;
      joined.rulers.push_back(lengths);
    } else {
      Stroke stroke;
      for (PagePoint p; words >> p.x >> p.y;)
        stroke.points.push_back(p);
      joined.by_width[first].push_back(std::move(stroke));
    }
  }
  return joined;
}

/// The legend shows each pen by a level line of 13 mm.
bool sample_of_legend(const Stroke& s) {
  return s.points.size() == 2 && std::abs(s.points[0].y - s.points[1].y) < 1e-3 &&
         std::abs(std::abs(s.points[0].x - s.points[1].x) - 13) < 1e-3;
}

/// Strokes of every pen that lines of a piece have, at its origin.
std::map<std::string, Strokes> piece_lines(const Joined& joined) {
  std::map<std::string, Strokes> out;
  for (const Pen pen : {Pen::outline, Pen::knife, Pen::fold_under, Pen::fold_up, Pen::seam, Pen::hem,
                        Pen::tuck, Pen::trim, Pen::glue, Pen::cut, Pen::strip}) {
    std::ostringstream width;
    width.precision(3);
    width << std::fixed << look(pen).width_mm;
    const auto found = joined.by_width.find(width.str());
    if (found == joined.by_width.end()) continue;
    const auto name = layer_names().find(pen);
    Strokes strokes = found->second;
    std::erase_if(strokes, sample_of_legend);
    const std::string layer = name != layer_names().end() ? name->second
                              : pen == Pen::knife         ? "RECTANGLE"
                                                          : "CUT-OUTLINE";
    if (!strokes.empty()) out[layer] = strokes;
  }
  shift_to_origin(out);
  return out;
}

void expect_piece(const Joined& joined, const Sample& s) {
  auto read = piece_lines(joined);
  const Expected e = expected(s.planned().piece, s.side);
  EXPECT_LT(farthest({e.outline}, read["CUT-OUTLINE"]), kTrue);
  EXPECT_LT(farthest(read["CUT-OUTLINE"], {e.outline}), kTrue);
  auto whole = read["RECTANGLE"];
  whole.insert(whole.end(), read["CUT-OUTLINE"].begin(), read["CUT-OUTLINE"].end());
  EXPECT_LT(farthest({e.rectangle}, whole), kTrue);
  expect_lines_on_layers(e, read);
  for (const auto& [mm, inches] : joined.rulers) {
    EXPECT_NEAR(mm, 100, 0.01);
    EXPECT_NEAR(inches, 101.6, 0.01);
  }
}

TEST(TemplateTiles, JoinedByTheirMarksAreThePiece) {
  for (const auto& s : samples()) {
    SCOPED_TRACE(s.name);
    const auto file = file_of(s, TemplateFormat::tiles);
    const auto joined = read_pages(file.bytes, "2");
    EXPECT_EQ(joined.tiles + 1, file.pages);
    EXPECT_GE(joined.joints, joined.tiles - 1);
    EXPECT_LT(joined.worst, 0.01);
    EXPECT_EQ(joined.rulers.size(), static_cast<std::size_t>(joined.tiles)); // one on every tile
    expect_piece(joined, s);
    const auto first = read_pages(file.bytes, "1 1"); // across and down
    ASSERT_EQ(first.rulers.size(), 2u);
    for (const auto& [mm, inches] : first.rulers) {
      EXPECT_NEAR(mm, 100, 0.01);
      EXPECT_NEAR(inches, 101.6, 0.01);
    }
  }
}

TEST(TemplateTiles, AreOfTheJobsPaper) {
  const auto all = samples();
  for (const auto& [i, size] : {std::pair{0, "612 x 792"}, std::pair{1, "595.276 x 841.89"}}) {
    const auto file = file_of(all[static_cast<std::size_t>(i)], TemplateFormat::tiles);
    const auto path = in_file(file.bytes, "paper.pdf");
    const auto info = run("pdfinfo -l 99 " + path).output;
    std::string turned = size;
    turned = turned.substr(turned.find(" x ") + 3) + " x " + turned.substr(0, turned.find(" x "));
    int pages = 0;
    std::istringstream in(info);
    for (std::string line; std::getline(in, line);)
      if (line.starts_with("Page ") && line.find(" size:") != std::string::npos) {
        ++pages;
        EXPECT_TRUE(line.find(size) != std::string::npos || line.find(turned) != std::string::npos) << line;
      }
    EXPECT_EQ(pages, file.pages);
    EXPECT_EQ(run("qpdf --check " + path).status, 0);
    EXPECT_NE(file.bytes.find("/PrintScaling /None"), std::string::npos);
  }
}

TEST(TemplatePlotter, IsThePieceOnOnePageAsLargeAsItTakes) {
  for (const auto& s : samples()) {
    SCOPED_TRACE(s.name);
    const auto file = file_of(s, TemplateFormat::plotter);
    EXPECT_EQ(file.pages, 1);
    const auto joined = read_pages(file.bytes, "1");
    EXPECT_EQ(joined.rulers.size(), 2u);
    expect_piece(joined, s);
  }
}

TEST(TemplatePlotter, OfAPieceLongerThanAPdfPageIsJoinedToo) {
  Plan plan = sample::plan_of({});
  plan.job.stairs[0].floors.push_back({"hall", {{0, 0}, {900, 0}, {900, 7000}, {0, 7000}}, "main", ""});
  const CoverInput input{plan.job.carpets[0], plan.job.cushion.thickness, plan.job.allowances, plan.job.unit};
  PlannedPiece planned{cover_floor(plan.job.stairs[0].floors[0], input, "H-1").front(), {}, {}};
  planned.piece.floor_index = 0;
  planned.proof.passed = true;
  plan.pieces = {planned};
  const Sample s{"hall", plan, 0, TemplateSide::backing};
  const auto file = file_of(s, TemplateFormat::plotter);
  EXPECT_EQ(file.pages, 2);
  const auto joined = read_pages(file.bytes, "1");
  EXPECT_EQ(joined.joints, 1);
  EXPECT_LT(joined.worst, 0.01);
  expect_piece(joined, s);
}

// ---- words

std::vector<Template> all_templates() {
  std::vector<Template> out;
  for (const auto& s : samples())
    for (const auto side : {TemplateSide::backing, TemplateSide::pile})
      out.push_back({template_head(s.plan, s.planned(), side), template_shape(s.planned().piece, side)});
  return out;
}

bool says(const Drawing& page, const std::string& words) {
  std::string all;
  for (const auto& text : page.texts)
    all += text.text + " ";
  return all.find(words) != std::string::npos;
}

TEST(TemplatePages, CanBeRead) {
  for (const auto& t : all_templates())
    for (const auto paper : {PaperSize::letter, PaperSize::a4}) {
      auto pages = tiled_pages(t, paper);
      pages.push_back(long_page(t));
      for (std::size_t i = 0; i < pages.size(); ++i) {
        for (const auto& fault : faults_of(pages[i], 11.99))
          ADD_FAILURE() << t.head.id << ", page " << i + 1 << ": " << fault;
        for (const auto& fault : struck_words(pages[i]))
          ADD_FAILURE() << t.head.id << ", page " << i + 1 << ": " << fault;
      }
    }
}

TEST(TemplatePages, EachSaysWhichSideIsUpAndThatItMustNotBeScaled) {
  for (const auto& t : all_templates()) {
    auto pages = tiled_pages(t, PaperSize::letter);
    pages.push_back(long_page(t));
    const bool backing = t.head.side == TemplateSide::backing;
    for (const auto& page : pages) {
      EXPECT_TRUE(says(page, t.head.id));
      EXPECT_TRUE(says(page, backing ? "BACKING UP" : "PILE UP"));
      EXPECT_FALSE(says(page, backing ? "PILE UP" : "BACKING UP"));
      EXPECT_TRUE(says(page, "Print at 100 %, no scaling"));
      EXPECT_TRUE(says(page, "Cut away from your body"));
    }
    for (std::size_t i = 1; i < pages.size(); ++i)
      EXPECT_TRUE(says(pages[i], "pile")) << i;
  }
}

TEST(TemplatePages, EveryLineWithANameHasItOrItsLetterOnATile) {
  for (const auto& t : all_templates()) {
    const auto pages = tiled_pages(t, PaperSize::letter);
    for (const auto& l : t.shape.lines) {
      if (l.label.empty()) continue;
      const auto letter = std::find(t.head.keys.begin(), t.head.keys.end(), l.label);
      bool found = false;
      for (std::size_t i = 1; i < pages.size(); ++i)
        for (const auto& text : pages[i].texts)
          found = found || text.text == l.label ||
                  (letter != t.head.keys.end() && text.text == key_letter(t.head.keys, l.label));
      EXPECT_TRUE(found) << t.head.id << ": " << l.label;
    }
  }
}

TEST(TemplatePages, TheFirstNamesTheTilesThatAreLeftOut) {
  const auto s = samples().back(); // a landing: nothing in its middle but the hole
  const Template t{template_head(s.plan, s.planned(), s.side), template_shape(s.planned().piece, s.side)};
  const auto pages = tiled_pages(t, PaperSize::letter);
  EXPECT_TRUE(says(pages[0], "Left out, because nothing is on them:"));
  std::string names;
  for (const auto& text : pages[0].texts)
    names += text.text + " ";
  const auto list = names.substr(names.find("nothing is on them:"));
  for (std::size_t i = 1; i < pages.size(); ++i) {
    const auto largest = std::max_element(pages[i].texts.begin(), pages[i].texts.end(),
                                          [](const Text& a, const Text& b) { return a.size_mm < b.size_mm; });
    EXPECT_EQ(list.find(" " + largest->text + ","), std::string::npos) << largest->text << " is printed";
  }
}

TEST(TemplateFiles, AreTheSameEachTimeAndNoneOfAPieceThatFailedItsProof) {
  auto s = samples()[1];
  const std::vector<TemplateFormat> all(std::begin(kTemplateFormats), std::end(kTemplateFormats));
  const auto one = template_files(s.plan, s.planned(), s.side, all),
             two = template_files(s.plan, s.planned(), s.side, all);
  ASSERT_EQ(one.size(), 4u);
  for (std::size_t i = 0; i < one.size(); ++i) {
    EXPECT_EQ(one[i].bytes, two[i].bytes);
    EXPECT_NE(one[i].name.find("-pile-up"), std::string::npos) << one[i].name;
  }
  s.plan.pieces[s.piece].proof.passed = false;
  EXPECT_TRUE(template_files(s.plan, s.planned(), s.side, all).empty());
}

} // namespace
} // namespace treadfold
