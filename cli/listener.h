// A port on which requests are answered until Ctrl-C.
#pragma once

#include "http.h"

#include <functional>

namespace treadfold {

class Listener {
public:
  /// `every_address`: false listens on this machine's own 127.0.0.1 alone. `port` 0 takes any that is free.
  /// Throws FileError.
  Listener(bool every_address, int port);
  ~Listener();
  Listener(const Listener&) = delete;
  Listener& operator=(const Listener&) = delete;

  int port() const { return port_; }

  /// Returns after SIGINT or SIGTERM. `answer` is called from several threads at once.
  void run(const std::function<Response(const Request&)>& answer) const;

private:
  int socket_, port_;
};

} // namespace treadfold
