// Writes report.json and report.md over all sets.
//   bench_report [--seconds 0.1,1,10] [--sets growth,rectangles,straight,bwmv,outlines,stairs] [--every N]
//                [--jobs 300] [--seed 1] [--data DIR] [--out DIR]
// Ends with 1 if an answer was wrong, or a bound above a known optimum.
#include "report.h"

#include "instances.h"

#include <algorithm>
#include <fmt/format.h>
#include <fstream>
#include <iostream>
#include <sstream>
#include <stdexcept>

namespace treadfold::bench {

void Report::add(const std::string& lines) {
  table += lines;
  std::cout << lines << std::flush;
}

void Report::say_wrong(const std::string& instance, const std::string& breach) {
  std::cerr << instance << ": " << breach << "\n";
  ++wrong;
}

namespace {

struct Set {
  const char* name;
  void (*add)(const Settings&, Report&);
};
/// Growth comes first, while this process is still small: its own begin as copies of it.
constexpr Set kSets[] = {{"growth", report_growth},          {"rectangles", report_rectangles},
                         {"straight", report_straight_cuts}, {"bwmv", report_bwmv},
                         {"outlines", report_outlines},      {"stairs", report_stairs}};

std::vector<std::string> names(const std::string& list) {
  std::vector<std::string> out;
  std::istringstream words(list);
  for (std::string one; std::getline(words, one, ',');) {
    if (std::none_of(std::begin(kSets), std::end(kSets), [&](const Set& s) { return one == s.name; }))
      throw std::invalid_argument(fmt::format("--sets: no set is called '{}'", one));
    out.push_back(one);
  }
  return out;
}

unsigned whole(const std::string& name, const std::string& value) {
  const bool digits =
      !value.empty() && value.size() < 10 && value.find_first_not_of("0123456789") == value.npos;
  if (!digits || std::stoul(value) == 0)
    throw std::invalid_argument(fmt::format("{}: '{}' is no whole number from 1 on", name, value));
  return static_cast<unsigned>(std::stoul(value));
}

std::vector<double> seconds(const std::string& value) {
  try {
    return numbers(value);
  } catch (const std::exception&) {
    throw std::invalid_argument(fmt::format("--seconds: '{}' is no list like 0.1,1,10", value));
  }
}

Settings read_settings(const std::vector<std::string>& words) {
  Settings s;
  s.data = SOURCE_DIR "/../shared/bench";
  for (std::size_t i = 0; i < words.size(); i += 2) {
    const auto& name = words[i];
    if (i + 1 == words.size()) throw std::invalid_argument(name + ": its value is missing");
    const auto& value = words[i + 1];
    if (name == "--seconds")
      s.seconds = seconds(value);
    else if (name == "--sets")
      s.sets = names(value);
    else if (name == "--every")
      s.every = whole(name, value);
    else if (name == "--jobs")
      s.jobs = whole(name, value);
    else if (name == "--seed")
      s.seed = whole(name, value);
    else if (name == "--data")
      s.data = value;
    else if (name == "--out")
      s.out = value;
    else
      throw std::invalid_argument(fmt::format("there is no option '{}'", name));
  }
  return s;
}

void save(const Settings& settings, const Report& report) {
  std::ofstream(settings.out / "report.json") << report.data.dump(1) << "\n";
  std::ofstream(settings.out / "report.md") << report.table;
}

int run(const Settings& settings) {
  std::filesystem::create_directories(settings.out);
  Report report;
  report.data = {{"machine", machine()}, {"threads", 1}, {"seconds_allowed", settings.seconds}};
  report.add(fmt::format("# How good the layouts are\n\n{}; one thread; CPU time; the order of every input "
                         "shuffled.\n",
                         machine()));
  for (const auto& [name, add] : kSets) {
    if (!settings.sets.empty() &&
        std::find(settings.sets.begin(), settings.sets.end(), name) == settings.sets.end())
      continue;
    add(settings, report);
    save(settings, report); // what is done is kept, should the rest be stopped
  }
  report.add(fmt::format("\nAnswers that break a promise, in all sets: {}.\n", report.wrong));
  report.data["wrong"] = report.wrong;
  save(settings, report);
  std::cout << "\nwritten: " << (settings.out / "report.md").string() << "\n";
  return report.wrong > 0 ? 1 : 0;
}

} // namespace
} // namespace treadfold::bench

int main(int argc, char** argv) {
  try {
    return treadfold::bench::run(treadfold::bench::read_settings({argv + 1, argv + argc}));
  } catch (const std::exception& problem) {
    std::cerr << "bench_report: " << problem.what() << "\n";
    return 2;
  }
}
