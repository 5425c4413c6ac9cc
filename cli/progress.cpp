#include "progress.h"

#include <fmt/format.h>

#include <chrono>
#include <cstdio>
#include <utility>

namespace treadfold {

Progress::Progress(std::string doing)
    : clock_([this, doing = std::move(doing)] {
        std::unique_lock lock(mutex_);
        if (!finished_.wait_for(lock, std::chrono::seconds(1), [this] { return done_; }))
          fmt::print(stderr, "treadfold: {} ...\n", doing);
      }) {}

Progress::~Progress() {
  {
    const std::lock_guard lock(mutex_);
    done_ = true;
  }
  finished_.notify_one();
  clock_.join();
}

} // namespace treadfold
