// What must hold for every job, tried on random ones. The checker is itself tested: it has to see a layout
// that was spoilt.
#include "cut/because.h"
#include "random_jobs.h"

#include <algorithm>
#include <array>
#include <limits>
#include <rapidcheck/gtest.h>

using namespace treadfold;

namespace {

LayoutOptions quick() {
  LayoutOptions options;
  options.work = 100;
  return options;
}

Layout laid_out(const std::vector<CutPiece>& pieces, const Carpet& carpet) {
  Problems problems;
  auto layout = lay_out(pieces, carpet, quick(), problems);
  RC_ASSERT(!has_errors(problems));
  return layout;
}

void expect_no_breach(const std::vector<CutPiece>& pieces, const Carpet& carpet, const Layout& layout) {
  const auto breaches = check_layout(pieces, carpet, layout);
  if (!breaches.empty()) RC_FAIL(breaches.front());
}

Length bought(const Layout& layout) {
  Length sum;
  for (const auto& roll : layout.rolls)
    sum += roll.length_to_buy;
  return sum;
}

Length used_of_roll(const Layout& layout) {
  Length sum;
  for (const auto& roll : layout.rolls)
    if (!roll.remnant) sum += roll.length_used;
  return sum;
}

} // namespace

RC_GTEST_PROP(Layouts, KeepEveryGuarantee, ()) {
  const auto pieces = random_pieces(false);
  const auto carpet = random_carpet(false, true);
  const auto layout = laid_out(pieces, carpet);
  expect_no_breach(pieces, carpet, layout);
  RC_ASSERT(used_of_roll(layout) <= layout.whole_rows);
  RC_ASSERT(used_of_roll(layout) >= layout.lower_bound);
  RC_ASSERT(because(layout.bound_name) != layout.bound_name);
  RC_ASSERT(bought(layout) >= used_of_roll(layout));
  RC_ASSERT(layout.close_to_buy <= layout.straight_to_buy);
  RC_ASSERT(layout.outlines_to_buy <= layout.close_to_buy);
  RC_ASSERT(bought(layout) == (carpet.laid == Laid::straight ? layout.straight_to_buy
                               : carpet.laid == Laid::close  ? layout.close_to_buy
                                                             : layout.outlines_to_buy));
}

RC_GTEST_PROP(Layouts, KeepThePatternToo, ()) {
  const auto pieces = random_pieces(true);
  const auto carpet = random_carpet(true, true);
  const auto layout = laid_out(pieces, carpet);
  expect_no_breach(pieces, carpet, layout);
  // Several cuts begin on one motif each; rows by hand are counted along one strip.
  const auto cuts =
      std::count_if(layout.rolls.begin(), layout.rolls.end(), [](const auto& r) { return !r.remnant; });
  if (cuts <= 1) RC_ASSERT(used_of_roll(layout) <= layout.whole_rows);
  RC_ASSERT(used_of_roll(layout) >= layout.lower_bound);
  RC_ASSERT(because(layout.bound_name) != layout.bound_name);
  RC_ASSERT(used_of_roll(layout) >= layout.length_without_pattern);
}

RC_GTEST_PROP(Layouts, WithoutPatternNeverLongerThanWholeRowsByHand, ()) {
  const auto pieces = random_pieces(false);
  auto carpet = random_carpet(false, false);
  const auto layout = laid_out(pieces, carpet);
  const auto& roll = layout.rolls.back();
  RC_ASSERT(layout.whole_rows == whole_rows(pieces, roll.width - roll.selvage * 2));
}

// Of the fixed set of orders only: which of two equal layouts the search starts from may hang on an offcut
// that is a sliver at one scale and not at the other.
RC_GTEST_PROP(Layouts, ScaleWithThePieces, ()) {
  auto pieces = random_pieces(false, 12);
  auto carpet = plain_carpet();
  LayoutOptions fixed;
  fixed.work = 0;
  Problems problems;
  const Length before = bought(lay_out(pieces, carpet, fixed, problems));
  for (auto& p : pieces)
    p.width = p.width * 3, p.length = p.length * 3;
  carpet.roll_widths[0] = carpet.roll_widths[0] * 3;
  carpet.roll_length = carpet.roll_length * 3, carpet.sold_in = carpet.sold_in * 3;
  RC_ASSERT(bought(lay_out(pieces, carpet, fixed, problems)) == before * 3);
  RC_ASSERT(!has_errors(problems));
}

// The order in which pieces are given may change the layout, but neither the bound nor what is proved least.
RC_GTEST_PROP(Layouts, BoundIsTheSameInAnyOrder, ()) {
  auto pieces = random_pieces(false, 12);
  const auto carpet = plain_carpet();
  const auto before = laid_out(pieces, carpet);
  std::reverse(pieces.begin(), pieces.end());
  const auto after = laid_out(pieces, carpet);
  RC_ASSERT(before.lower_bound == after.lower_bound);
  if (before.proved_least && after.proved_least) RC_ASSERT(bought(before) == bought(after));
}

