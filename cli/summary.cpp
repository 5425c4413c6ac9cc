#include "summary.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <map>

namespace treadfold {
namespace {

constexpr double kSquareYard_m2 = 0.83612736;
constexpr std::size_t kLabel = 10;

std::string counted(std::size_t n, const std::string& noun) {
  return fmt::format("{} {}{}", n, noun, n == 1 ? "" : "s");
}

std::string joined(const std::vector<std::string>& words, const std::string& between) {
  return fmt::format("{}", fmt::join(words, between));
}

const char* word(Severity severity) {
  switch (severity) {
  case Severity::error:
    return "error";
  case Severity::warning:
    return "warning";
  case Severity::note:
    return "note";
  }
  return "";
}

std::size_t count(const Problems& problems, Severity severity) {
  return static_cast<std::size_t>(std::count_if(problems.begin(), problems.end(),
                                                [&](const Problem& p) { return p.severity == severity; }));
}

/// The summary's lines; a label stands in the first column of the first line of its paragraph.
struct Screen {
  std::vector<std::string> lines;
  std::string label;

  void add(const std::string& text) {
    lines.push_back(printable(fmt::format("{:<{}}{}", label, kLabel, text), kScreenColumns));
    label.clear();
  }
};

std::string what_was_planned(const Plan& plan) {
  std::size_t flights = 0, steps = 0, floors = 0;
  for (const auto& stair : plan.job.stairs) {
    flights += stair.flights.size();
    floors += stair.floors.size();
    for (const auto& flight : stair.flights)
      steps += flight.steps.size();
  }
  std::vector<std::string> parts{counted(plan.job.stairs.size(), "stair")};
  if (flights != plan.job.stairs.size()) parts.push_back(counted(flights, "flight"));
  parts.push_back(counted(steps, "step"));
  if (floors > 0) parts.push_back(counted(floors, "floor"));
  return joined(parts, ", ") + ", " + counted(plan.pieces.size(), "piece");
}

std::string proofs(const Plan& plan) {
  std::vector<std::string> failed;
  for (const auto& piece : plan.pieces)
    if (!piece.proof.passed) failed.push_back(piece.piece.id);
  if (failed.empty()) return "every piece, folded again, fits its step";
  return fmt::format("DO NOT CUT {}: folded again, {}", joined(failed, ", "),
                     failed.size() == 1 ? "it does not fit its step" : "they do not fit their steps");
}

std::string commonest_cut(const Plan& plan, LengthUnit unit) {
  std::map<std::pair<Length, Length>, std::size_t> sizes;
  for (const auto& piece : plan.pieces)
    ++sizes[{piece.piece.cut_width, piece.piece.cut_length}];
  const auto most = std::max_element(sizes.begin(), sizes.end(),
                                     [](const auto& a, const auto& b) { return a.second < b.second; });
  const std::string size =
      fmt::format("{} of {} wide x {} long", most->second, show_length(most->first.first, unit),
                  show_length(most->first.second, unit));
  return sizes.size() == 1 ? size : size + fmt::format(", the commonest of {} sizes", sizes.size());
}

std::string name_of(const Plan& plan, const std::string& carpet) {
  for (const auto& c : plan.job.carpets)
    if (c.id == carpet && !c.name.empty()) return c.name;
  return carpet;
}

double area_m2(Length width, Length length) { return width.mm() * length.mm() / 1e6; }

std::string area(double m2, LengthUnit unit) {
  return unit == LengthUnit::inch ? fmt::format("{:.2f} sq yd", m2 / kSquareYard_m2)
                                  : fmt::format("{:.2f} m2", m2);
}

void show_carpet(Screen& screen, const Plan& plan, const Layout& layout) {
  const LengthUnit unit = plan.job.unit;
  const auto name = name_of(plan, layout.carpet);
  std::vector<std::string> from_remnants;
  const RollLayout* roll = nullptr;
  for (const auto& r : layout.rolls)
    if (r.remnant)
      from_remnants.push_back(r.stock);
    else
      roll = &r;
  const auto remnants = from_remnants.empty() ? "" : " and remnant " + joined(from_remnants, ", ");
  if (!roll) {
    screen.add(
        fmt::format("{}: nothing to buy, all from {}", name, remnants.substr(remnants.empty() ? 0 : 5)));
    return;
  }
  const double ordered = area_m2(roll->width, roll->length_to_buy);
  double used = 0;
  for (const auto& p : roll->placements)
    used += area_m2(p.width, p.length);
  screen.add(fmt::format("{}: {} off the {} roll{}", name, show_length(roll->length_to_buy, unit, true),
                         show_length(roll->width, unit, true), remnants));
  const auto least = show_length(layout.lower_bound, unit, true);
  screen.add(fmt::format("{} ordered, {:.0f} % of it waste; {}", area(ordered, unit),
                         ordered > 0 ? 100 * (1 - used / ordered) : 0.0,
                         layout.proved_least
                             ? "the layout is the least possible"
                             : fmt::format("the layout uses {}, none under {}",
                                           show_length(roll->length_used, unit, true), least)));
}

void show_shopping(Screen& screen, const Takeoff& takeoff, std::size_t most) {
  const auto shown = takeoff.lines.size() <= most ? takeoff.lines.size() : most - 1;
  for (std::size_t i = 0; i < shown; ++i) {
    const auto& line = takeoff.lines[i];
    screen.add(line.counted ? fmt::format("{}: {:.6g} {}", line.item, line.quantity, line.unit)
                            : fmt::format("{}: {}", line.item, line.need));
  }
  if (shown < takeoff.lines.size())
    screen.add(fmt::format("and {} more on the shopping list", takeoff.lines.size() - shown));
}

void show_problems(Screen& screen, const Problems& problems, std::size_t most) {
  screen.add(tally(problems) + (problems.size() > most ? "; treadfold check lists them all" : ""));
  const auto text = listing(problems, std::string::npos);
  std::size_t at = 0;
  for (std::size_t i = 0; i < std::min(problems.size(), most); ++i) {
    const auto end = text.find('\n', at);
    screen.add(text.substr(at, end - at));
    at = end + 1;
  }
}

} // namespace

std::string printable(const std::string& text, std::size_t columns) {
  std::string out;
  std::size_t width = 0, cut_at = 0; // cut_at: where to cut if it turns out too long
  for (std::size_t i = 0; i < text.size();) {
    const auto byte = static_cast<unsigned char>(text[i]);
    const std::size_t bytes = byte < 0xC0 ? 1 : byte < 0xE0 ? 2 : byte < 0xF0 ? 3 : 4;
    const bool c1_control =
        byte == 0xC2 && i + 1 < text.size() && static_cast<unsigned char>(text[i + 1]) < 0xA0;
    if (width + 3 == columns) cut_at = out.size();
    if (width == columns) return out.substr(0, cut_at) + "...";
    if (byte < 0x20 || byte == 0x7F || c1_control)
      out += '?';
    else
      out += text.substr(i, bytes);
    i += bytes;
    ++width;
  }
  return out;
}

std::string tally(const Problems& problems) {
  std::vector<std::string> parts;
  for (const auto severity : {Severity::error, Severity::warning, Severity::note})
    if (const auto n = count(problems, severity); n > 0) parts.push_back(counted(n, word(severity)));
  return parts.empty() ? "no problems" : joined(parts, ", ");
}

std::string listing(const Problems& problems, std::size_t most) {
  std::string text;
  std::size_t shown = 0;
  for (const auto severity : {Severity::error, Severity::warning, Severity::note})
    for (const auto& problem : problems)
      if (problem.severity == severity && shown++ < most)
        text += fmt::format("{}: {}\n", word(severity), printable(sentence(problem)));
  if (shown > most) text += fmt::format("and {} more\n", shown - most);
  return text;
}

std::string summary(const Plan& plan, const Written& written) {
  const LengthUnit unit = plan.job.unit;
  Screen screen;
  screen.lines.push_back(
      printable(plan.job.site.title.empty() ? "Plan" : plan.job.site.title, kScreenColumns));
  screen.lines.push_back(printable(what_was_planned(plan), kScreenColumns));
  screen.label = "Fit";
  screen.add(proofs(plan));
  if (!plan.pieces.empty()) {
    screen.label = "Cut";
    screen.add(commonest_cut(plan, unit));
  }
  screen.label = "Carpet";
  constexpr std::size_t kMostCarpets = 3;
  for (std::size_t i = 0; i < std::min(plan.layouts.size(), kMostCarpets); ++i)
    show_carpet(screen, plan, plan.layouts[i]);
  if (plan.layouts.size() > kMostCarpets)
    screen.add(fmt::format("and {} more carpets", plan.layouts.size() - kMostCarpets));
  screen.label = "Buy";
  show_shopping(screen, plan.takeoff, 7 - std::min<std::size_t>(plan.layouts.size(), 3));
  screen.label = "Price";
  const auto& quote = plan.quote;
  screen.add(
      show_money(quote.total, quote.currency) +
      (quote.tax.cents != 0 ? fmt::format(", {} of it tax", show_money(quote.tax, quote.currency)) : "") +
      (quote.deposit.cents != 0 ? fmt::format("; deposit {}", show_money(quote.deposit, quote.currency))
                                : ""));
  screen.label = "Check";
  show_problems(screen, plan.problems, 3);
  screen.label = "Sheets";
  screen.add(fmt::format("{}/all-sheets.pdf", written.folder));
  screen.add(fmt::format("and {} there", counted(written.files - 1, "more file")));
  assert(screen.lines.size() <= kScreenLines);
  return joined(screen.lines, "\n") + "\n";
}

} // namespace treadfold
