// How short true outlines come out: published instances.
#include "instances.h"
#include "report.h"

#include "cut/pack/outline_check.h"

#include <cmath>
#include <fmt/format.h>
#include <fstream>
#include <limits>

namespace treadfold::bench {
namespace {

using nlohmann::json;

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
    shuffle(i.pieces, 20240);
    all.push_back(std::move(i));
  }
  return all;
}

json solve(const OutlineInstance& instance, double seconds, unsigned seed, Report& report) {
  pack::OutlineOptions options;
  options.work = std::numeric_limits<std::int64_t>::max() / 4; // the clock decides
  options.seed = seed;
  const double start = cpu_seconds();
  options.should_stop = [&] { return cpu_seconds() - start >= seconds; };
  const auto answer = pack::pack_outlines(instance.pieces, instance.width, options);
  const double spent = cpu_seconds() - start;
  const auto breach = pack::breach(instance.pieces, instance.width, answer);
  if (!breach.empty()) report.say_wrong(instance.name, breach);
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

/// Every instance at every time allowed.
std::string table_of(const std::vector<OutlineInstance>& all, const Settings& settings, Report& report) {
  if (all.empty()) {
    report.data["outlines"] = "data absent";
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
      auto solved = solve(i, settings.seconds[s], settings.seed, report);
      const double points = solved["points_below_best_known"];
      below[s] += points;
      table += fmt::format(" {:.2f} | {:.2f} |", solved["density_percent"].get<double>(), points);
      report.data["outlines"].push_back(std::move(solved));
    }
    table += "\n";
  }
  table += "| **mean** | | |";
  for (const double b : below)
    table += fmt::format(" | {:.2f} |", b / static_cast<double>(all.size()));
  return table + "\n";
}

} // namespace

void report_outlines(const Settings& settings, Report& report) {
  report.add(fmt::format("\n## Published outlines\n\nDensity in per cent of the strip used, and points below "
                         "the best known; seed {}.\n\n",
                         settings.seed));
  report.add(table_of(read_outlines(settings.data / "irregular"), settings, report));
}

} // namespace treadfold::bench
