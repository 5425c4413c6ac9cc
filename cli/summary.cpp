#include "summary.h"

#include "units/chance.h"
#include "units/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>

namespace treadfold {
namespace {

constexpr double kSquareYard_m2 = 0.83612736;
constexpr std::size_t kLabel = 10;

std::string counted(std::size_t n, const std::string& noun) {
  return fmt::format("{} {}{}", n, noun, n == 1 ? "" : "s");
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

/// Where each letter of UTF-8 text begins, and where the last one ends.
std::vector<std::size_t> letters(const std::string& text) {
  std::vector<std::size_t> starts;
  for (std::size_t i = 0; i < text.size(); ++i)
    if ((static_cast<unsigned char>(text[i]) & 0xC0) != 0x80) starts.push_back(i);
  starts.push_back(text.size());
  return starts;
}

std::string cut_to(const std::string& text, std::size_t columns) {
  const auto at = letters(text);
  return at.size() - 1 <= columns ? text : text.substr(0, at[columns - 3]) + "...";
}

/// The summary's lines; a label stands before the first line of its paragraph.
struct Screen {
  std::vector<std::string> lines;
  std::string label;

  /// One paragraph, broken between words, in at most `most` lines.
  void add(const std::string& text, std::size_t most = 1) {
    constexpr std::size_t columns = kScreenColumns - kLabel;
    std::string rest = printable(text);
    for (; most > 1 && letters(rest).size() - 1 > columns; --most) {
      const auto limit = letters(rest)[columns];
      const auto space = rest.rfind(' ', limit);
      const auto end = space == std::string::npos || space == 0 ? limit : space;
      put(rest.substr(0, end));
      rest.erase(0, end == space ? end + 1 : end);
    }
    put(cut_to(rest, columns));
  }

private:
  void put(const std::string& line) {
    lines.push_back(fmt::format("{:<{}}{}", label, kLabel, line));
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

/// Of the stair that is least sure.
std::string certainty(const Plan& plan) {
  const auto& stair = *std::max_element(plan.certainty.begin(), plan.certainty.end(),
                                        [](const auto& a, const auto& b) { return a.chance < b.chance; });
  const auto unit = plan.job.unit;
  return fmt::format("any piece comes up short: {} ({} across and {} along over net: {})",
                     show_chance(stair.chance), show_length(stair.least_across, unit),
                     show_length(stair.least_along, unit), show_chance(kShortChance));
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
  std::vector<std::string> names;
  std::size_t cuts = 0; // longer than can be had in one cut, the order comes in several
  Length width, to_buy, long_in_all;
  double ordered = 0, used = 0;
  for (const auto& roll : layout.rolls) {
    if (roll.remnant) {
      names.push_back(roll.stock);
      continue;
    }
    ++cuts;
    width = roll.width;
    to_buy += roll.length_to_buy;
    long_in_all += roll.length_used;
    ordered += area_m2(roll.width, roll.length_to_buy);
    for (const auto& p : roll.placements)
      used += static_cast<double>(covered_area(p.width, p.length, p.outline)) * Length{1}.mm() *
              Length{1}.mm() * 1e-6;
  }
  const auto remnants = joined(names, ", ");
  if (cuts == 0) {
    screen.add(name + (names.empty() ? ": no layout, see below" : ": nothing to buy, all from " + remnants));
    return;
  }
  const double waste = ordered > 0 ? 100 * (1 - used / ordered) : 0;
  screen.add(fmt::format("{}: {} of {} roll{}, {}, {:.0f} % waste{}", name, show_length(to_buy, unit, true),
                         show_length(width, unit, true), cuts > 1 ? fmt::format(" in {} cuts", cuts) : "",
                         area(ordered, unit), waste, names.empty() ? "" : ", and from " + remnants),
             2);
  const auto uses = fmt::format("the layout is {} long", show_length(long_in_all, unit, true));
  screen.add(layout.proved_least ? uses + ", the least possible"
                                 : fmt::format("{}; none can be under {}", uses,
                                               show_length(layout.lower_bound, unit, true)));
}

/// All but the carpet, which has its own paragraph.
void show_shopping(Screen& screen, const Takeoff& takeoff, std::size_t most) {
  std::vector<std::string> lines;
  for (const auto& line : takeoff.lines)
    if (!line.item.starts_with("Carpet"))
      lines.push_back(line.counted ? fmt::format("{}: {:.6g} {}", line.item, line.quantity, line.unit)
                                   : fmt::format("{}: {}", line.item, line.need));
  const auto shown = lines.size() <= most ? lines.size() : most - 1;
  for (std::size_t i = 0; i < shown; ++i)
    screen.add(lines[i]);
  if (shown < lines.size()) screen.add(fmt::format("and {} more on the shopping list", lines.size() - shown));
}

/// The first three, in `room` lines at most.
void show_problems(Screen& screen, const Problems& problems, std::size_t room) {
  const auto shown = std::min<std::size_t>(problems.size(), 3);
  screen.add(tally(problems) + (problems.size() > shown ? "; treadfold check lists them all" : ""));
  const auto text = listing(problems, problems.size());
  std::size_t at = 0;
  for (std::size_t i = 0; i < shown; ++i) {
    const auto end = text.find('\n', at);
    screen.add(text.substr(at, end - at), std::max<std::size_t>(1, (room - 1) / shown));
    at = end + 1;
  }
}

} // namespace

std::string printable(const std::string& text) {
  std::string out = text;
  for (std::size_t i = 0; i < out.size(); ++i) {
    const auto byte = static_cast<unsigned char>(out[i]);
    if (byte < 0x20 || byte == 0x7F) out[i] = '?';
    // U+0080 … U+009F, controls of two bytes
    if (byte == 0xC2 && i + 1 < out.size() && static_cast<unsigned char>(out[i + 1]) < 0xA0)
      out.replace(i, 2, "?");
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
  const auto& title = plan.job.site.title;
  Screen screen;
  screen.label = "Job";
  screen.add((title.empty() ? "" : title + ": ") + what_was_planned(plan), 2);
  screen.label = "Fit";
  screen.add(proofs(plan));
  if (!plan.pieces.empty()) {
    screen.label = "Cut";
    screen.add(commonest_cut(plan, unit));
  }
  if (!plan.certainty.empty()) {
    screen.label = "Sure";
    screen.add(certainty(plan), 2);
  }
  screen.label = "Carpet";
  constexpr std::size_t most_carpets = 2;
  for (std::size_t i = 0; i < std::min(plan.layouts.size(), most_carpets); ++i)
    show_carpet(screen, plan, plan.layouts[i]);
  if (plan.layouts.size() > most_carpets)
    screen.add(
        fmt::format("and {} more of carpet, on the shopping list", plan.layouts.size() - most_carpets));
  screen.label = "Buy";
  show_shopping(screen, plan.takeoff, 4);
  screen.label = "Price";
  const auto& quote = plan.quote;
  const auto money = [&](Money x) { return show_money(x, quote.currency); };
  screen.add((has_errors(plan.problems) ? "without what cannot be cut " : "") + money(quote.total) +
             (quote.tax.cents != 0 ? fmt::format(", {} of it tax", money(quote.tax)) : "") +
             (quote.deposit.cents != 0 ? fmt::format("; deposit {}", money(quote.deposit)) : ""));
  screen.label = "Check";
  constexpr std::size_t lines_after = 2;
  show_problems(screen, plan.problems, kScreenLines - lines_after - screen.lines.size());
  screen.label = "Sheets";
  screen.add(fmt::format("{} and {}", (std::filesystem::path(written.folder) / "all-sheets.pdf").string(),
                         counted(written.files - 1, "other file")),
             2);
  return joined(screen.lines, "\n") + "\n";
}

} // namespace treadfold
