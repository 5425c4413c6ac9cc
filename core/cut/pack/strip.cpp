#include "cut/pack/strip.h"

#include "cut/bound.h"
#include "cut/pack/dice.h"
#include "cut/pack/exact.h"
#include "cut/pack/floors.h"
#include "cut/pack/full_rows.h"
#include "cut/pack/scales.h"
#include "cut/pack/slit.h"

#include <algorithm>
#include <cassert>
#include <numeric>
#include <optional>

namespace treadfold::pack {
namespace {

constexpr int kSenses = 5;       // of "large", for beams
constexpr int kSliceChoices = 4; // pieces tried in each part
constexpr int kNarrowRounds = 6; // of beams, from the first on
// Up to so many boxes the exact search gets as much work as the beam, up to fewer three times as much.
constexpr int kFewBoxes = 30, kExactBoxes = 45;
constexpr int kExactSenses[] = {5, 0, 2};       // of "large": in a niche the long ones first is worse
constexpr double kExactBlur = 0.1;              // of orders, when each has been tried as it is
constexpr std::int64_t kFirstExact = 1'000'000; // and at least this
// Up to so many boxes, on strips up to so wide, pieces may be slit. United where they differ by no more than
// this share they get a quarter of the beam's work, as they are as much as the beam.
constexpr int kSlitBoxes = 100;
constexpr Ticks kWidestSlit = 1 << 15;
constexpr double kAlike = 0.03;
constexpr std::int64_t kMostWorth = 4'000'000; // for what pieces are worth
constexpr std::int64_t kAskEvery = 200'000;
// Linear programs pay for so many kinds and boxes. They get a quarter more of the work, at least this.
constexpr std::size_t kMostScaled = 60;
constexpr int kMostScaledBoxes = 1000;
constexpr std::int64_t kFirstScales = 8'000'000;
// From so many boxes on, values for ever more classes of widths are sought between beams; from many more on
// rows by them are packed, twice before the first beam, for then nothing is so good.
constexpr int kSomeBoxes = 50, kManyBoxes = 200;
constexpr Ticks kFewestClasses = 144, kMostClasses = 1152;
constexpr std::int64_t kFirstRows = 6000; // steps for each box
constexpr int kWindows[] = {12, 24, 48, 96};

/// Kinds from the largest to the smallest in one of six senses, each size blurred by up to `blur` of itself.
Order order_by(const Sheet& sheet, int sense, double blur, Dice& dice) {
  std::vector<double> size;
  for (const auto& k : sheet.kinds) {
    const auto w = static_cast<double>(k.w), l = static_cast<double>(k.l);
    const double of[] = {w * l, l, w, w / static_cast<double>(sheet.width) + l, std::max(w, l), w + l};
    size.push_back(of[sense] * (1 + (blur > 0 ? blur * dice.share() : 0)));
  }
  Order order(sheet.kinds.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&size](int a, int b) {
    return size[static_cast<std::size_t>(a)] > size[static_cast<std::size_t>(b)];
  });
  return order;
}

/// Boxes nearly as large as another become as small as it.
Sheet united(const Sheet& sheet) {
  auto kinds = sheet.kinds;
  std::stable_sort(kinds.begin(), kinds.end(), [](const Kind& a, const Kind& b) { return a.l < b.l; });
  const auto alike = [](Ticks small, Ticks large) {
    return small <= large && static_cast<double>(large) <= static_cast<double>(small) * (1 + kAlike);
  };
  std::vector<Box> boxes;
  for (std::size_t i = 0; i < kinds.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j)
      if (alike(kinds[j].w, kinds[i].w) && alike(kinds[j].l, kinds[i].l)) {
        kinds[i].w = kinds[j].w, kinds[i].l = kinds[j].l;
        break;
      }
    boxes.insert(boxes.end(), static_cast<std::size_t>(kinds[i].count), Box{kinds[i].w, kinds[i].l});
  }
  return sheet_of(boxes, sheet.width);
}

/// The first rounds take the sizes as they are; wide beams have the room to stray from them.
double blur(int round) { return round < 3 ? 0 : round < kNarrowRounds ? 0.2 : 0.3; }

