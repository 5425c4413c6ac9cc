// A port on which requests are answered until Ctrl-C.
#pragma once

#include "http.h"

#include <csignal>
#include <functional>

namespace treadfold {

class Listener {
public:
  /// From here on SIGINT and SIGTERM are kept back until run() meets them.
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
  sigset_t waiting_; // the signals that are kept back while it waits: not those that end it
};

} // namespace treadfold
