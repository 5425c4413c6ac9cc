// A layout made shorter and shorter.
#pragma once

#include "cut/pack/detail.h"
#include "cut/pack/separation.h"

namespace treadfold::pack {

/// The strip is cut down a little and the pieces moved apart again: over and over, by as much at once as can
/// be had in a few tries, two pieces swapped between tries. When little succeeds, the tries become more.
class Shortening {
public:
  Shortening(Detail& detail, const Bundle& bundle, Ticks bound, Dice& dice, Effort& effort);
  void run();

  const std::vector<Lying>& best() const { return best_; }
  Ticks length() const { return length_; }

private:
  bool done() { return length_ <= bound_ || effort_.over(); }
  const Shape& shape(const Lying& l) const { return no_fits_->shape(l.shape); }
  bool finer();
  Ticks end(const std::vector<Lying>& lying) const;
  void take(std::vector<Lying> lying);
  void first();
  bool shrink(double share, int tries);
  std::vector<Lying> pushed_into(Ticks target);
  void swap_two(std::vector<Lying>& lying, Ticks target);

  Detail& detail_;
  const Bundle& bundle_;
  Ticks bound_;
  Dice& dice_;
  Effort& effort_;
  std::unique_ptr<NoFits> no_fits_;
  std::unique_ptr<Separation> separation_;
  std::vector<Lying> best_;
  Ticks length_ = 0;
};

} // namespace treadfold::pack