/// Pieces tried in each niche. Few leave room in a beam for packings that began differently; but where they
/// do not suffice the piece that is needed is never tried, so that wide beams take turns.
int niche_choices(int round) { return 2 + round % (round < kNarrowRounds ? 2 : 4); }

/// The portfolio. Targets shorter than the best packing are set, each a rectangle to be filled along the
/// strip or across it; the effort doubles from round to round.
class Search {
public:
  /// `unit`: of the sheet's lengths, in those of the options.
  Search(const Sheet& sheet, Ticks bound, Ticks unit, const StripOptions& options)
      : sheet_(sheet), options_(options), unit_(unit), dice_(options.seed), low_(bound) {
    if (options_.should_stop)
      stop_ = [this] {
        if (stopped_ || work_ < ask_at_) return stopped_;
        ask_at_ = work_ + kAskEvery;
        return stopped_ = options_.should_stop();
      };
  }
  void run();

  const std::vector<Placed>& best() const { return best_; }
  Ticks length() const { return high_; }
  Ticks bound() const { return low_; }
  /// Why nothing is shorter, if the search found a better reason than it was given.
  const char* bound_name() const { return bound_name_; }
  std::int64_t work() const { return work_; }

private:
  bool done() const { return cheaper() < low_ || work_ >= options_.work || stopped_; }
  /// The greatest length that is less to buy than the best.
  Ticks cheaper() const {
    return ((high_ * unit_ + options_.sold_in - 1) / options_.sold_in - 1) * options_.sold_in / unit_;
  }
  std::int64_t rest(std::int64_t wish) const { return std::min(wish, options_.work - work_); }
  void take(std::vector<Placed> placed, bool across);
  void first_packings();
  void rows();
  void raise_bound();
  std::optional<std::vector<Placed>> fill(const Sheet& sheet, Ticks top, bool across, int round);
  std::int64_t beams(int round);
  void exact(int round, std::int64_t most_work);
  void slits(int round, std::int64_t most_work);

  const Sheet& sheet_;
  const StripOptions& options_;
  const Ticks unit_;
  Dice dice_;
  Ticks low_, high_ = 0;
  const char* bound_name_ = nullptr;
  std::optional<Scales> scales_;
  std::int64_t scales_work_ = 0;   // beside the search's
  Ticks not_refuted_ = kNoLimit;   // the least length that conservative scales let pass
  Ticks classes_ = kFewestClasses; // of widths, for rows
  std::int64_t work_ = 0;
  std::vector<Placed> best_;
  std::function<bool()> stop_;
  std::int64_t ask_at_ = 0;
  bool stopped_ = false;
  struct Rectangle {
    Ticks target = -1;
    Sheet sheet;
    std::optional<Exact> search;
    void reset(Sheet s, Ticks top, Ticks t) {
      target = t, sheet = std::move(s);
      search.emplace(sheet, top);
    }
  };
  Rectangle rectangles_[4]; // along and across the strip, for the lower target and the upper
  struct MaySlit {
    MaySlit(Sheet s, bool is_united) : sheet(std::move(s)), united(is_united) {}
    Sheet sheet;
    bool united;
    std::vector<Worth> worths;
    Ticks target = -1, fits_from = kNoLimit;
    std::optional<Slit> search;
  };
  std::vector<MaySlit> may_slit_;
};

void Search::take(std::vector<Placed> placed, bool across) {
  Ticks length = 0;
  for (auto& p : placed) {
    if (across) std::swap(p.u, p.v);
    length = std::max(length, p.v + sheet_.kinds[static_cast<std::size_t>(p.kind)].l);
  }
  if (!best_.empty() && length >= high_) return;
  best_ = std::move(placed), high_ = length;
}

/// Always succeeds: every box finds room behind all others.
void Search::first_packings() {
  std::vector<int> all;
  for (const auto& k : sheet_.kinds)
    all.push_back(k.count);
  Greedy greedy;
  GreedySlices slices;
  SliceRule rule;
  rule.rows = true, rule.hand = options_.longest_in_hand / unit_;
  const Ticks top = sheet_.all_lengths;
  for (int sense = 0; sense < kSenses && (best_.empty() || !done()); ++sense) {
    const Order order = order_by(sheet_, sense, 0, dice_);
    if (options_.guillotine) {
      slices.complete(sheet_, {{0, 0, sheet_.width, top, true}}, all, order, rule, 0, kNoLimit, work_);
      take(slices.placed(), false);
    } else {
      greedy.complete(sheet_, Skyline(sheet_.width), all, order, top, 0, kNoLimit, work_);
      take(greedy.placed(), false);
    }
  }
}

