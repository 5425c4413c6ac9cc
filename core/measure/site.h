// Who the work is for and where: text only, carried to the quote and the work order.
#pragma once

#include <string>
#include <vector>

namespace treadfold {

struct Site {
  std::string title;
  std::string customer, address, contact;
  std::string installer, installer_contact;
  std::string date;                // as written; the core has no clock
  std::vector<std::string> access; // how to get there and in
  std::vector<std::string> notes;  // steps as found, substrate, furniture
};

} // namespace treadfold
