// How short the strips come out: published instances, free and by straight cuts, at 0.1, 1 and 10 seconds of
// CPU time on one thread; and how the time grows with the number of boxes. Writes strip.json and strip.md.
//   bench_strip [--seconds 0.1,1,10] [--every N] [--data DIR] [--out DIR]
// Ends with 1 if an answer was wrong, or a bound above a known optimum.
#include "instances.h"

#include <fmt/format.h>
#include <fstream>
#include <iostream>
#include <map>
#include <nlohmann/json.hpp>

using namespace treadfold;
using bench::Instance;
using nlohmann::json;

namespace {

struct Settings {
  std::vector<double> seconds{0.1, 1, 10};
  std::size_t every = 1;
  std::filesystem::path data = SOURCE_DIR "/../shared/bench/rect", out = ".";
};

struct Row { // of the table: a family, or all
  int count = 0, at_best = 0, proved = 0;
  double gaps = 0, worst = 0;
  void add(double gap, bool is_proved) {
    ++count, at_best += gap <= 0, proved += is_proved;
    gaps += gap, worst = std::max(worst, gap);
  }
};

int wrong = 0;

json solve(const Instance& instance, double seconds, bool guillotine) {
  pack::StripOptions options;
  options.guillotine = guillotine;
  options.work = std::numeric_limits<std::int64_t>::max() / 4; // the clock decides
  const double start = bench::cpu_seconds();
  options.should_stop = [&] { return bench::cpu_seconds() - start >= seconds; };
  const auto answer = pack::pack_strip(instance.boxes, instance.width, options);
  const double spent = bench::cpu_seconds() - start;
  const auto breach = bench::breach(instance, answer, guillotine);
  if (!breach.empty()) {
    std::cerr << instance.name << ": " << breach << "\n";
    ++wrong;
  }
  const auto known = guillotine ? instance.best_guillotine : instance.best;
  const auto against = static_cast<double>(known.value_or(answer.bound));
  return {{"name", instance.name},
          {"family", instance.family},
          {"boxes", instance.boxes.size()},
          {"length", answer.length},
          {"bound", answer.bound},
          {"bound_name", answer.bound_name},
          {"proved", answer.proved()},
          {"compared_with", against},
          {"gap_percent", 100 * (static_cast<double>(answer.length) / against - 1)},
          {"cpu_seconds", spent},
          {"work", answer.work}};
}

std::string cells(const Row& r) {
  return fmt::format(" {:.2f} | {:.0f} % | {:.2f} | {:.0f} % |", r.gaps / r.count,
                     100.0 * r.at_best / r.count, r.worst, 100.0 * r.proved / r.count);
}

/// One set at every time allowed. Says so if the data is not there.
void run_set(const std::string& title, const std::vector<Instance>& all, bool guillotine,
             const Settings& settings, json& report, std::string& table) {
  table += fmt::format("\n## {}\n\n", title);
  if (all.empty()) {
    table += "The data is not here; nothing was run.\n";
    report[title] = "data absent";
    return;
  }
  std::vector<std::map<std::string, Row>> rows(settings.seconds.size());
  for (std::size_t s = 0; s < settings.seconds.size(); ++s)
    for (std::size_t i = 0; i < all.size(); i += settings.every) {
      auto solved = solve(all[i], settings.seconds[s], guillotine);
      rows[s][all[i].family].add(solved["gap_percent"], solved["proved"]);
      rows[s]["**all**"].add(solved["gap_percent"], solved["proved"]);
      solved["seconds_allowed"] = settings.seconds[s];
      report[title].push_back(std::move(solved));
    }
  std::string rule = "|---|---|";
  table += "| family | number |";
  for (const double s : settings.seconds) {
    table += fmt::format(" mean gap % at {} s | at best known | worst gap % | proved |", s);
    rule += "---|---|---|---|";
  }
  table += "\n" + rule + "\n";
  for (const auto& [family, first] : rows[0]) {
    table += fmt::format("| {} | {} |", family, first.count);
    for (auto& at : rows)
      table += cells(at[family]);
    table += "\n";
  }
}

/// Work is doubled until the length is within 2 % of the bound.
void run_growth(json& report, std::string& table) {
  table += "\n## Growth: within 2 % of the bound\n\n| boxes | length over bound % | CPU s | memory MB "
           "|\n|---|---|---|---|\n";
  for (const int boxes : {10, 30, 100, 300, 1000, 3000, 10000}) {
    const auto instance = bench::random_instance(boxes, 7);
    double over = 0, spent = 0;
    for (std::int64_t work = 1000; work < 4'000'000'000; work *= 2) {
      pack::StripOptions options;
      options.work = work;
      const double start = bench::cpu_seconds();
      const auto answer = pack::pack_strip(instance.boxes, instance.width, options);
      spent = bench::cpu_seconds() - start;
      const auto breach = bench::breach(instance, answer, false);
      if (!breach.empty()) std::cerr << instance.name << ": " << breach << "\n", ++wrong;
      over = 100 * (static_cast<double>(answer.length) / static_cast<double>(answer.bound) - 1);
      if (over <= 2 || answer.proved() || spent > 30) break;
    }
    table += fmt::format("| {} | {:.2f} | {:.4f} | {:.0f} |\n", boxes, over, spent, bench::peak_megabytes());
    report["growth"].push_back({{"boxes", boxes},
                                {"over_percent", over},
                                {"cpu_seconds", spent},
                                {"peak_mb", bench::peak_megabytes()}});
  }
}

Settings read_settings(const std::vector<std::string>& words) {
  Settings s;
  for (std::size_t i = 0; i + 1 < words.size(); i += 2) {
    if (words[i] == "--every") s.every = std::stoul(words[i + 1]);
    if (words[i] == "--data") s.data = words[i + 1];
    if (words[i] == "--out") s.out = words[i + 1];
    if (words[i] == "--seconds") s.seconds = bench::numbers(words[i + 1]);
  }
  return s;
}

} // namespace

int main(int argc, char** argv) {
  const Settings settings = read_settings({argv + 1, argv + argc});
  json report;
  report["machine"] = bench::machine(), report["threads"] = 1;
  std::string table =
      fmt::format("# Strips\n\n{}; one thread; CPU time. Gaps are to the best known length, where "
                  "none is known to our own bound.\n",
                  bench::machine());
  run_growth(report, table);
  const auto published = bench::read_instances(settings.data / "strip-packing.json");
  std::vector<Instance> straight;
  for (const auto& i : published)
    if (i.best_guillotine) straight.push_back(i);
  run_set("Published rectangles, free", published, false, settings, report, table);
  run_set("Published rectangles, by straight cuts", straight, true, settings, report, table);
  run_set("Berkey-Wang and Martello-Vigo, free, against the bound",
          bench::read_instances(settings.data / "bwmv-100.json"), false, settings, report, table);
  std::filesystem::create_directories(settings.out);
  std::ofstream(settings.out / "strip.json") << report.dump(1) << "\n";
  std::ofstream(settings.out / "strip.md") << table;
  std::cout << table << "\n" << wrong << " answers wrong\n";
  return wrong > 0 ? 1 : 0;
}
