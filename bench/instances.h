// Published instances of strip packing, read in place. They are not part of the project.
#pragma once

#include "cut/pack/strip.h"

#include <filesystem>
#include <optional>
#include <random>
#include <string>
#include <vector>

namespace treadfold::bench {

struct Instance {
  std::string name, family;
  pack::Ticks width = 0;
  std::vector<pack::Box> boxes;    // shuffled: some files list them in the order that gives the answer away
  std::optional<pack::Ticks> best; // best known length, free
  bool optimal = false;            // and known to be the least
  std::optional<pack::Ticks> best_guillotine;
};

/// Fisher-Yates, so that it comes out the same with every library.
template <class Item>
void shuffle(std::vector<Item>& items, unsigned seed) {
  std::mt19937 random(seed);
  for (std::size_t i = items.size(); i > 1; --i)
    std::swap(items[i - 1], items[random() % i]);
}

/// All of a file, or none if it is not there.
std::vector<Instance> read_instances(const std::filesystem::path& file);

/// Boxes of our own making, for growth: widths of a twentieth to six tenths of the strip's 1000, lengths
/// alike.
Instance random_instance(int boxes, unsigned seed);

/// The same like the pieces of stairs: 28 to 50 in wide and 15 to 30 in long on 12 ft goods, in sixteenths.
Instance random_stair_pieces(int boxes, unsigned seed);

/// What is wrong with the answer, found without the search's help; empty if nothing.
std::string breach(const Instance& instance, const pack::StripAnswer& answer, bool guillotine);

/// "0.1,1,10" as numbers.
std::vector<double> numbers(const std::string& list);

/// CPU seconds of this process so far.
double cpu_seconds();

/// The most memory that this process has used so far, in MB.
double peak_megabytes();

/// The machine's processor, its count of them, and the compiler.
std::string machine();

} // namespace treadfold::bench
