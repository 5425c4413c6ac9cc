// Outlines in more and more detail.
#pragma once

#include "cut/pack/lying.h"

namespace treadfold::pack {

/// The shapes to search with: at first with many dents filled, since fewer convex parts are quicker; later as
/// they are. From one to the next they lose of what was filled in, so that what is apart stays apart; ids are
/// the outlines' indices. An outline with more than 24 dents keeps up to 0.3 % of its area filled for good.
class Detail {
public:
  /// Of outlines that begin at (0, 0). Work is added to `work`.
  Detail(std::vector<Outline> outlines, std::int64_t& work);

  /// The next finer shapes; null if there are none.
  std::unique_ptr<NoFits> finer();

private:
  std::vector<Outline> outlines_, filled_;
  std::int64_t& work_;
  std::size_t next_ = 0;
};

} // namespace treadfold::pack
