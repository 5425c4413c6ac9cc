// One report of how good the layouts are: a JSON file of every answer, and a Markdown file of tables. Each
// set of instances adds its part to both.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace treadfold::bench {

struct Settings {
  std::vector<double> seconds{0.1, 1, 10}; // of CPU time for each instance, on one thread
  std::vector<std::string> sets;           // by name; empty: all
  std::size_t every = 1;                   // of rectangles: each so-many-th instance only
  unsigned jobs = 300;                     // of stairs
  unsigned seed = 1;                       // of the search for outlines
  std::filesystem::path data, out = ".";
};

struct Report {
  nlohmann::json data;
  std::string table;
  int wrong = 0; // answers that break a promise

  /// To the tables, and to who waits for them.
  void add(const std::string& lines);
  void say_wrong(const std::string& instance, const std::string& breach);
};

/// CPU time and memory to come within 2 % of the bound; draws growth.svg into settings.out.
void report_growth(const Settings& settings, Report& report);
/// Published rectangles: against the best known length.
void report_rectangles(const Settings& settings, Report& report);
/// Those of them whose best known length by straight cuts is published.
void report_straight_cuts(const Settings& settings, Report& report);
/// Berkey and Wang's, and Martello and Vigo's: against our own bound.
void report_bwmv(const Settings& settings, Report& report);
/// Published true outlines.
void report_outlines(const Settings& settings, Report& report);
/// Stairs of our own making.
void report_stairs(const Settings& settings, Report& report);

} // namespace treadfold::bench