// At one width: of several the least area is chosen.
RC_GTEST_PROP(Layouts, WithoutAPieceTheProvedLeastIsNoLongerPatternOrNot, ()) {
  const bool patterned = *rc::gen::inRange(0, 3) > 0;
  auto pieces = random_pieces(patterned, 12);
  auto carpet = random_carpet(patterned, false);
  carpet.roll_widths.resize(1), carpet.roll_length = feet(1000);
  RC_PRE(pieces.size() > 1);
  const auto all = laid_out(pieces, carpet);
  pieces.erase(pieces.begin() + *rc::gen::inRange(0, static_cast<int>(pieces.size())));
  const auto fewer = laid_out(pieces, carpet);
  RC_ASSERT(fewer.lower_bound <= used_of_roll(all));
  RC_TAG(all.proved_least && fewer.proved_least ? "proved" : "not proved");
  if (all.proved_least && fewer.proved_least) RC_ASSERT(bought(fewer) <= bought(all));
}

RC_GTEST_PROP(Bound, IsNoLessThanAreaAndLongestPiece, ()) {
  const auto pieces = random_pieces(false);
  const Length bound = lower_bound(pieces, feet(12)).length;
  double area = 0;
  for (const auto& p : pieces) {
    RC_ASSERT(bound >= p.length);
    area += p.width.inches() * p.length.inches();
  }
  RC_ASSERT(bound.inches() >= area / 144 - 1e-6);
}

// A placement that moves is off its strokes at least, and most often more.
RC_GTEST_PROP(Checker, SeesAPieceThatMoved, ()) {
  const auto pieces = random_pieces(true);
  const auto carpet = random_carpet(true, true);
  auto layout = laid_out(pieces, carpet);
  auto& roll =
      layout.rolls[static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(layout.rolls.size())))];
  auto& p = roll.placements[static_cast<std::size_t>(
      *rc::gen::inRange(0, static_cast<int>(roll.placements.size())))];
  const Length by{*rc::gen::inRange(1, 2'000'000)};
  switch (*rc::gen::inRange(0, 4)) {
  case 0:
    p.u += by;
    break;
  case 1:
    p.u -= by;
    break;
  case 2:
    p.v += by;
    break;
  default:
    p.v -= by;
  }
  RC_ASSERT(!check_layout(pieces, carpet, layout).empty());
}

RC_GTEST_PROP(Checker, SeesEverySpoiltPart, ()) {
  const auto pieces = random_pieces(false);
  const auto carpet = random_carpet(false, false);
  auto layout = laid_out(pieces, carpet);
  auto& roll = layout.rolls[0];
  switch (*rc::gen::inRange(0, 8)) {
  case 0:
    roll.placements.pop_back();
    break;
  case 1:
    roll.placements.push_back(roll.placements.front());
    break;
  case 2:
    RC_PRE(roll.placements[0].width != roll.placements[0].length);
    std::swap(roll.placements[0].width, roll.placements[0].length);
    break;
  case 3:
    RC_PRE(!roll.knife_order.empty());
    roll.knife_order.pop_back();
    break;
  case 4:
    RC_PRE(!roll.knife_order.empty());
    roll.knife_order.front().at += Length{1};
    break;
  case 5:
    roll.length_to_buy = roll.length_used - Length{1};
    break;
  case 6:
    layout.lower_bound = used_of_roll(layout) + Length{1};
    break;
  default:
    roll.selvage += Length{1};
  }
  RC_ASSERT(!check_layout(pieces, carpet, layout).empty());
}

TEST(Checker, SeesAMatchThatIsOffAndALotThatIsMixed) {
  auto carpet = plain_carpet();
  carpet.pattern = Pattern{inches(36), inches(18), {}};
  auto pieces = steps(8, inches(36), inches(18));
  for (auto& p : pieces)
    p.matched = true, p.match_group = "flight";
  const auto layout = good_layout(pieces, carpet);
  pieces[3].phase_v = inches(1); // asks for another place than it was given
  ASSERT_EQ(check_layout(pieces, carpet, layout).size(), 1u);
  pieces[3].phase_v = {};
  auto mixed = layout;
  mixed.rolls.push_back(mixed.rolls[0]);
  auto &a = mixed.rolls[0], &b = mixed.rolls[1];
  a.remnant = true, a.stock = "left over", a.available = a.length_to_buy;
  carpet.remnants = {{"left over", a.width, a.available, "", ""}};
  a.placements.resize(4), b.placements.erase(b.placements.begin(), b.placements.begin() + 4);
  const auto breaches = check_layout(pieces, carpet, mixed);
  EXPECT_TRUE(std::any_of(breaches.begin(), breaches.end(),
                          [](const auto& s) { return s.find("dye lot") != std::string::npos; }));
}

