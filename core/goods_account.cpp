#include "goods_account.h"

#include <algorithm>

namespace treadfold {
namespace {

constexpr double kSquareMillimetre = 1e-6;

double area_m2(Length width, Length length) { return width.mm() * length.mm() * kSquareMillimetre; }

} // namespace

GoodsAccount goods_account(const Plan& plan, const Layout& layout) {
  GoodsAccount account;
  double cut = 0, usable = 0;
  Length used;
  for (const auto& roll : layout.rolls) {
    if (roll.remnant) continue;
    account.ordered += area_m2(roll.width, roll.length_to_buy);
    account.sold += area_m2(roll.width, roll.length_to_buy - roll.length_used);
    account.selvage += area_m2(roll.selvage * 2, roll.length_used);
    usable += area_m2(roll.width - roll.selvage * 2, roll.length_used);
    used += roll.length_used;
    for (const auto& placement : roll.placements) {
      cut += static_cast<double>(covered_area(placement.width, placement.length, placement.outline)) *
             Length{1}.mm() * Length{1}.mm() * kSquareMillimetre;
      const auto planned = std::find_if(plan.pieces.begin(), plan.pieces.end(),
                                        [&](const PlannedPiece& p) { return p.piece.id == placement.piece; });
      if (planned != plan.pieces.end()) account.net += net_area_mm2(planned->piece) * kSquareMillimetre;
    }
  }
  account.trims = cut - account.net;
  const double without = used.mm() > 0 ? layout.length_without_pattern.mm() / used.mm() : 1;
  account.pattern = usable * std::max(0.0, 1 - without);
  account.beside = usable - cut - account.pattern;
  return account;
}

} // namespace treadfold
