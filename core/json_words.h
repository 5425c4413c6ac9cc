// Words that plan.json and fold.json share.
#pragma once

#include "cover/piece.h"

namespace treadfold {

inline const char* name(LineRole role) {
  switch (role) {
  case LineRole::fold:
    return "fold";
  case LineRole::cut:
    return "cut";
  case LineRole::seam:
    return "seam";
  case LineRole::hem:
    return "hem";
  case LineRole::tuck:
    return "tuck";
  case LineRole::trim:
    return "trim";
  case LineRole::strip:
    return "strip";
  case LineRole::glue:
    return "glue";
  }
  return "";
}

} // namespace treadfold