TEST(Checker, SeesThatAPinwheelCannotBeCutWithStraightStrokes) {
  std::vector<CutPiece> pieces;
  add(pieces, 1, inches(84), inches(20)), add(pieces, 1, inches(60), inches(40));
  add(pieces, 1, inches(84), inches(20)), add(pieces, 1, inches(60), inches(40));
  auto carpet = plain_carpet();
  Layout layout;
  auto& roll = layout.rolls.emplace_back();
  roll.stock = "roll", roll.width = feet(12), roll.available = carpet.roll_length;
  const Length u[] = {{}, inches(84), inches(60), {}}, v[] = {{}, {}, inches(40), inches(20)};
  for (std::size_t i = 0; i < 4; ++i)
    roll.placements.push_back({pieces[i].id, u[i], v[i], pieces[i].width, pieces[i].length});
  roll.length_used = roll.length_to_buy = inches(60);
  EXPECT_EQ(check_layout(pieces, carpet, layout).size(), 4u); // no piece comes free, all else is well

  for (std::size_t i = 0; i < 4; ++i)
    roll.knife_order.push_back({Stroke::Kind::around, v[i], u[i], u[i] + pieces[i].width, pieces[i].id});
  EXPECT_EQ(check_layout(pieces, carpet, layout).size(),
            4u); // all come free, by strokes that are not straight
  carpet.laid = Laid::close;
  EXPECT_EQ(check_layout(pieces, carpet, layout), std::vector<std::string>{});
  roll.knife_order.pop_back();
  EXPECT_EQ(check_layout(pieces, carpet, layout).size(), 1u);
}

namespace {

/// The least length of any layout of a few small pieces, by trying every place at sums of sizes. Knows
/// nothing of rows or strokes.
struct BruteForce {
  std::vector<std::pair<int, int>> sizes;
  int width = 0;
  std::vector<std::array<int, 4>> placed{};
  int best = std::numeric_limits<int>::max();

  void run(std::size_t next, int length) {
    if (length >= best) return;
    if (next == sizes.size()) {
      best = length;
      return;
    }
    const auto [w, l] = sizes[next];
    for (int v = 0; v + l < best; ++v)
      for (int u = 0; u + w <= width; ++u) {
        const bool clear = std::none_of(placed.begin(), placed.end(), [&, l = l, w = w](const auto& p) {
          return u < p[0] + p[2] && p[0] < u + w && v < p[1] + p[3] && p[1] < v + l;
        });
        if (!clear) continue;
        placed.push_back({u, v, w, l});
        run(next + 1, std::max(length, v + l));
        placed.pop_back();
      }
  }
};

} // namespace

RC_GTEST_PROP(Bound, IsNeverAboveTheOptimumFoundByBruteForce, ()) {
  BruteForce exact;
  exact.width = *rc::gen::inRange(4, 9);
  std::vector<CutPiece> pieces;
  for (int i = *rc::gen::inRange(1, 5); i > 0; --i) {
    const int w = *rc::gen::inRange(1, exact.width + 1), l = *rc::gen::inRange(1, 6);
    exact.sizes.emplace_back(w, l);
    add(pieces, 1, inches(w), inches(l));
  }
  exact.run(0, 0);
  const Length width = inches(exact.width);
  RC_ASSERT(lower_bound(pieces, width).length <= inches(exact.best));
  auto carpet = plain_carpet();
  carpet.roll_widths = {width};
  const auto layout = laid_out(pieces, carpet);
  RC_ASSERT(used_of_roll(layout) >= inches(exact.best));
  if (layout.proved_least) RC_ASSERT(used_of_roll(layout) == inches(exact.best));
}

namespace {

/// The same for a set or drop match: the motif of each piece, counted from the first one's, lies on the
/// lattice.
struct MatchedBruteForce {
  std::vector<std::array<int, 4>> pieces; // width, length, phase across, phase along
  int width = 0, repeat_u = 1, repeat_v = 1, drop = 0;
  std::vector<std::array<int, 4>> placed{};
  int best = std::numeric_limits<int>::max();

