#include "recut.h"

#include "recut_pieces.h"
#include "units/words.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr int kWork = 300; // orders tried, of each way

bool contains(const std::vector<std::string>& list, const std::string& word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

bool asks_for(const Cutting& cutting, const Way& way) {
  return cutting.way == way.how && (cutting.remnant.empty() || cutting.remnant == way.remnant);
}

/// Reads one carpet's cutting against its layout.
class Judge {
public:
  Judge(const Plan& plan, const Cutting& cutting, const Layout& layout, Problems& problems)
      : plan_(plan), cutting_(cutting), layout_(layout), problems_(problems) {}

  void run() {
    for (std::size_t i = 0; i < cutting_.cut.size(); ++i)
      piece(fmt::format("/cut/{}", i), cutting_.cut[i]);
    for (std::size_t i = 0; i < cutting_.spoiled.size(); ++i) {
      const auto& spoiled = cutting_.spoiled[i];
      piece(fmt::format("/spoiled/{}", i), spoiled.piece);
      if (const auto* at = place(spoiled.piece))
        if (spoiled.sound_width > at->width || spoiled.sound_length > at->length)
          refuse(fmt::format("/spoiled/{}", i), fmt::format("more sound than {} was large", spoiled.piece),
                 fmt::format("no more than {} × {}", show(at->width), show(at->length)));
    }
    stretch();
  }

private:
  std::string show(Length x) const { return show_length(x, plan_.job.unit, true); }

  void refuse(const std::string& where, std::string found, std::string expected) {
    problems_.push_back({Severity::error, cutting_.where + where, std::move(found), std::move(expected)});
  }

  const Placement* place(const std::string& id) const {
    for (const auto& roll : layout_.rolls)
      for (const auto& p : roll.placements)
        if (p.piece == id) return &p;
    return nullptr;
  }

  void piece(const std::string& where, const std::string& id) {
    if (!place(id))
      refuse(where, fmt::format("'{}'", id),
             fmt::format("a piece of carpet '{}', such as {}", cutting_.carpet,
                         layout_.rolls.front().placements.front().piece));
    else if (!told_.insert(id).second)
      refuse(where, fmt::format("{} again", id), "each piece once: it is good or it is spoiled");
  }

  /// Nothing was cut beyond its end.
  void stretch() {
    std::vector<std::string> stocks;
    const RollLayout* of = nullptr;
    for (const auto& roll : layout_.rolls) {
      stocks.push_back("'" + roll.stock + "'");
      if (!of && (cutting_.of.empty() ? !roll.remnant : roll.stock == cutting_.of)) of = &roll;
    }
    if (!of && !(cutting_.of.empty() && !cutting_.roll_length && cutting_.flaws.empty()))
      return refuse("/of", cutting_.of.empty() ? "nothing" : fmt::format("'{}'", cutting_.of),
                    fmt::format("one of {}", joined(stocks)));
    if (!of || !cutting_.roll_length) return;
    for (const auto& p : of->placements)
      if (told_.contains(p.piece) && p.v + p.length > *cutting_.roll_length)
        return refuse("/roll_length", show(*cutting_.roll_length),
                      fmt::format("at least {}, where {} was cut from it", show(p.v + p.length), p.piece));
  }

  const Plan& plan_;
  const Cutting& cutting_;
  const Layout& layout_;
  Problems& problems_;
  std::set<std::string> told_;
};

class Finding {
public:
  Finding(const Plan& plan, const Carpet& carpet, const Layout& layout, const Cutting& cutting)
      : plan_(plan), carpet_(carpet), layout_(layout), cutting_(cutting), planned_(cut_pieces(plan, carpet)) {
  }

  Recut run() {
    answer_.carpet = carpet_.id, answer_.cut = cutting_.cut;
    for (const auto& spoiled : cutting_.spoiled)
      answer_.spoiled.push_back(spoiled.piece);
    for (const auto& piece : planned_)
      if (!contains(answer_.cut, piece.id)) rest_.push_back(piece), answer_.to_cut.push_back(piece.id);
    if (!rest_.empty()) try_all();
    std::stable_sort(answer_.ways.begin(), answer_.ways.end(), [](const Way& a, const Way& b) {
      return a.recovered.length_to_buy < b.recovered.length_to_buy;
    });
    const auto asked = std::find_if(answer_.ways.begin(), answer_.ways.end(),
                                    [&](const Way& way) { return asks_for(cutting_, way); });
    if (asked != answer_.ways.end()) answer_.taken = static_cast<std::size_t>(asked - answer_.ways.begin());
    return std::move(answer_);
  }

private:
  void try_all() {
    if (found(Remedy::as_planned, "all that can stay is cut as planned", {}, {})) return;
    if (found(Remedy::laid_anew, "all that is not cut is laid out anew", {}, {})) return;
    for (const auto& remnant : unused_remnants())
      if (found(Remedy::other_remnant, fmt::format("remnant '{}' is used too", remnant.name), {}, {remnant}))
        return;
    if (const auto smaller = without_joins(plan_, carpet_, answer_.to_cut); !smaller.empty())
      if (found(Remedy::smaller_join, "joined pieces are cut step by step: " + names(smaller), smaller, {}))
        return;
    if (const auto seamed = seamed_under_nosings(plan_, rest_); !seamed.empty())
      found(Remedy::hidden_seam, "pieces are seamed under their nosing: " + names(seamed), seamed, {});
  }

  /// Tries one more. Whether that is enough: one fits, and the one asked for is among them.
  bool found(Remedy how, std::string words, std::vector<Replaced> replaced, std::vector<Remnant> more) {
    fit_ = fits(how, std::move(words), std::move(replaced), std::move(more)) || fit_;
    return fit_ && (!cutting_.way || std::any_of(answer_.ways.begin(), answer_.ways.end(),
                                                 [&](const Way& way) { return asks_for(cutting_, way); }));
  }

  static std::string names(const std::vector<Replaced>& replaced) {
    std::vector<std::string> ids;
    for (const auto& r : replaced)
      ids.push_back(r.piece);
    return joined(ids);
  }

  bool fits(Remedy how, std::string words, std::vector<Replaced> replaced, std::vector<Remnant> more) {
    std::vector<CutPiece> wanted;
    for (const auto& piece : rest_) {
      const auto by = std::find_if(replaced.begin(), replaced.end(),
                                   [&](const Replaced& r) { return r.piece == piece.id; });
      if (by == replaced.end())
        wanted.push_back(piece);
      else
        wanted.insert(wanted.end(), by->by.begin(), by->by.end());
    }
    RecoverOptions options;
    options.keep_plan = how == Remedy::as_planned;
    const std::string remnant = more.empty() ? "" : more.front().name;
    options.more = std::move(more), options.work = kWork, options.unit = plan_.job.unit;
    auto recovered = recover(planned_, wanted, carpet_, layout_, cutting_, options);
    if (!recovered.why_not.empty()) {
      answer_.why_not = recovered.why_not;
      return false;
    }
    const bool fit = recovered.length_to_buy == Length{};
    answer_.ways.push_back({how, std::move(words), remnant, std::move(replaced), std::move(recovered)});
    return fit;
  }

  /// With a pattern a remnant's motif is not known to go on from what is cut.
  std::vector<Remnant> unused_remnants() const {
    std::vector<Remnant> unused;
    for (const auto& remnant : carpet_.remnants) {
      const bool used = std::any_of(layout_.rolls.begin(), layout_.rolls.end(), [&](const auto& roll) {
        return roll.remnant && roll.stock == remnant.name;
      });
      if (!used && !carpet_.pattern && !carpet_.dye_lot.empty() && remnant.dye_lot == carpet_.dye_lot)
        unused.push_back(remnant);
    }
    return unused;
  }

  const Plan& plan_;
  const Carpet& carpet_;
  const Layout& layout_;
  const Cutting& cutting_;
  const std::vector<CutPiece> planned_;
  std::vector<CutPiece> rest_;
  bool fit_ = false; // one of them needs nothing bought
  Recut answer_;
};

} // namespace

