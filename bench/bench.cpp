// How long the user waits. The stair is the usual one: 14 risers, open on the right.
#include "cut/layout.h"
#include "sheets/sheets.h"

#include <benchmark/benchmark.h>

#include <cassert>
#include <fstream>
#include <sstream>

namespace treadfold {
namespace {

JobReading usual_stair() {
  NewJob choices;
  choices.risers = 14;
  choices.rise = inches(7, 1, 2);
  choices.going = inches(10);
  choices.width = inches(36);
  choices.right = SideKind::open;
  auto reading = read_job(new_job(choices));
  assert(!has_errors(reading.problems));
  return reading;
}

void read_a_job(benchmark::State& state) {
  NewJob choices;
  choices.risers = 14;
  choices.rise = inches(7, 1, 2);
  choices.going = inches(10);
  choices.width = inches(36);
  const auto text = new_job(choices);
  for (auto _ : state)
    benchmark::DoNotOptimize(read_job(text));
}
BENCHMARK(read_a_job)->Unit(benchmark::kMillisecond);

/// What the app waits for at every change of a measure: a stair of 15 steps, text in, the new layout and all
/// else out.
void from_a_measure_to_the_layout(benchmark::State& state) {
  NewJob choices;
  choices.risers = 15;
  choices.right = SideKind::open;
  const auto text = new_job(choices);
  for (auto _ : state)
    benchmark::DoNotOptimize(plan_json(plan(read_job(text))));
}
BENCHMARK(from_a_measure_to_the_layout)->Unit(benchmark::kMillisecond);

void plan_a_stair(benchmark::State& state) {
  const auto reading = usual_stair();
  for (auto _ : state)
    benchmark::DoNotOptimize(plan(reading));
}
BENCHMARK(plan_a_stair)->Unit(benchmark::kMillisecond);

/// Every kind of step in one stair: flared, round balusters, winding, with a landing.
void plan_the_winding_stair(benchmark::State& state) {
  std::ifstream file(SOURCE_DIR "/examples/winding-stair.json");
  std::ostringstream text;
  text << file.rdbuf();
  const auto reading = read_job(text.str());
  assert(!has_errors(reading.problems));
  for (auto _ : state)
    benchmark::DoNotOptimize(plan(reading));
}
BENCHMARK(plan_the_winding_stair)->Unit(benchmark::kMillisecond);

/// Every sheet drawn and written in every form, as `treadfold plan` does, but for the disk.
void draw_and_write_the_sheets(benchmark::State& state) {
  const auto planned = plan(usual_stair());
  std::size_t bytes = 0, sheets = 0;
  for (auto _ : state) {
    bytes = plan_json(planned).size();
    std::vector<Drawing> all;
    const auto drawn = draw_sheets(planned);
    sheets = drawn.size();
    for (const auto& sheet : drawn) {
      for (const auto& page : sheet.pages)
        bytes += write_svg(page).size();
      bytes += write_pdf(sheet.pages, sheet.title).size() + write_csv(sheet.table).size();
      all.insert(all.end(), sheet.pages.begin(), sheet.pages.end());
    }
    bytes += write_pdf(all, "All sheets").size();
  }
  state.counters["sheets"] = static_cast<double>(sheets);
  state.counters["bytes"] = static_cast<double>(bytes);
}
BENCHMARK(draw_and_write_the_sheets)->Unit(benchmark::kMillisecond);

/// The chance of each piece to come up short: part of plan_a_stair.
void judge_a_stair(benchmark::State& state) {
  const auto planned = plan(usual_stair());
  for (auto _ : state)
    benchmark::DoNotOptimize(certainty_of(planned));
}
BENCHMARK(judge_a_stair)->Unit(benchmark::kMillisecond);

void write_the_folding(benchmark::State& state) {
  const auto planned = plan(usual_stair());
  std::size_t bytes = 0;
  for (auto _ : state)
    bytes = fold_json(planned).size();
  state.counters["bytes"] = static_cast<double>(bytes);
}
BENCHMARK(write_the_folding)->Unit(benchmark::kMillisecond);

/// Steps of three kinds on 12 ft goods. "over": layout length over its bound, in per cent.
void lay_out_pieces(benchmark::State& state) {
  Carpet carpet;
  carpet.id = "plain";
  carpet.roll_widths = {kFoot * 12};
  carpet.roll_length = kFoot * 3000;
  carpet.sold_in = inches(6);
  std::vector<CutPiece> pieces;
  for (int i = 0; i < state.range(0); ++i) {
    CutPiece piece;
    piece.id = std::to_string(i);
    piece.group = "flight";
    piece.width = i % 7 == 0 ? inches(47, 3, 4) : i % 3 == 0 ? inches(41, 1, 2) : inches(38);
    piece.length = i % 7 == 0 ? inches(30, 1, 2) : inches(21, i % 5, 16);
    pieces.push_back(piece);
  }
  Layout layout;
  for (auto _ : state) {
    Problems problems;
    layout = lay_out(pieces, carpet, {}, problems);
    assert(problems.empty());
  }
  state.counters["over"] = 100.0 * (static_cast<double>(layout.rolls.back().length_used.ticks) /
                                        static_cast<double>(layout.lower_bound.ticks) -
                                    1);
}
BENCHMARK(lay_out_pieces)->Arg(14)->Arg(100)->Arg(1000)->Unit(benchmark::kMillisecond);

} // namespace
} // namespace treadfold