  void run(std::size_t next, int length) {
    if (length >= best) return;
    if (next == pieces.size()) {
      best = length;
      return;
    }
    const auto [w, l, phase_u, phase_v] = pieces[next];
    for (int v = 0; v + l < best && v < 40; ++v)
      for (int u = 0; u + w <= width; ++u) {
        bool good = true;
        if (next > 0) {
          const int du = u + phase_u - placed[0][0] - pieces[0][2],
                    dv = v + phase_v - placed[0][1] - pieces[0][3];
          good = du % repeat_u == 0 && (dv - du / repeat_u * drop) % repeat_v == 0;
        }
        for (const auto& p : placed)
          good = good && !(u < p[0] + p[2] && p[0] < u + w && v < p[1] + p[3] && p[1] < v + l);
        if (!good) continue;
        placed.push_back({u, v, w, l});
        run(next + 1, std::max(length, v + l));
        placed.pop_back();
      }
  }
};

} // namespace

RC_GTEST_PROP(Bound, HoldsForMatchedPiecesToo, ()) {
  MatchedBruteForce exact;
  exact.width = *rc::gen::inRange(4, 9);
  exact.repeat_u = *rc::gen::inRange(1, 5), exact.repeat_v = *rc::gen::inRange(1, 5);
  exact.drop = *rc::gen::inRange(0, exact.repeat_v);
  std::vector<CutPiece> pieces;
  for (int i = *rc::gen::inRange(1, 4); i > 0; --i) {
    const std::array<int, 4> p{*rc::gen::inRange(1, exact.width + 1), *rc::gen::inRange(1, 5),
                               *rc::gen::inRange(0, exact.repeat_u), *rc::gen::inRange(0, exact.repeat_v)};
    exact.pieces.push_back(p);
    pieces.push_back({fmt::format("P{}", i), inches(p[0]), inches(p[1]), "flight", true, "flight",
                      inches(p[2]), inches(p[3])});
  }
  exact.run(0, 0);
  auto carpet = plain_carpet();
  carpet.roll_widths = {inches(exact.width)};
  carpet.pattern = Pattern{inches(exact.repeat_u), inches(exact.repeat_v), inches(exact.drop)};
  Problems problems;
  const auto layout = lay_out(pieces, carpet, quick(), problems);
  // Refused exactly when no layout keeps the pattern.
  RC_ASSERT(has_errors(problems) == (exact.best == std::numeric_limits<int>::max()));
  if (has_errors(problems)) return;
  expect_no_breach(pieces, carpet, layout);
  RC_ASSERT(layout.lower_bound <= inches(exact.best));
  RC_ASSERT(used_of_roll(layout) >= inches(exact.best));
}

// Refusals come of pieces wider than the roll, and of wide ones in one group whose motifs lie apart.
RC_GTEST_PROP(Layouts, WhetherTheyFitHangsNeitherOnOrderNorUnitNorWhereThePatternLies, ()) {
  const int width = *rc::gen::inRange(4, 9), repeat_v = *rc::gen::inRange(1, 5);
  auto carpet = plain_carpet();
  carpet.roll_widths = {kInch * width}, carpet.roll_length = {};
  carpet.pattern =
      Pattern{kInch * *rc::gen::inRange(2, 5), kInch * repeat_v, kInch * *rc::gen::inRange(0, repeat_v)};
  std::vector<CutPiece> pieces;
  for (int i = *rc::gen::inRange(1, 6); i > 0; --i)
    pieces.push_back({fmt::format("P{}", i), kInch * *rc::gen::inRange(width / 2, width + (i == 1 ? 2 : 1)),
                      kInch * *rc::gen::inRange(1, 5), "flight", true, "flight",
                      kInch * *rc::gen::inRange(0, 5), kInch * *rc::gen::inRange(0, 5)});
  Problems problems;
  const auto before = lay_out(pieces, carpet, quick(), problems);
  const bool fits = !has_errors(problems);
  RC_TAG(fits ? "fits" : "refused");
  const int unit = *rc::gen::inRange(1, 4);
  const Length across = random_length(-200, 200), along = random_length(-200, 200);
  std::reverse(pieces.begin(), pieces.end());
  for (auto& p : pieces) {
    p.width = p.width * unit, p.length = p.length * unit;
    p.phase_u = p.phase_u * unit + across, p.phase_v = p.phase_v * unit + along;
  }
  carpet.roll_widths[0] = carpet.roll_widths[0] * unit, carpet.sold_in = carpet.sold_in * unit;
  auto& pattern = *carpet.pattern;
  pattern = {pattern.width * unit, pattern.length * unit, pattern.drop * unit};
  Problems after_problems;
  const auto after = lay_out(pieces, carpet, quick(), after_problems);
  RC_ASSERT(!has_errors(after_problems) == fits);
  if (!fits) return;
  expect_no_breach(pieces, carpet, after);
  RC_ASSERT(after.lower_bound <= used_of_roll(before) * unit);
  RC_ASSERT(before.lower_bound * unit <= used_of_roll(after));
  if (before.proved_least && after.proved_least) RC_ASSERT(bought(after) == bought(before) * unit);
}
