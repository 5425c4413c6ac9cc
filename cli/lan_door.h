// Who may come in from the network: a device on which the code was entered that the command shows.
//
// Guarantees
//  1. A code lets one device in; the next needs the next code.
//  2. After five wrong codes nobody else comes in until the command is started again: a code of six digits is
//  found by guessing
//     once in 200 000 starts.
//  3. Codes and sessions are compared in a time that does not depend on where they differ.
#pragma once

#include "http.h"

#include <mutex>
#include <string>
#include <vector>

namespace treadfold {

class LanDoor {
public:
  /// `home`: where a device goes once it is in, such as "/".
  explicit LanDoor(std::string home);

  std::string code() const; // six digits
  bool lets_in(const Request& request) const;

  /// To a device that is not in: the page that asks for the code, and what comes of it. `let_in`: whether it
  /// now is.
  Response answer(const Request& request, bool& let_in);

private:
  bool session_is_known(const std::string& session) const;

  const std::string home_;
  mutable std::mutex mutex_; // of all below
  std::string code_;
  std::vector<std::string> sessions_;
  int wrong_ = 0;
};

/// Takes as long wherever they differ.
bool same_secret(const std::string& a, const std::string& b);

} // namespace treadfold