Recuts recut(const Plan& plan) {
  Recuts recuts;
  const auto layout_of = [&](const Cutting& cutting) {
    return std::find_if(plan.layouts.begin(), plan.layouts.end(), [&](const Layout& layout) {
      return layout.carpet == cutting.carpet && !layout.rolls.empty();
    });
  };
  for (const auto& cutting : plan.job.cuttings) {
    if (const auto layout = layout_of(cutting); layout != plan.layouts.end())
      Judge(plan, cutting, *layout, recuts.problems).run();
    else
      recuts.problems.push_back({Severity::error, cutting.where + "/carpet",
                                 fmt::format("'{}', of which nothing is laid out", cutting.carpet),
                                 "a carpet in use whose pieces fit its rolls"});
  }
  if (plan.job.cuttings.empty())
    recuts.problems.push_back(
        {Severity::error, "/cutting", "nothing", "what is cut and what is spoiled, one entry a carpet"});
  if (has_errors(recuts.problems)) return recuts;
  for (const auto& cutting : plan.job.cuttings) {
    const auto carpet = std::find_if(plan.job.carpets.begin(), plan.job.carpets.end(),
                                     [&](const Carpet& c) { return c.id == cutting.carpet; });
    const auto& found =
        recuts.carpets.emplace_back(Finding(plan, *carpet, *layout_of(cutting), cutting).run());
    if (cutting.way && !found.ways.empty() && !asks_for(cutting, found.ways[found.taken]))
      recuts.problems.push_back(
          {Severity::warning, cutting.where + "/way",
           fmt::format("'{}', which is no way out here", word(*cutting.way)),
           fmt::format("a way that there is; the best is taken: {}", found.ways[found.taken].words)});
  }
  return recuts;
}

} // namespace treadfold
