#include "stair_jobs.h"

#include "plan.h"

#include <nlohmann/json.hpp>

#include <cstdlib>
#include <iostream>
#include <random>

namespace treadfold::bench {
namespace {

using Json = nlohmann::ordered_json;

class Maker {
public:
  explicit Maker(unsigned number) : random_(number) {}

  Json job() {
    const int flights = between(1, 3);
    int steps = between(9, 40);
    Json list = Json::array();
    for (int f = 0; f < flights; ++f) {
      const int left = flights - f;
      const int risers =
          left == 1 ? steps : std::max(3, std::min(steps - 3 * (left - 1), steps / left + between(-2, 2)));
      steps -= risers;
      list.push_back(flight(f, risers));
    }
    Json stair{{"name", "Stair"}, {"flights", list}};
    if (chance(50))
      stair["floors"] = {
          {{"name", "landing"},
           {"carpet", "goods"},
           {"front", sixteenths(560, 720)},
           {"corners",
            {{{"along", "35"}, {"off", sixteenths(560, 900)}}, {{"left_of", "0"}, {"off", "35"}}}}}};
    return {{"treadfold", 1},
            {"units", "in"},
            {"paper", "letter"},
            {"code", "none"},
            {"site", {{"title", "Bench"}}},
            {"stairs", {stair}},
            {"carpets", {goods()}},
            {"cushion",
             {{"name", "Cushion"}, {"thickness", "3/8"}, {"roll_width", "6'"}, {"roll_length", "45'"}}},
            {"strip", {{"stock_length", "4'"}}},
            {"finished_floors", {{"foot", "0"}, {"landing", "0"}}}};
  }

private:
  int between(int least, int most) {
    return least + static_cast<int>(random_() % static_cast<unsigned>(most - least + 1));
  }
  bool chance(int percent) { return between(1, 100) <= percent; }
  static std::string inches_of(int n) {
    return std::to_string(n / 16) + " " + std::to_string(n % 16) + "/16";
  }
  std::string sixteenths(int least, int most) { return inches_of(between(least, most)); }

  Json side() {
    if (chance(70)) return chance(50) ? "wall" : "skirt";
    return {{"open", {{"overhang", "1 1/4"}, {"return", "1"}}}};
  }

  Json flight(int number, int risers) {
    const bool winds = risers >= 8 && chance(25);
    const int width = winds ? 36 * 16 : between(30 * 16, 48 * 16);
    Json f{
        {"name", "flight " + std::to_string(number + 1)},
        {"risers", risers},
        {"rise", sixteenths(112, 126)},
        {"going", winds ? "10" : sixteenths(150, 176)},
        {"width", inches_of(width)},
        {"nosing", {{"projection", "1"}, {"thickness", "1"}, {"profile", "square"}, {"arris_radius", "1/8"}}},
        {"left", winds ? Json("skirt") : side()},
        {"right", winds ? Json("wall") : side()},
        {"pile", "down"},
        {"cover", chance(80) ? "waterfall" : "wrapped"},
        {"carpet", "goods"},
        {"join", winds || chance(70) ? 1 : between(2, 3)}};
    Json steps = Json::object();
    if (winds) {
      // Round a newel in a square corner, the tape square to each nosing.
      const int first = between(2, risers - 4);
      const auto at = [&](int i) { return std::to_string(first + i); };
      steps[at(0)] = {{"tread",
                       {{"front", "35 3/4"},
                        {"back_right", {{"along", "35 3/4"}, {"off", "24 11/16"}}},
                        {"back_left", {{"left_of", "1 1/16"}, {"off", "3 1/2"}}}}}};
      steps[at(1)] = {{"tread",
                       {{"front", "41 1/2"},
                        {"right_corner", {{"along", "50 3/4"}, {"off", "16"}}},
                        {"back_right", {{"along", "35 3/4"}, {"off", "24 11/16"}}},
                        {"back_left", {{"left_of", "1 1/16"}, {"off", "3 1/2"}}}}}};
      steps[at(2)] = {{"tread",
                       {{"front", "42 5/8"},
                        {"back_right", {{"along", "30 1/4"}, {"off", "21 1/2"}}},
                        {"back_left", {{"left_of", "1 1/16"}, {"off", "3 1/2"}}}}}};
    } else if (chance(60)) { // no two steps are quite alike
      for (int i = 1; i <= risers; ++i)
        if (chance(40)) steps[std::to_string(i)] = {{"width", inches_of(width - between(0, 12))}};
    }
    if (!steps.empty()) f["steps"] = steps;
    return f;
  }

  Json goods() {
    static constexpr const char* kWidths[] = {"12'", "13' 2", "13' 6", "15'"};
    static constexpr const char* kSold[] = {"1", "3", "6", "12"};
    Json g{{"id", "goods"},
           {"name", "Goods"},
           {"widths", {kWidths[between(0, 3)]}},
           {"selvage", chance(50) ? "0" : "1/2"},
           {"roll_length", "100'"},
           {"sold_in", kSold[between(0, 3)]},
           {"backing", "1/8"},
           {"thickness", "1/2"}};
    if (chance(33))
      g["pattern"] = {{"width", sixteenths(96, 576)},
                      {"length", sixteenths(96, 576)},
                      {"match", chance(50) ? "set" : "half-drop"}};
    return g;
  }

  std::mt19937 random_;
};

} // namespace

StairJob stair_job(unsigned number) {
  const auto text = Maker(number).job().dump();
  const auto reading = read_job(text);
  for (const auto& p : reading.problems)
    if (p.severity == Severity::error) {
      std::cerr << "stair job " << number << ": " << sentence(p) << "\n" << text << "\n";
      std::exit(1);
    }
  const auto plan = covered(reading);
  return {cut_pieces(plan, plan.job.carpets.front()), plan.job.carpets.front()};
}

} // namespace treadfold::bench
