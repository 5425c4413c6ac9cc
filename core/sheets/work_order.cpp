#include "sheets/page.h"
#include "sheets/sealing.h"
#include "sheets/sheet_kinds.h"
#include "sheets/work.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {

namespace {

std::string words_of(const Reader& reader, SideKind kind) {
  switch (kind) {
  case SideKind::wall:
    return reader.say("wall");
  case SideKind::skirt:
    return reader.say("skirt");
  case SideKind::open:
    return reader.say("open");
  }
  return "";
}

/// "steps 1 to 12: left wall, right open", one line for each stretch of steps with the same sides.
std::vector<std::string> sides_of(const Reader& reader, const Flight& flight) {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < flight.steps.size();) {
    const Step& first = flight.steps[i];
    std::size_t end = i;
    while (end < flight.steps.size() && flight.steps[end].left.kind == first.left.kind &&
           flight.steps[end].right.kind == first.right.kind)
      ++end;
    const std::string steps = end - i == 1
                                  ? reader.say("step {}", first.number)
                                  : reader.say("steps {} to {}", first.number, flight.steps[end - 1].number);
    lines.push_back(reader.say("{}: left {}, right {}", steps, words_of(reader, first.left.kind),
                               words_of(reader, first.right.kind)));
    i = end;
  }
  return lines;
}

void the_stairs(Flow& flow, const Plan& plan) {
  const Reader reader = plan.job.reader();
  flow.heading(reader.say("The stair"));
  for (const Stair& stair : plan.job.stairs) {
    for (const Flight& flight : stair.flights) {
      std::string text =
          reader.say("{}, {}: {} risers, {}", stair.name, flight.name, flight.steps.size(),
                     flight.style == CoverStyle::waterfall ? reader.say("waterfall") : reader.say("wrapped"));
      if (flight.join > 1) text += ", " + reader.say("up to {} steps in a piece", flight.join);
      for (const std::string& sides : sides_of(reader, flight))
        text += "; " + sides;
      flow.paragraph(text + ".");
    }
    for (const Floor& floor : stair.floors)
      flow.paragraph(reader.say("{}, {}: floor.", stair.name, floor.name));
  }
  flow.paragraph(reader.say(
      "Steps are counted from the bottom. Left and right are as you stand at the foot and look up."));
}

void warnings(Flow& flow, const Problems& problems, const Reader& reader) {
  if (problems.empty()) return;
  flow.heading(reader.say("Look at these before you start"));
  for (const Problem& problem : problems) {
    std::string text = capital(reader.said(problem.found));
    if (!problem.expected.empty()) text = reader.say("{}. Expected: {}", text, reader.said(problem.expected));
    if (problem.severity == Severity::note)
      flow.paragraph(reader.say("Note: {}.", text));
    else
      flow.warning(problem.severity == Severity::error ? reader.say("Error: {}.", text) : text + ".");
  }
}

/// How the goods in use are sealed and folded, where the job tells their construction.
void the_backings(Flow& flow, const Plan& plan) {
  bool headed = false;
  for (const Carpet& carpet : plan.job.carpets) {
    const bool used = std::any_of(plan.pieces.begin(), plan.pieces.end(),
                                  [&](const PlannedPiece& p) { return p.piece.carpet == carpet.id; });
    const auto text = handling_of(carpet, plan.job.reader());
    if (!used || text.empty()) continue;
    if (!headed) flow.heading(plan.job.reader().say("The backing"));
    headed = true;
    flow.paragraph(text);
  }
}

