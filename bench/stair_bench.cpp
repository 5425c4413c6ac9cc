// How often the order for a stair is proved the least that can be bought, and how far off the bound it is
// where it is not: jobs of our own.
#include "instances.h"
#include "report.h"
#include "stair_jobs.h"

#include "cut/check.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold::bench {
namespace {

struct Row {
  int count = 0, proved = 0;
  double gaps = 0, worst = 0;
};

/// Of the length used over the bound, in hundredths.
double gap(const Layout& layout) {
  Length used;
  for (const auto& roll : layout.rolls)
    used += roll.length_used;
  return 100 * (used.mm() / layout.lower_bound.mm() - 1);
}

/// Work is raised until it is proved, or the next would take too long.
Layout best_within(const std::vector<CutPiece>& pieces, const Carpet& carpet, double seconds) {
  Layout best;
  for (int work = 500;; work *= 2) {
    LayoutOptions options;
    options.work = work;
    Problems problems;
    const double start = cpu_seconds();
    auto layout = lay_out(pieces, carpet, options, problems);
    const double spent = cpu_seconds() - start;
    if (spent > seconds && !best.rolls.empty()) return best;
    best = std::move(layout);
    if (best.proved_least || 2 * spent > seconds) return best;
  }
}

std::string table_of(const char* title, const std::vector<double>& seconds, const std::vector<Row>& rows) {
  std::string table = fmt::format("\n### {}\n\n| CPU s | jobs | proved least to buy | mean gap of length to "
                                  "bound % | worst |\n|---|---|---|---|---|\n",
                                  title);
  for (std::size_t s = 0; s < seconds.size(); ++s)
    if (rows[s].count > 0)
      table +=
          fmt::format("| {} | {} | {:.1f} % | {:.2f} | {:.2f} |\n", seconds[s], rows[s].count,
                      100.0 * rows[s].proved / rows[s].count, rows[s].gaps / rows[s].count, rows[s].worst);
  return table;
}

} // namespace

void report_stairs(const Settings& settings, Report& report) {
  std::vector<Row> all(settings.seconds.size()), plain = all, patterned = all, all_close = all,
                                                 plain_close = all, patterned_close = all;
  for (unsigned number = 1; number <= settings.jobs; ++number) {
    const auto job = stair_job(number);
    for (const bool close : {false, true}) {
      auto carpet = job.carpet;
      carpet.laid = close ? Laid::close : Laid::straight;
      for (std::size_t s = 0; s < settings.seconds.size(); ++s) {
        const auto layout = best_within(job.pieces, carpet, settings.seconds[s]);
        for (const auto& breach : check_layout(job.pieces, carpet, layout))
          report.say_wrong(fmt::format("stair job {}", number), breach);
        const auto count = [&](Row& row) {
          ++row.count, row.proved += layout.proved_least;
          row.gaps += gap(layout), row.worst = std::max(row.worst, gap(layout));
        };
        count(close ? all_close[s] : all[s]);
        if (carpet.pattern)
          count(close ? patterned_close[s] : patterned[s]);
        else
          count(close ? plain_close[s] : plain[s]);
        report.data["stairs"].push_back({{"number", number},
                                         {"seconds_allowed", settings.seconds[s]},
                                         {"pieces", job.pieces.size()},
                                         {"patterned", carpet.pattern.has_value()},
                                         {"close", close},
                                         {"proved", layout.proved_least},
                                         {"gap_percent", gap(layout)},
                                         {"bound", layout.bound_name}});
      }
    }
  }
  report.add(fmt::format("\n## Stairs: {} jobs of our own\n", settings.jobs) +
             table_of("All", settings.seconds, all) +
             table_of("All, laid close", settings.seconds, all_close) +
             table_of("Plain goods", settings.seconds, plain) +
             table_of("Plain goods laid close", settings.seconds, plain_close) +
             table_of("Patterned goods", settings.seconds, patterned) +
             table_of("Patterned goods laid close", settings.seconds, patterned_close));
}

} // namespace treadfold::bench
