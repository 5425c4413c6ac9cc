#include "job/upgrade.h"

#include "job/job.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {

std::span<const Upgrade> upgrades() {
  static_assert(kJobVersion == 1, "add the upgrade from the version before, and a test with an old job");
  return {};
}

bool bring_up_to_date(Node& root, std::span<const Upgrade> chain, Findings& findings) {
  if (root.kind != Node::Kind::object) {
    findings.error("", shown(root), "a job: an object in { }");
    return false;
  }
  const auto newest = static_cast<double>(chain.size() + 1);
  const Node* version = root.find("treadfold");
  if (!version) {
    findings.error("/treadfold", "nothing", fmt::format("the job file's version, {}", newest));
    return false;
  }
  if (version->kind != Node::Kind::number || version->number < 1 ||
      std::trunc(version->number) != version->number) {
    findings.error("/treadfold", shown(*version), fmt::format("the job file's version, {}", newest));
    return false;
  }
  if (version->number > newest) {
    findings.error("/treadfold", fmt::format("version {}, which is newer than this program", shown(*version)),
                   fmt::format("version {} or earlier", newest));
    return false;
  }
  for (auto from = static_cast<std::size_t>(version->number); from <= chain.size(); ++from)
    chain[from - 1](root);
  return true;
}

} // namespace treadfold