/// By values for `classes_` of widths, and where the program came to its end, next time for twice as many. Of
/// some boxes for what the values prove, at a small part of the work done so far; of many for the rows too.
void Search::rows() {
  if (classes_ > kMostClasses) return;
  const bool many = sheet_.boxes >= kManyBoxes;
  const std::int64_t most = many ? std::max(kFirstRows * sheet_.boxes, work_ / 4) : work_ / 16;
  std::int64_t spent = 0;
  const auto values = row_values(sheet_, classes_, most, spent);
  work_ += spent;
  if (spent < most) classes_ *= 2;
  if (values.bound > low_) low_ = values.bound, bound_name_ = "conservative scales across and along";
  for (const int window : kWindows)
    if (many && !done() && work_of_full_rows(sheet_, window) <= most)
      take(full_rows(sheet_, values, window, work_), false);
}

/// By conservative scales: first whether less to buy is impossible, then how much of it is.
void Search::raise_bound() {
  if (done() || options_.known_bound > 0 || sheet_.kinds.size() > kMostScaled ||
      sheet_.boxes > kMostScaledBoxes)
    return;
  if (!scales_) scales_.emplace(sheet_);
  const std::int64_t most = std::max(kFirstScales, work_ / 4);
  for (Ticks length = cheaper(); low_ < not_refuted_ && cheaper() >= low_ && scales_work_ < most;
       length = low_ + (not_refuted_ - low_) / 2) {
    if (length >= not_refuted_) continue;
    if (scales_->too_short(length, most - scales_work_, scales_work_))
      low_ = length + 1, bound_name_ = "conservative scales across and along";
    else if (scales_work_ < most)
      not_refuted_ = length;
  }
}

std::optional<std::vector<Placed>> Search::fill(const Sheet& sheet, Ticks top, bool across, int round) {
  const Order order = order_by(sheet, round % kSenses, blur(round), dice_);
  const auto* stop = stop_ ? &stop_ : nullptr;
  const int width = 1 << std::min(round, 20);
  if (options_.guillotine) {
    SliceRule rule;
    rule.transposed = across, rule.hand = options_.longest_in_hand / unit_;
    rule.taste = static_cast<int>(4 * dice_.share());
    SliceFloor floor(sheet, top, order, kSliceChoices, rule, work_);
    return Beam<SliceFloor>(sheet, floor, width, stop).run(sheet.width * top, work_, options_.work);
  }
  SkylineFloor floor(sheet, top, order, niche_choices(round), work_);
  return Beam<SkylineFloor>(sheet, floor, width, stop).run(sheet.width * top, work_, options_.work);
}

/// Along the strip and across it. The work it took.
std::int64_t Search::beams(int round) {
  const std::int64_t before = work_;
  for (const bool across : {false, true})
    for (bool found = true; found && !done();) { // again and again, shorter
      const Ticks target =
          std::min(cheaper(), high_ - std::max<Ticks>(1, (high_ - low_) >> std::min(round + 1, 62)));
      auto filled = across ? fill(transposed(sheet_, target), sheet_.width, true, round)
                           : fill(sheet_, target, false, round);
      found = filled.has_value();
      if (found) take(std::move(*filled), across);
    }
  return work_ - before;
}

/// Tries at filling or refusing rectangles of the lower target and the upper, along the strip and across it.
void Search::exact(int round, std::int64_t most_work) {
  const bool no_waste = sheet_.width * low_ == sheet_.area; // then it fails soonest where it fails
  const int turns = no_waste ? 2 : 4;
  for (int turn = 0; turn < turns && !done(); ++turn) {
    const bool across = turn % 2 == 1;
    const bool lower = no_waste || (turn < 2) == (round % 2 == 0);
    const Ticks target = lower ? low_ : cheaper();
    auto& rectangle = rectangles_[(lower ? 0 : 2) + (across ? 1 : 0)];
    if (rectangle.target != target)
      rectangle.reset(across ? transposed(sheet_, target) : sheet_, across ? sheet_.width : target, target);
    const int sense = kExactSenses[static_cast<std::size_t>(round + turn) % std::size(kExactSenses)];
    const Order order = order_by(rectangle.sheet, sense, round < 3 ? 0 : kExactBlur, dice_);
    const auto verdict =
        rectangle.search->run(order, rest(most_work / turns), stop_ ? &stop_ : nullptr, work_);
    if (verdict == Verdict::fits) take(rectangle.search->placed(), across);
    if (verdict == Verdict::impossible) low_ = target + 1, bound_name_ = "no shorter packing exists";
  }
}