/// In the order of laying: the stair is laid from the top down.
void the_pieces(Flow& flow, const Plan& plan) {
  const Reader reader = plan.job.reader();
  flow.heading(reader.say("Pieces"));
  Table table{{reader.say("Piece"), reader.say("For"), reader.say("Kind"), reader.say("Cut size"),
               reader.say("Proof")},
              {}};
  for (const PlannedPiece& planned : plan.pieces) {
    const Piece& piece = planned.piece;
    std::string where = piece.flight;
    if (piece.steps.size() == 1) where += ", " + reader.say("step {}", piece.steps[0]);
    if (piece.steps.size() > 1)
      where += ", " + reader.say("steps {} to {}", piece.steps.front(), piece.steps.back());
    const bool sound = planned.proof.passed;
    table.rows.push_back(
        {piece.id, where, reader.said(piece.kind),
         sound ? show_size(piece.cut_width, piece.cut_length, plan.job.unit) : reader.say("DO NOT CUT"),
         sound ? reader.say("folds to fit") : reader.said(planned.proof.reason)});
  }
  flow.table(table, {{{Anchor::left, false, true, kCutType},
                      {Anchor::left, true},
                      {Anchor::left, true},
                      {Anchor::left, false, true, kCutType},
                      {Anchor::left, true}},
                     kBodyType,
                     true});
}

bool glues(const Plan& plan) {
  for (const FlightFixings& flight : plan.fixings)
    for (const Fixings& f : flight.steps)
      if (f.hot_melt > Length{} || f.seam_tape > Length{}) return true;
  return false;
}

std::vector<std::string> cautions(const Plan& plan) {
  const bool inch = plan.job.unit == LengthUnit::inch;
  const Reader reader = plan.job.reader();
  std::vector<std::string> out{
      // Common practice, no source.
      reader.say("Knives: a fresh blade for every face cut, away from the body, fingers behind the "
                 "straightedge. Old "
                 "blades go in a closed tin."),
      // NIOSH 90-104 and HETA 82-065-1664.
      reader.say("Knees: wear pads, change hands, and stretch with the power stretcher where there is room; "
                 "the knee "
                 "kicker is for seating, not for stretching."),
  };
  if (glues(plan)) // CRI 105 §10.3.1 for the air; gloves and heat shield common practice
    out.push_back(
        reader.say("Hot glue and iron: gloves, a heat shield under the iron, windows open. Never leave them "
                   "on and unwatched."));
  out.insert(
      out.end(),
      {// docs/sources.md, cautions: floorings and mastics of that time may hold asbestos.
       reader.say(
           "Asbestos: flooring or black mastic laid before about 1980 is suspect. Stop, have it tested, "
           "never sand or scrape it."),
       // From memory: the year in which lead paint for homes was banned in the United States.
       reader.say("Lead paint: trim painted before 1978 may hold lead. Do not sand or scrape it dry."),
       reader.say("Trips: no loose edge, offcut or tool left on the stair; close the stair to others, or say "
                  "which steps may be used, until every edge is fixed."),
       // CRI 105 §7.2, edition of 2019.
       reader.say("Site: {} and at most 65 % humidity from 48 hours before to 72 hours after.",
                  inch ? reader.say("65 to 95 °F") : reader.say("18 to 35 °C")),
       reader.say("Strip pins: cover the strip until the carpet is on; tread pins point to the riser, riser "
                  "pins point down.")});
  return out;
}

} // namespace

Sheet work_order(const Plan& plan) {
  const Site& site = plan.job.site;
  const Reader reader = plan.job.reader();
  Sheet sheet{"work-order", reader.say("Work order"), {}, {}};
  Flow flow(plan.job.paper);
  flow.two_columns(reader.say("Customer and place"), {site.customer, site.address, site.contact},
                   reader.say("Installer"), {site.installer, site.installer_contact, site.date});
  if (!site.access.empty()) {
    flow.heading(reader.say("Access"));
    flow.list(site.access, false, kCutType);
  }
  if (!site.notes.empty()) {
    flow.heading(reader.say("As found"));
    flow.list(site.notes, false, kCutType);
  }
  warnings(flow, plan.problems, reader);
  the_stairs(flow, plan);
  the_backings(flow, plan);
  the_pieces(flow, plan);
  flow.heading(reader.say("Take care"));
  flow.list(cautions(plan));
  sheet.pages = flow.finish();
  return sheet;
}

} // namespace treadfold
