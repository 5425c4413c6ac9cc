// How short the strips come out: published rectangles, free and by straight cuts.
#include "instances.h"
#include "report.h"

#include <algorithm>
#include <fmt/format.h>
#include <limits>
#include <map>

namespace treadfold::bench {
namespace {

using nlohmann::json;

struct Row { // of the table: a family, or all
  int count = 0, at_best = 0, proved = 0;
  double gaps = 0, worst = 0;
  void add(double gap, bool is_proved) {
    ++count, at_best += gap <= 0, proved += is_proved;
    gaps += gap, worst = std::max(worst, gap);
  }
};

json solve(const Instance& instance, double seconds, bool guillotine, Report& report) {
  pack::StripOptions options;
  options.guillotine = guillotine;
  options.work = std::numeric_limits<std::int64_t>::max() / 4; // the clock decides
  const double start = cpu_seconds();
  options.should_stop = [&] { return cpu_seconds() - start >= seconds; };
  const auto answer = pack::pack_strip(instance.boxes, instance.width, options);
  const double spent = cpu_seconds() - start;
  const auto what = breach(instance, answer, guillotine);
  if (!what.empty()) report.say_wrong(instance.name, what);
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

/// At every time allowed. Says so if the data is not there.
void report_set(const std::string& name, const std::string& title, const std::vector<Instance>& all,
                bool guillotine, const Settings& settings, Report& report) {
  report.add(fmt::format("\n## {}\n\n", title));
  if (all.empty()) {
    report.add("The data is not here; nothing was run.\n");
    report.data[name] = "data absent";
    return;
  }
  std::vector<std::map<std::string, Row>> rows(settings.seconds.size());
  double work = 0, spent = 0;
  for (std::size_t s = 0; s < settings.seconds.size(); ++s)
    for (std::size_t i = 0; i < all.size(); i += settings.every) {
      auto solved = solve(all[i], settings.seconds[s], guillotine, report);
      rows[s][all[i].family].add(solved["gap_percent"], solved["proved"]);
      rows[s]["**all**"].add(solved["gap_percent"], solved["proved"]);
      work += solved["work"].get<double>(), spent += solved["cpu_seconds"].get<double>();
      solved["seconds_allowed"] = settings.seconds[s];
      report.data[name].push_back(std::move(solved));
    }
  std::string rule = "|---|---|";
  std::string table = "| family | number |";
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
  report.add(table + fmt::format("\n{:.0f} million steps of the search a second.\n", work / spent / 1e6));
}

std::vector<Instance> published(const Settings& settings) {
  return read_instances(settings.data / "rect" / "strip-packing.json");
}

} // namespace

void report_rectangles(const Settings& settings, Report& report) {
  report_set("rectangles", "Published rectangles, free, against the best known", published(settings), false,
             settings, report);
}

void report_straight_cuts(const Settings& settings, Report& report) {
  auto all = published(settings);
  all.erase(std::remove_if(all.begin(), all.end(), [](const auto& i) { return !i.best_guillotine; }),
            all.end());
  report_set("straight", "Published rectangles, by straight cuts, against the best known", all, true,
             settings, report);
}

void report_bwmv(const Settings& settings, Report& report) {
  report_set("bwmv", "Berkey and Wang, Martello and Vigo, free, against our bound",
             read_instances(settings.data / "rect" / "bwmv-100.json"), false, settings, report);
}

} // namespace treadfold::bench
