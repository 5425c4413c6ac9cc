// Files that are no job at all: broken JSON, broken UTF-8, bombs.
#include "job/json_tree.h"
#include "samples.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace treadfold {
namespace {

using namespace samples;

Problem refusal(std::string_view text) {
  const auto reading = read_job(text);
  EXPECT_EQ(reading.problems.size(), 1u) << told(reading.problems);
  return reading.problems.empty() ? Problem{} : reading.problems[0];
}

TEST(Text, SyntaxErrorsTellLineAndColumn) {
  struct Case {
    const char* text;
    const char* place;
  };
  const Case cases[] = {
      {"", "unexpected end of input at line 1, column 1"},
      {"{\n  \"a\": 1\n  \"b\": 2\n}", "line 3, column 5"}, // the end of the text that came too early
      {"{\"a\": tru}", "line 1, column 10"},
      {"{\"é\": 1,}", "line 1, column 9"}, // columns count characters
      {"[1, 2", "line 1, column 6"},
      {"{\"a\": \"x\n\"}", "line 1, column 9"},
      {"{} {}", "line 1, column 4"},
      {"// only a note\n", "line 2, column 1"},
      {"{\"a\": 01}", "line 1, column 8"},
      {"{\"a\": \"\\ud800\"}", "line 1, column 14"},
      {"NaN", "line 1, column 1"},
  };
  for (const auto& c : cases) {
    const auto p = refusal(c.text);
    EXPECT_EQ(p.where, "");
    EXPECT_NE(p.found.find(c.place), std::string::npos) << c.text << " -> " << p.found;
    EXPECT_FALSE(p.expected.empty());
  }
}

TEST(Text, NumbersTooLargeAreRefused) { EXPECT_NE(refusal("{\"treadfold\": 1e999}").found, ""); }

TEST(Text, NotAnObject) {
  for (const auto* text : {"1", "null", "[]", "\"job\"", "true"})
    EXPECT_EQ(refusal(text).where, "");
}

TEST(Text, CommentsAndAByteOrderMarkAreRead) {
  const std::string job = small_job().dump(1);
  EXPECT_TRUE(read_job("\xEF\xBB\xBF// note\n" + job + "// end").problems.empty());
}

TEST(Text, DuplicateKeysAreNamedAtTheirPlace) {
  const std::string job = small_job().dump();
  EXPECT_EQ(refusal("{\"units\":\"in\"," + job.substr(1)).where, "/units");
  Findings findings;
  const auto tree = parse_tree(R"([0, {"a/b": 1, "c": {"d": 1, "d": 1, "d": 2}, "a/b": 3}])", findings);
  ASSERT_TRUE(tree);
  const auto problems = findings.take();
  ASSERT_EQ(problems.size(), 2u);
  EXPECT_EQ(problems[0].where, "/1/c/d");
  EXPECT_EQ(problems[1].where, "/1/a~1b");
  EXPECT_EQ(problems[1].found, "the key 'a/b' twice");
}

TEST(Text, NotUtf8TellsTheByteAndItsPlace) {
  // RFC 3629: overlong forms, surrogates, beyond U+10FFFF, lone tails, cut short; and NUL, which no text
  // needs.
  for (const std::string& bad :
       {std::string("\xC0\x80"), std::string("\xE0\x80\x80"), std::string("\xED\xA0\x80"),
        std::string("\xF4\x90\x80\x80"), std::string("\x80"), std::string("\xFF"), std::string("\xC3"),
        std::string("\xF0\x9F\x98"), std::string("\xF8\x88\x80\x80\x80"), std::string(1, '\0')}) {
    const auto p = refusal("{\n\"" + bad + "\": 1}");
    EXPECT_NE(p.found.find("line 2, column 2"), std::string::npos) << p.found;
    EXPECT_EQ(p.expected, "text in UTF-8");
  }
  for (const std::string& good : {std::string("é"), std::string("\xF4\x8F\xBF\xBF"),
                                  std::string("\xEE\x80\x80"), std::string("\xF0\x90\x80\x80")})
    EXPECT_TRUE(read(with(small_job(), "/site/title", good)).problems.empty());
}

TEST(Text, BombsAreRefusedAtOnce) {
  const auto deep = [](int n, const char* open) {
    std::string text;
    for (int i = 0; i < n; ++i)
      text += open;
    return text;
  };
  EXPECT_NE(refusal(deep(1'000'000, "[")).found.find("levels"), std::string::npos);
  EXPECT_NE(refusal(deep(1'000'000, "{\"a\":")).found.find("levels"), std::string::npos);
  EXPECT_NE(refusal(deep(33, "[")).found.find("levels"), std::string::npos);
  EXPECT_NE(refusal(deep(32, "[")).found.find("unexpected end"), std::string::npos);
  EXPECT_NE(refusal(deep(3'000'000, "//\n") + "{").found.find("bytes"), std::string::npos);
  EXPECT_NE(refusal("[" + deep(250'000, "0,") + "0]").found.find("values"), std::string::npos);
  EXPECT_NE(refusal(std::string(kMaxJobBytes + 1, ' ')).found.find("bytes"), std::string::npos);
  EXPECT_NE(refusal(std::string(kMaxJobBytes, ' ')).found.find("end of input"), std::string::npos);
}

TEST(Text, DepthIsToldAtItsPlace) {
  std::string text = "{\"a\": [0, ";
  for (int i = 0; i < 40; ++i)
    text += "[";
  EXPECT_TRUE(refusal(text).where.starts_with("/a/1/0/0")) << refusal(text).where;
}

TEST(Text, CutShortAtAnyByteIsOneProblem) {
  for (const auto& text : example_texts()) {
    const auto end = text.rfind('}');
    for (std::size_t n = 0; n <= end; ++n) {
      const auto reading = read_job(std::string_view(text).substr(0, n));
      ASSERT_EQ(reading.problems.size(), 1u) << n << "\n" << told(reading.problems);
      ASSERT_EQ(reading.problems[0].where, "");
      ASSERT_NE(reading.problems[0].found.find("line "), std::string::npos);
    }
  }
}

bool is_utf8_text(const std::string& text) {
  return Json(text).dump(-1, ' ', false, Json::error_handler_t::replace) ==
         Json(text).dump(-1, ' ', false, Json::error_handler_t::ignore);
}

void expect_well_said(const JobReading& reading) {
  for (const auto& p : reading.problems) {
    RC_ASSERT(!p.found.empty() && !p.expected.empty());
    RC_ASSERT(is_utf8_text(sentence(p)));
    RC_ASSERT(p.where.empty() || p.where[0] == '/');
  }
}

RC_GTEST_PROP(Text, RandomBytesAreRefused, (const std::vector<unsigned char>& bytes)) {
  const std::string text(bytes.begin(), bytes.end());
  const auto reading = read_job(text);
  RC_ASSERT(has_errors(reading.problems));
  expect_well_said(reading);
}

RC_GTEST_PROP(Text, ExamplesWithBytesChangedNeverCrash, ()) {
  std::string text = *rc::gen::elementOf(example_texts());
  const int changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i) {
    const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
    switch (*rc::gen::inRange(0, 3)) {
    case 0:
      text[at] = *rc::gen::elementOf(std::string("{}[]\",:0123456789-./\\ \n\xC3\xFFnt'"));
      break;
    case 1:
      text.erase(at, *rc::gen::inRange<std::size_t>(1, 30));
      break;
    default:
      text.insert(at, text.substr(*rc::gen::inRange<std::size_t>(0, text.size()), 12));
      break;
    }
  }
  expect_well_said(read_job(text));
}

} // namespace
} // namespace treadfold
