// Roll layouts of goods laid by outlines: words on their own goods, holes, pieces turned half round.
#include "legible.h"
#include "sheets/outline_room.h"
#include "sheets/sheet_kinds.h"
#include "sheets/step_sheet.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>

namespace treadfold {
namespace {

/// The example with some of its words changed.
Plan planned(const std::string& example, const std::vector<std::pair<std::string, std::string>>& changes) {
  std::stringstream text;
  text << std::ifstream(SOURCE_DIR "/examples/" + example).rdbuf();
  std::string job = text.str();
  for (const auto& [from, to] : changes) {
    const auto at = job.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    job.replace(at, from.size(), to);
  }
  const auto reading = read_job(job);
  for (const auto& p : reading.problems)
    EXPECT_NE(p.severity, Severity::error) << sentence(p);
  return plan(reading);
}

Plan turning() {
  return planned(
      "winding-stair.json",
      {{R"("thickness": "7/16")", R"("thickness": "7/16", "laid": "outlines", "directional": false)"}});
}

Plan with_stairwell() {
  return planned("box-stair.json", {{R"("flights": [)", R"("floors": [{
      "name": "hall", "carpet": "twist", "width": "11'", "length": "13'", "openings": [
        {"name": "stairwell", "along": "40", "off": "50", "width": "72", "length": "84"}]}],
      "flights": [)"},
                                    {R"("thickness": "1/2")", R"("thickness": "1/2", "laid": "outlines")"}});
}

/// All that the sheet says, in its order.
std::string words(const Sheet& sheet) {
  std::string all;
  for (const auto& page : sheet.pages)
    for (const auto& text : page.texts)
      all += text.text + " ";
  return all;
}

void expect_readable(const Sheet& sheet) {
  for (std::size_t i = 0; i < sheet.pages.size(); ++i)
    for (const auto& faults : {faults_of(sheet.pages[i]), struck_words(sheet.pages[i])})
      for (const auto& fault : faults)
        ADD_FAILURE() << sheet.name << ", page " << i + 1 << ": " << fault;
}

TEST(OutlineSheets, TellWhichPiecesLieTurned) {
  auto plan = turning();
  std::size_t turned = 0;
  for (const auto& roll : plan.layouts[0].rolls)
    turned += static_cast<std::size_t>(std::count_if(roll.placements.begin(), roll.placements.end(),
                                                     [](const auto& p) { return p.turned; }));
  ASSERT_GT(turned, 0u);
  const auto sheet = roll_sheets(plan)[0];
  expect_readable(sheet);
  const auto all = words(sheet);
  std::size_t told = 0;
  for (auto at = all.find("It lies turned half round."); at != std::string::npos;
       at = all.find("It lies turned half round.", at + 1))
    ++told;
  EXPECT_EQ(told, turned);
  EXPECT_NE(all.find("Turned: half round"), std::string::npos);
}

TEST(OutlineSheets, TellWhereAHoleIsCutOut) {
  const auto plan = with_stairwell();
  const auto sheet = roll_sheets(plan)[0];
  expect_readable(sheet);
  EXPECT_NE(words(sheet).find("Cut out of it, to the corners"), std::string::npos);
  for (const auto& step : step_sheets(plan)) {
    expect_readable(step);
    EXPECT_EQ(words(step).find("stairwell") != std::string::npos, step.name == "step-B") << step.name;
  }
}

TEST(OutlineRoom, LiesInNoHollowAndNoHole) {
  const auto ring = [](std::int64_t u0, std::int64_t v0, std::int64_t u1, std::int64_t v1) {
    return GoodsRing{{inches(u0), inches(v0)},
                     {inches(u1), inches(v0)},
                     {inches(u1), inches(v1)},
                     {inches(u0), inches(v1)}};
  };
  const GoodsOutline frame{ring(0, 0, 100, 100), {ring(10, 20, 90, 70)}};
  EXPECT_TRUE(goes_in(frame));
  EXPECT_FALSE(goes_in({ring(0, 0, 100, 100)}));
  const auto room = largest_rectangle(frame, {}, inches(100));
  ASSERT_TRUE(room);
  EXPECT_EQ(room->low, (GoodsPoint{{}, inches(70)}));
  EXPECT_EQ(room->high, (GoodsPoint{inches(100), inches(100)}));
  // Of what one page shows: beside the hole is most.
  const auto shown = largest_rectangle(frame, inches(30), inches(60));
  ASSERT_TRUE(shown);
  EXPECT_EQ(shown->high.u - shown->low.u, inches(10));
}

} // namespace
} // namespace treadfold
