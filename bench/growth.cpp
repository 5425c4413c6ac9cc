// Work is doubled until the layout is within 2 % of the bound, or a minute of CPU time is spent at once. Each
// size is tried in a process of its own, whose greatest memory is read when it ends.
#include "growth.h"

#include "instances.h"
#include "report.h"

#include <fmt/format.h>
#include <fstream>
#include <stdexcept>
#include <sys/wait.h>
#include <unistd.h>

namespace treadfold::bench {
namespace {

constexpr double kWithinPercent = 2, kMostSeconds = 60;
constexpr unsigned kSeed = 7;

Instance instance_of(int family, int boxes) {
  return family == 0 ? random_stair_pieces(boxes, kSeed) : random_instance(boxes, kSeed);
}

/// In this process. Puts what is wrong with the last answer into `what`.
Growth grow(int family, int boxes, std::string& what) {
  const auto instance = instance_of(family, boxes);
  Growth point{family, boxes, 0, 0, 0, false};
  for (std::int64_t work = 1000; !point.reached && point.cpu_seconds < kMostSeconds; work *= 2) {
    pack::StripOptions options;
    options.work = work;
    const double start = cpu_seconds();
    options.should_stop = [&] { return cpu_seconds() - start >= kMostSeconds; };
    const auto answer = pack::pack_strip(instance.boxes, instance.width, options);
    point.cpu_seconds = cpu_seconds() - start;
    what = breach(instance, answer, false);
    point.over_percent = 100 * (static_cast<double>(answer.length) / static_cast<double>(answer.bound) - 1);
    point.reached = point.over_percent <= kWithinPercent;
  }
  point.peak_mb = peak_megabytes();
  return point;
}

/// The same in a process of its own.
Growth grow_apart(int family, int boxes, Report& report) {
  int ends[2];
  if (pipe(ends) != 0) throw std::runtime_error("growth: no pipe to be had");
  const pid_t child = fork();
  if (child < 0) throw std::runtime_error("growth: no further process to be had");
  if (child == 0) {
    std::string what;
    const Growth p = grow(family, boxes, what);
    const auto line = nlohmann::json{p.over_percent, p.cpu_seconds, p.peak_mb, p.reached, what}.dump();
    const bool written = write(ends[1], line.data(), line.size()) == static_cast<ssize_t>(line.size());
    _exit(written ? 0 : 1);
  }
  close(ends[1]);
  std::string line;
  char some[256];
  for (ssize_t n = 0; (n = read(ends[0], some, sizeof some)) > 0;)
    line.append(some, static_cast<std::size_t>(n));
  close(ends[0]);
  waitpid(child, nullptr, 0);
  const auto j = nlohmann::json::parse(line);
  const auto what = j[4].get<std::string>();
  if (!what.empty()) report.say_wrong(fmt::format("{} {}", boxes, kGrowthFamilies[family]), what);
  return {family, boxes, j[0], j[1], j[2], j[3]};
}

} // namespace

void report_growth(const Settings& settings, Report& report) {
  report.add(fmt::format(
      "\n## Growth: the least work, doubled from 1,000 steps, that comes within {} % of the bound\n\n"
      "Where a minute does not suffice, the gap that is left. Drawn in growth.svg.\n\n"
      "| pieces | number | length over bound % | CPU s | memory MB |\n|---|---|---|---|---|\n",
      kWithinPercent));
  std::vector<Growth> points;
  for (const int family : {0, 1})
    for (const int boxes : {10, 100, 1000, 10000}) {
      const auto p = points.emplace_back(grow_apart(family, boxes, report));
      report.add(fmt::format("| {} | {} | {:.2f}{} | {:.4f} | {:.1f} |\n", kGrowthFamilies[family], boxes,
                             p.over_percent, p.reached ? "" : ", not reached", p.cpu_seconds, p.peak_mb));
      report.data["growth"].push_back({{"pieces", kGrowthFamilies[family]},
                                       {"boxes", boxes},
                                       {"over_percent", p.over_percent},
                                       {"reached", p.reached},
                                       {"cpu_seconds", p.cpu_seconds},
                                       {"peak_mb", p.peak_mb}});
    }
  std::ofstream(settings.out / "growth.svg") << draw_growth(points);
}

} // namespace treadfold::bench
