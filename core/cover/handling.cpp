#include "cover/handling.h"

#include "cover/section.h"
#include "measure/step_list.h"

#include <algorithm>
#include <fmt/format.h>
#include <numbers>

namespace treadfold {

namespace {

constexpr double kRight = std::numbers::pi / 2;
constexpr double kLeastTurn = kRight / 2 + 1e-6;  // a bevel's two halves are no folds
constexpr Length kMostRounding = inches(0, 1, 2); // ADA 504; IRC and IBC: 9/16 in

/// A fold over wood, or over the pad on it.
struct Fold {
  std::string what;
  Length arris, pad;
  Length thickness; // of the board
  std::vector<const Step*> steps;
  Length radius() const { return arris + pad; }
};

class Folds {
public:
  Folds(const Flight& flight, const Carpet& carpet, Length pad) {
    for (const auto& step : flight.steps)
      add(step, flight.style, carpet, pad);
  }
  const std::vector<Fold>& all() const { return folds_; }

private:
  void add(const Step& step, CoverStyle style, const Carpet& carpet, Length pad) {
    const bool open = !step.left.closed() || !step.right.closed();
    const auto s = section_of(
        {step, step.open_riser || step.starter ? CoverStyle::wrapped : style, pad.mm(), carpet.backing.mm()});
    const auto& nosing = step.nosing;
    if (nosing.bevel == Length{})
      add(step, "over the nosing", nosing.radius, pad);
    else if (open) // whose edge has no bevel
      add(step, "over the open end", nosing.radius, pad);
    if (s.under)
      add(step, open ? "under the nosing and the open end's lip" : "under the nosing", nosing.radius, {});
    else if (open)
      add(step, "under the open end's lip", nosing.radius, {});
    else if (s.turn > kLeastTurn)
      add(step, "where the drop leaves the nosing", nosing.radius, {});
  }

  void add(const Step& step, const char* what, Length arris, Length pad) {
    const Length thickness = step.nosing.thickness;
    const auto same = std::find_if(folds_.begin(), folds_.end(), [&](const Fold& f) {
      return f.what == what && f.arris == arris && f.thickness == thickness;
    });
    if (same != folds_.end())
      same->steps.push_back(&step);
    else
      folds_.push_back({what, arris, pad, thickness, {&step}});
  }

  std::vector<Fold> folds_;
};

std::vector<int> numbers(const std::vector<const Step*>& steps) {
  std::vector<int> out;
  for (const auto* step : steps)
    out.push_back(step->number);
  return out;
}

std::string kind(const Carpet& carpet) {
  return carpet.construction == Construction::tufted  ? "tufted"
         : carpet.construction == Construction::woven ? "woven"
                                                      : "this";
}

std::string least_told(const Carpet& carpet, LengthUnit unit) {
  const auto least = show_length(*carpet.min_fold_radius, unit);
  return carpet.fold_radius_told ? fmt::format("at least {}, the job's min_fold_radius", least)
                                 : fmt::format("at least {}, usual for {} goods", least, kind(carpet));
}

/// What makes room for a fold.
std::string remedy(const Fold& fold, const Carpet& carpet, LengthUnit unit) {
  const Length round = *carpet.min_fold_radius - fold.pad;
  const auto to = show_length(round, unit);
  if (round > kMostRounding)
    return fmt::format("cut and seam it there; an arris rounded to {} is more than stair codes allow", to);
  if (round * 2 > fold.thickness)
    return fmt::format("cut and seam it there; the board is too thin to round to {}", to);
  return fmt::format("round the arris to {}, or cut and seam it there", to);
}

} // namespace

Problems check_folds(const Flight& flight, const Carpet& carpet, Length pad, const TackStrip& strip,
                     LengthUnit unit) {
  Problems problems;
  if (!carpet.min_fold_radius) return problems;
  const auto where = [&](const std::vector<const Step*>& steps) {
    return steps.size() == 1 ? steps.front()->where : flight.where;
  };
  const Folds folds(flight, carpet, pad);
  for (const auto& fold : folds.all())
    if (fold.radius() < *carpet.min_fold_radius)
      problems.push_back({Severity::warning, where(fold.steps),
                          fmt::format("a fold of radius {} {} at {}", show_length(fold.radius(), unit),
                                      fold.what, step_list(numbers(fold.steps))),
                          fmt::format("{}: {}", least_told(carpet, unit), remedy(fold, carpet, unit)),
                          numbers(fold.steps)});
  std::vector<const Step*> open;
  for (const auto& step : flight.steps)
    if (!step.open_riser && !step.starter && (!step.left.closed() || !step.right.closed()))
      open.push_back(&step);
  if (!open.empty() && !takes_hem(carpet, strip))
    problems.push_back(
        {Severity::warning, where(open),
         fmt::format("a hem {} thick at {}, folded at a radius of {}",
                     show_length(*carpet.min_fold_radius * 2, unit), step_list(numbers(open)),
                     show_length(*carpet.min_fold_radius, unit)),
         fmt::format(
             "no thicker than the strip, {}: so the drop has no hem; it ends flush with the riser's end, "
             "and its edge is to be bound",
             show_length(strip.thickness, unit)),
         numbers(open)});
  return problems;
}

bool takes_hem(const Carpet& carpet, const TackStrip& strip) {
  return !carpet.min_fold_radius || *carpet.min_fold_radius * 2 <= strip.thickness;
}

Allowances allowances_for(const Allowances& allowances, const Carpet& carpet, const TackStrip& strip) {
  auto out = allowances;
  if (!takes_hem(carpet, strip)) out.hem = {};
  return out;
}

Length fraying_edges(const Piece& piece, const Carpet& carpet) {
  if (carpet.construction != Construction::woven) return {};
  Length edges = (piece.cut_width + piece.cut_length) * 2;
  for (const auto& line : piece.lines)
    if (line.role == LineRole::trim) edges += from_mm_up(length_mm(line.points));
  if (!piece.steps.empty() && piece.trim_back > Length{}) edges += piece.net_width;
  return edges;
}

} // namespace treadfold
