// A word on standard error about whatever takes longer than a second.
#pragma once

#include <condition_variable>
#include <mutex>
#include <string>
#include <thread>

namespace treadfold {

/// Says what is being done once it has been going on for a second: "treadfold: drawing the sheets …".
class Progress {
public:
  explicit Progress(std::string doing);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

private:
  std::mutex mutex_;
  std::condition_variable finished_;
  bool done_ = false;
  std::thread clock_;
};

} // namespace treadfold
