// How short true outlines come out: published instances, at 1 and 10 seconds of CPU time on one thread.
// Writes outline.json and outline.md.
//   bench_outline [--seconds 1,10] [--only NAME] [--seed N] [--data DIR] [--out DIR]
// Ends with 1 if an answer was wrong.
#include "instances.h"

#include "cut/pack/outline_check.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>

using namespace treadfold;
using nlohmann::json;

namespace {

struct Settings {
  std::vector<double> seconds{1, 10};
  std::string only;
  unsigned seed = 1;
  std::filesystem::path data = SOURCE_DIR "/../shared/bench/irregular", out = ".";
};

struct OutlineInstance {
  std::string name;
  double unit = 1; // of the file, in whole numbers
  double strip = 0, area = 0, best_percent = 0;
  std::vector<pack::OutlinePiece> pieces; // shuffled
  pack::Ticks width = 0;
};

/// Corners of the file turned by `degrees` on whole numbers. The file's x runs along the strip, y across.
pack::Ring ring_of(const json& points, double degrees, double unit) {
  const double quarter = std::round(degrees / 90);
  double c = std::cos(degrees * std::acos(-1) / 180), s = std::sin(degrees * std::acos(-1) / 180);
  if (quarter * 90 == degrees) c = std::round(c), s = std::round(s);
  pack::Ring ring;
  for (const auto& p : points) {
    const double x = p[0], y = p[1];
    ring.push_back({std::llround((s * x + c * y) * unit), std::llround((c * x - s * y) * unit)});
  }
  return ring;
}

std::vector<OutlineInstance> read_outlines(const std::filesystem::path& folder) {
  std::ifstream index(folder / "index.json");
  if (!index) return {};
  std::vector<OutlineInstance> all;
  for (const auto& entry : json::parse(index)) {
    OutlineInstance i;
    i.name = entry["name"];
    std::ifstream in(folder / (i.name + ".json"));
    const auto j = json::parse(in);
    i.strip = j["strip_height"], i.area = j["total_area"], i.best_percent = j["best_known_density_pct"];
    constexpr double kAbout = 1 << 24; // of the strip's width, so that rounding does not show
    i.unit = std::max(1.0, std::floor(kAbout / i.strip));
    i.width = static_cast<pack::Ticks>(std::floor(i.strip * i.unit));
    for (const auto& item : j["items"]) {
      pack::OutlinePiece piece;
      for (const double degrees : item["orientations"]) {
        pack::Outline way{ring_of(item["polygon"], degrees, i.unit), {}};
        for (const auto& hole : item["holes"])
          way.holes.push_back(ring_of(hole, degrees, i.unit));
        piece.ways.push_back(std::move(way));
      }
      i.pieces.insert(i.pieces.end(), item["count"].get<std::size_t>(), piece);
    }
    bench::shuffle(i.pieces, 20240);
    all.push_back(std::move(i));
  }
  return all;
}

int wrong = 0;

json solve(const OutlineInstance& instance, double seconds, unsigned seed) {
  pack::OutlineOptions options;
  options.work = std::numeric_limits<std::int64_t>::max() / 4; // the clock decides
  options.seed = seed;
  const double start = bench::cpu_seconds();
  options.should_stop = [&] { return bench::cpu_seconds() - start >= seconds; };
  const auto answer = pack::pack_outlines(instance.pieces, instance.width, options);
  const double spent = bench::cpu_seconds() - start;
  const auto breach = pack::breach(instance.pieces, instance.width, answer);
  if (!breach.empty()) {
    std::cerr << instance.name << ": " << breach << "\n";
    ++wrong;
  }
  const double length = static_cast<double>(answer.length) / instance.unit;
  const double percent = 100 * instance.area / (instance.strip * length);
  return {{"name", instance.name},
          {"pieces", instance.pieces.size()},
          {"length", length},
          {"bound", static_cast<double>(answer.bound) / instance.unit},
          {"bound_name", answer.bound_name},
          {"density_percent", percent},
          {"points_below_best_known", instance.best_percent - percent},
          {"seconds_allowed", seconds},
          {"cpu_seconds", spent},
          {"work", answer.work}};
}

Settings read_settings(const std::vector<std::string>& words) {
  Settings s;
  for (std::size_t i = 0; i + 1 < words.size(); i += 2) {
    if (words[i] == "--only") s.only = words[i + 1];
    if (words[i] == "--seed") s.seed = static_cast<unsigned>(std::stoul(words[i + 1]));
    if (words[i] == "--data") s.data = words[i + 1];
    if (words[i] == "--out") s.out = words[i + 1];
    if (words[i] == "--seconds") s.seconds = bench::numbers(words[i + 1]);
  }
  return s;
}

/// Every instance at every time allowed.
std::string run(const std::vector<OutlineInstance>& all, const Settings& settings, json& report) {
  if (all.empty()) {
    report["outlines"] = "data absent";
    return "The data is not here; nothing was run.\n";
  }
  std::string table = "| instance | pieces | best known |", rule = "|---|---|---|";
  for (const double s : settings.seconds)
    table += fmt::format(" density at {} s | below |", s), rule += "---|---|";
  table += "\n" + rule + "\n";
  std::vector<double> below(settings.seconds.size());
  for (const auto& i : all) {
    table += fmt::format("| {} | {} | {:.2f} |", i.name, i.pieces.size(), i.best_percent);
    for (std::size_t s = 0; s < settings.seconds.size(); ++s) {
      auto solved = solve(i, settings.seconds[s], settings.seed);
      const double points = solved["points_below_best_known"];
      below[s] += points;
      table += fmt::format(" {:.2f} | {:.2f} |", solved["density_percent"].get<double>(), points);
      report["outlines"].push_back(std::move(solved));
    }
    table += "\n";
  }
  table += "| **mean** | | |";
  for (const double b : below)
    table += fmt::format(" | {:.2f} |", b / static_cast<double>(all.size()));
  return table + "\n";
}

} // namespace

int main(int argc, char** argv) {
  const Settings settings = read_settings({argv + 1, argv + argc});
  json report;
  report["machine"] = bench::machine(), report["threads"] = 1, report["seed"] = settings.seed;
  auto all = read_outlines(settings.data);
  if (!settings.only.empty())
    all.erase(std::remove_if(all.begin(), all.end(), [&](const auto& i) { return i.name != settings.only; }),
              all.end());
  const std::string table = fmt::format("# Outlines\n\n{}; one thread; CPU time. Density in per cent of the "
                                        "strip used, and points below the best known.\n\n",
                                        bench::machine()) +
                            run(all, settings, report);
  std::filesystem::create_directories(settings.out);
  std::ofstream(settings.out / "outline.json") << report.dump(1) << "\n";
  std::ofstream(settings.out / "outline.md") << table;
  std::cout << table << "\n" << wrong << " answers wrong\n";
  return wrong > 0 ? 1 : 0;
}
