// Jobs of earlier versions, brought up to date before they are read.
#pragma once

#include "job/json_tree.h"

#include <span>

namespace treadfold {

/// Changes a tree of one version into a tree of the next.
using Upgrade = void (*)(Node& root);

/// Upgrades in order: the first makes version 2 of version 1. Version 1 is the first, so there is none yet.
std::span<const Upgrade> upgrades();

/// Reads "treadfold" and applies what is missing of `chain`; the newest version is chain.size() + 1. False,
/// with one error, when the version is missing, no whole number, or newer than that.
bool bring_up_to_date(Node& root, std::span<const Upgrade> chain, Findings& findings);

} // namespace treadfold