/// Whether pieces that may be slit do not fit what is less to buy; where they do, whether not half way
/// between that and what is proved. Those nearly alike first, for then most is decided soonest.
void Search::slits(int round, std::int64_t most_work) {
  if (sheet_.boxes > kSlitBoxes || sheet_.width > kWidestSlit) return;
  if (may_slit_.empty()) {
    may_slit_.emplace_back(united(sheet_), true);
    if (sheet_.boxes <= kExactBoxes) may_slit_.emplace_back(sheet_, false);
  }
  for (auto& s : may_slit_) {
    const Ticks target = std::min(cheaper(), low_ + (s.fits_from - low_) / 2);
    if (done() || target >= s.fits_from) continue;
    if (s.worths.empty())
      s.worths = {worth_by_width(s.sheet, work_), worth_by_program(s.sheet, rest(kMostWorth), work_)};
    if (s.target != target) s.search.emplace(s.sheet, target, s.worths), s.target = target;
    const Order order = order_by(s.sheet, round % kSenses, blur(round), dice_);
    const auto verdict =
        s.search->run(order, rest(s.united ? most_work / 4 : most_work), stop_ ? &stop_ : nullptr, work_);
    if (verdict == Verdict::fits) s.fits_from = target;
    if (verdict == Verdict::impossible) low_ = target + 1, bound_name_ = "no shorter packing exists";
    if (!s.united && !s.search->placed().empty()) take(s.search->placed(), false);
  }
}

void Search::run() {
  first_packings();
  for (int i = 0; i < 2 && sheet_.boxes >= kManyBoxes && !done(); ++i)
    rows();
  for (int round = 0; !done(); ++round) {
    if (sheet_.boxes >= kSomeBoxes) rows();
    const std::int64_t spent = beams(round);
    raise_bound();
    if (options_.guillotine) continue;
    if (sheet_.width * low_ > sheet_.area) slits(round, spent);
    if (sheet_.boxes > kExactBoxes) continue;
    exact(round, sheet_.boxes <= kFewBoxes ? std::max(3 * spent, kFirstExact) : spent);
  }
}

} // namespace

StripAnswer pack_strip(const std::vector<Box>& boxes, Ticks width, const StripOptions& options) {
  StripAnswer answer;
  if (boxes.empty()) return answer;
  // In the coarsest whole units: what is left over of the width serves nobody.
  Ticks unit_w = 0, unit_l = 0;
  for (const auto& b : boxes)
    unit_w = std::gcd(unit_w, b.w), unit_l = std::gcd(unit_l, b.l);
  assert(unit_w > 0 && unit_l > 0);
  std::vector<Box> small;
  std::vector<rows::Rect> rects;
  for (const auto& b : boxes) {
    small.push_back({b.w / unit_w, b.l / unit_l});
    rects.push_back({b.w / unit_w, b.l / unit_l});
  }
  const Sheet sheet = sheet_of(small, width / unit_w);
  const auto bound = rows::bound_without_pattern(rects, sheet.width);
  const Ticks known = (options.known_bound + unit_l - 1) / unit_l;
  Search search(sheet, std::max(bound.length, known), unit_l, options);
  search.run();
  answer.at = spots_of(sheet, search.best());
  for (auto& s : answer.at)
    s = {s.u * unit_w, s.v * unit_l};
  answer.length = search.length() * unit_l;
  answer.bound = search.bound() * unit_l;
  answer.bound_name = search.bound_name()    ? search.bound_name()
                      : known > bound.length ? "known before"
                                             : bound.name;
  answer.work = search.work();
  return answer;
}

} // namespace treadfold::pack
