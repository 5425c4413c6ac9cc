#include "job/job.h"

#include <fmt/format.h>

namespace treadfold {

namespace {

std::string side(SideKind kind, std::string_view overhang, std::string_view past) {
  switch (kind) {
  case SideKind::wall:
    return "\"wall\"";
  case SideKind::skirt:
    return "\"skirt\"";
  case SideKind::open:
    return fmt::format(R"({{"open": {{"overhang": "{}", "return": "{}"}}}})", overhang, past);
  }
  return {};
}

/// What is usual where lengths are in this unit, as written in a job.
struct UsualSizes {
  std::string_view units, paper, code;
  Length rise, going, width;
  std::string_view projection, thickness, arris, overhang, past, landing_edge;
  std::string_view widths, roll_length, sold_in, backing, pile, cushion, cushion_width, cushion_length, stock;
  std::string_view area;
};

UsualSizes usual_sizes(LengthUnit unit) {
  switch (unit) {
  case LengthUnit::inch:
    return {"in",    "letter", "IRC", inches(7, 1, 2), inches(10), inches(36), "1",   "1",   "1/8",
            "1 1/4", "1",      "4",   R"("12'")",      "100'",     "1'",       "1/8", "1/2", "3/8",
            "6'",    "45'",    "4'",  "square_yard"};
  case LengthUnit::millimetre:
    return {"mm",
            "a4",
            "UK private",
            millimetres(190),
            millimetres(250),
            millimetres(900),
            "25",
            "25",
            "3",
            "30",
            "25",
            "100",
            R"("4 m", "5 m")",
            "30 m",
            "10 cm",
            "3",
            "12",
            "9",
            "1.37 m",
            "11 m",
            "1.5 m",
            "square_metre"};
  case LengthUnit::centimetre:
    return {"cm",
            "a4",
            "UK private",
            millimetres(190),
            millimetres(250),
            millimetres(900),
            "2.5",
            "2.5",
            "0.3",
            "3",
            "2.5",
            "10",
            R"("4 m", "5 m")",
            "30 m",
            "10",
            "0.3",
            "1.2",
            "0.9",
            "1.37 m",
            "11 m",
            "1.5 m",
            "square_metre"};
  }
  return {};
}

} // namespace

std::string new_job(const NewJob& choices) {
  const UsualSizes u = usual_sizes(choices.unit);
  const auto size = [&](Length chosen, Length usual) {
    return print_length(chosen == Length{} ? usual : chosen, choices.unit);
  };
  return fmt::format(
      R"job(// A job for treadfold. Change what is not so; every length is of the bare wood. A length without a unit is
// in the units below; "2' 3-1/2\"", "2 ft 3 1/2 in", "700 mm" and "68 cm" are read too.
{{
  "treadfold": 1, // version of this file's format
  "units": "{units}", // in, mm or cm
  "paper": "{paper}", // letter or a4
  "code": "{code}", // whose limits to warn about: IRC, IBC, UK private or none
  "site": {{
    "title": "Stair carpet", // on every sheet
    "customer": "",
    "address": "",
    "contact": "",
    "installer": "",
    "installer_contact": "",
    "date": "", // as it should be written on the quote
    "access": [], // one sentence an entry: parking, keys, which door
    "notes": [] // one sentence an entry: steps as found, squeaks, furniture
  }},
  "stairs": [
    {{
      "name": "Main stair",
      "flights": [
        {{
          "name": "main", // on every piece's label
          "risers": {risers}, // count the faces you would kick, the one up to the landing included
          "rise": "{rise}", // top of tread to top of tread
          "going": "{going}", // riser face to riser face, not the tread's whole depth
          "width": "{width}", // of the riser, between its ends
          "nosing": {{
            "projection": "{projection}", // beyond the riser below
            "thickness": "{thickness}", // of the tread board
            "profile": "square", // or "half-round", then without arris_radius; or "bevelled" with "bevel"
            "arris_radius": "{arris}" // "0" if the edge is sharp
          }},
          // Sides are seen looking up: "wall", "skirt", or
          // {open_example}
          // with the tread's end past the riser's end, and past the next riser's face.
          "left": {left},
          "right": {right},
          "pile": "down", // the pile runs down the stair
          "cover": "waterfall", // or "wrapped": fastened under the nosing
          "carpet": "main", // id of a carpet below
          "join": 1, // the most steps in one piece; {{"at_most": 3}}: up to 3, as buys the least carpet
          "landing_edge": "{landing_edge}", // topmost riser's face to the seam on the landing
          // "total_rise": "…", // floor to floor by tape, and
          // "treads_counted": {treads}, // treads counted: both check the count
          "steps": {{
            // What differs from the usual step, by number from the bottom:
            // "1": {{"rise": "…"}}, "5-7": {{"width": "…"}}; in place of going and width a winder or any tread
            // out of square, from the nosing's edge to the next riser, overhang and all:
            // "8": {{"tread": {{"front": "…", "right": "…", "back": "…", "left": "…",
            //   "diagonal_from_front_left": "…", "diagonal_from_front_right": "…"}}}}
            // or by offsets, the tape along the nosing's edge and square to it; a kite has a corner of the walls:
            // "9": {{"tread": {{"front": "…", "back_left": {{"along": "…", "off": "…"}},
            //   "back_right": {{"along": "…", "off": "…"}}, "right_corner": {{"along": "…", "off": "…"}}}}}}
          }}
        }}
      ],
      "floors": [
        // A landing or floor, from its seam with the stair, square or from the tape:
        // {{"name": "landing", "carpet": "main", "width": "…", "length": "…"}}
        // {{"name": "landing", "carpet": "main", "front": "…", "right": "…", "back": "…", "left": "…",
        //   "diagonal_from_front_left": "…", "diagonal_from_front_right": "…"}}
      ]
    }}
  ],
  "carpets": [
    {{
      "id": "main",
      "name": "Carpet", // as the order calls it
      "widths": [{widths}], // roll widths on offer
      "selvage": "0", // lost at each side of the roll
      "roll_length": "{roll_length}", // longest single cut to be had
      "sold_in": "{sold_in}", // order lengths are whole multiples of this
      "backing": "{backing}", // thickness of the backing alone
      // "construction": "tufted", or "woven": how tight it folds, which cut edges are sealed
      "thickness": "{pile}", // with the pile
      // "pattern": {{"width": "…", "length": "…", "match": "set"}}, // or "half-drop", or {{"drop": "…"}}
      "remnants": [] // {{"name": "…", "width": "…", "length": "…", "dye_lot": "…"}}
    }}
  ],
  "cushion": {{ // or "none"
    "name": "Cushion",
    "thickness": "{cushion}",
    "roll_width": "{cushion_width}",
    "roll_length": "{cushion_length}"
  }},
  "strip": {{"stock_length": "{stock}", "pieces_per_case": 100}}, // tack strip as bought
  "finished_floors": {{
    "foot": "0", // what will lie on the floor at the foot, over the floor as measured
    "landing": "0" // and at the top
  }},
  "allowances": {{}}, // those of common practice; `treadfold schema` lists them
  "tolerances": {{}}, // of tape, knife and steps not measured, for the chance of a short piece
  "supplies": {{}}, // your coverage figures, so that packages can be counted
  "terms": {{
    "currency": "{currency}",
    "rates": [
      // {{"what": "Carpet", "per": "{area}", "of": "carpet_ordered", "rate": "…", "material": true}},
      // {{"what": "Fitting", "per": "step", "kind": "any", "rate": "…"}}
    ],
    // "markup": "…", "margin": "…": one of the two at most, on materials, such as "20 %"
    "tax": "0 %",
    "deposit": "0 %",
    "valid_days": 30,
    "scope": [],
    "exclusions": [],
    "offcuts": ""
  }}
}}
)job",
      fmt::arg("units", u.units), fmt::arg("paper", u.paper), fmt::arg("code", u.code),
      fmt::arg("risers", choices.risers), fmt::arg("treads", choices.risers - 1),
      fmt::arg("rise", size(choices.rise, u.rise)), fmt::arg("going", size(choices.going, u.going)),
      fmt::arg("width", size(choices.width, u.width)), fmt::arg("projection", u.projection),
      fmt::arg("thickness", u.thickness), fmt::arg("arris", u.arris),
      fmt::arg("left", side(choices.left, u.overhang, u.past)),
      fmt::arg("right", side(choices.right, u.overhang, u.past)),
      fmt::arg("open_example", side(SideKind::open, u.overhang, u.past)),
      fmt::arg("landing_edge", u.landing_edge), fmt::arg("widths", u.widths),
      fmt::arg("roll_length", u.roll_length), fmt::arg("sold_in", u.sold_in), fmt::arg("backing", u.backing),
      fmt::arg("pile", u.pile), fmt::arg("cushion", u.cushion), fmt::arg("cushion_width", u.cushion_width),
      fmt::arg("cushion_length", u.cushion_length), fmt::arg("stock", u.stock), fmt::arg("area", u.area),
      fmt::arg("currency", choices.unit == LengthUnit::inch ? "$" : "£"));
}

} // namespace treadfold
