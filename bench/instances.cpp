#include "instances.h"

#include "cut/pack/straight_cuts.h"

#include <algorithm>
#include <ctime>
#include <fmt/format.h>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
#include <sstream>
#include <sys/resource.h>
#include <thread>

namespace treadfold::bench {
namespace {

std::optional<pack::Ticks> number(const nlohmann::json& of, const char* name) {
  if (!of.contains(name) || of[name].is_null()) return std::nullopt;
  return of[name].get<pack::Ticks>();
}

} // namespace

std::vector<Instance> read_instances(const std::filesystem::path& file) {
  std::ifstream in(file);
  if (!in) return {};
  std::vector<Instance> all;
  for (const auto& j : nlohmann::json::parse(in)) {
    Instance i;
    i.name = j["name"], i.family = j["class"];
    i.width = j["strip_width"];
    for (const auto& item : j["items"])
      i.boxes.insert(i.boxes.end(), item.size() > 2 ? item[2].get<std::size_t>() : 1, {item[0], item[1]});
    shuffle(i.boxes, 20240);
    i.best = number(j, "best_known"), i.best_guillotine = number(j, "best_known_guillotine");
    i.optimal = j.value("optimal", false);
    all.push_back(std::move(i));
  }
  return all;
}

namespace {

struct Range {
  pack::Ticks least, most;
};

Instance random_boxes(int boxes, unsigned seed, pack::Ticks width, Range widths, Range lengths) {
  std::mt19937 random(seed);
  const auto one_of = [&random](Range r) {
    return r.least + static_cast<pack::Ticks>(random() % static_cast<unsigned>(r.most - r.least + 1));
  };
  Instance i;
  i.name = fmt::format("{} boxes", boxes), i.family = "growth", i.width = width;
  for (int k = 0; k < boxes; ++k) {
    const auto w = one_of(widths);
    i.boxes.push_back({w, one_of(lengths)});
  }
  return i;
}

} // namespace

Instance random_instance(int boxes, unsigned seed) {
  return random_boxes(boxes, seed, 1000, {50, 600}, {50, 600});
}

Instance random_stair_pieces(int boxes, unsigned seed) {
  return random_boxes(boxes, seed, 144 * 16, {28 * 16, 50 * 16}, {15 * 16, 30 * 16});
}

std::string breach(const Instance& instance, const pack::StripAnswer& answer, bool guillotine) {
  const auto& boxes = instance.boxes;
  if (answer.at.size() != boxes.size()) return "not every box is packed";
  // Boxes that end at or before the line where another begins are never looked at again.
  std::vector<std::size_t> order(boxes.size());
  for (std::size_t i = 0; i < order.size(); ++i)
    order[i] = i;
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return answer.at[a].v < answer.at[b].v; });
  std::vector<std::size_t> open;
  for (const std::size_t i : order) {
    const auto& p = answer.at[i];
    if (p.u < 0 || p.v < 0 || p.u + boxes[i].w > instance.width || p.v + boxes[i].l > answer.length)
      return "a box leaves the strip";
    open.erase(std::remove_if(open.begin(), open.end(),
                              [&](std::size_t k) { return answer.at[k].v + boxes[k].l <= p.v; }),
               open.end());
    for (const std::size_t k : open)
      if (answer.at[k].u < p.u + boxes[i].w && p.u < answer.at[k].u + boxes[k].w) return "boxes overlap";
    open.push_back(i);
  }
  if (guillotine && !pack::straight_cuts(boxes, answer.at, instance.width).possible)
    return "no straight cuts free every box";
  if (instance.best && instance.optimal && answer.length < *instance.best) return "shorter than the optimum";
  if (instance.best && answer.bound > *instance.best) return "the bound is above a known length";
  return {};
}

std::vector<double> numbers(const std::string& list) {
  std::vector<double> out;
  std::istringstream words(list);
  for (std::string one; std::getline(words, one, ',');)
    out.push_back(std::stod(one));
  return out;
}

double cpu_seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

double peak_megabytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return static_cast<double>(usage.ru_maxrss) / 1024;
}

std::string machine() {
  std::string cpu = "unknown processor";
  std::ifstream info("/proc/cpuinfo");
  for (std::string line; std::getline(info, line);)
    if (line.rfind("model name", 0) == 0) {
      cpu = line.substr(line.find(':') + 2);
      break;
    }
  return fmt::format("{}, {} processors, gcc {}", cpu, std::thread::hardware_concurrency(), __VERSION__);
}

} // namespace treadfold::bench
