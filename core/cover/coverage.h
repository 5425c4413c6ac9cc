// How much of a bare face the folded carpet covers.
#pragma once

#include "cover/bare_faces.h"
#include "cover/placed_face.h"
#include "cover/refold.h"

#include <optional>

namespace treadfold {

/// Shares of about 24 × 24 samples, the outermost 0.2 mm inside the edges, where a piece too small would show
/// first, and all round each upright as near. Empty when all of the face is left open on purpose.
std::optional<Coverage> coverage(const BareFace& face, const std::vector<PlacedFace>& placed);

} // namespace treadfold
