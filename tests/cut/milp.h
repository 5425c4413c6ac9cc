// Least lengths of small instances by mixed integer programming (GLPK): another way to the same answer, for
// the tests. Takes from the product the types of its inputs only.
//
// Free: J. E. Beasley, "An exact two-dimensional non-guillotine cutting tree search procedure", Operations
// Research 33 (1985): a variable for each box and whole position, no cell covered twice. Here the rectangle's
// length is to be found, so a cell may be covered only if its line across is paid for. A pattern leaves out
// positions, and allows the others together only if their motifs lie on one lattice.
// Straight cuts: F. Furini, E. Malaguti, D. Thomopulos, "Modeling two-dimensional guillotine cutting problems
// via integer programming", INFORMS Journal on Computing 28 (2016): a variable for each size of part and each
// cut of it; no more parts of a size are cut or used than there come about. Both from memory.
#pragma once

#include "cut/pack/sheet.h"
#include "cut/rows.h"

#include <cmath>
#include <map>
#include <optional>
#include <tuple>
#include <utility>
#include <vector>

#include <glpk.h>

namespace treadfold::milp {

using Ticks = rows::Ticks;
using Terms = std::vector<std::pair<int, double>>; // column, coefficient

/// Columns are whole numbers, not negative; the cost is to be least.
class Program {
public:
  Program() {
    glp_term_out(GLP_OFF);
    glp_set_obj_dir(program_, GLP_MIN);
  }
  ~Program() {
    glp_delete_prob(program_);
    glp_free_env();
  }
  Program(const Program&) = delete;
  Program& operator=(const Program&) = delete;

  int column(double cost, double most) {
    const int c = glp_add_cols(program_, 1);
    glp_set_obj_coef(program_, c, cost);
    glp_set_col_kind(program_, c, GLP_IV);
    glp_set_col_bnds(program_, c, GLP_DB, 0, most);
    return c;
  }
  void equal(const Terms& terms, double to) { row(terms, GLP_FX, to); }
  void no_more(const Terms& terms, double than) { row(terms, GLP_UP, than); }

  /// The least cost, a whole number; none if nothing satisfies every row.
  std::optional<Ticks> least() {
    glp_iocp how;
    glp_init_iocp(&how);
    how.presolve = GLP_ON;
    how.mir_cuts = how.clq_cuts = how.cov_cuts = GLP_ON; // without them it takes four times as long
    const int failed = glp_intopt(program_, &how);
    if (failed == GLP_ENOPFS || (failed == 0 && glp_mip_status(program_) == GLP_NOFEAS)) return std::nullopt;
    if (failed != 0 || glp_mip_status(program_) != GLP_OPT) return -1; // never a length
    return std::llround(glp_mip_obj_val(program_));
  }

private:
  void row(const Terms& terms, int kind, double bound) {
    std::vector<int> columns{0}; // GLPK counts from 1
    std::vector<double> values{0};
    for (const auto& [c, value] : terms)
      columns.push_back(c), values.push_back(value);
    const int r = glp_add_rows(program_, 1);
    glp_set_row_bnds(program_, r, kind, bound, bound);
    glp_set_mat_row(program_, r, static_cast<int>(terms.size()), columns.data(), values.data());
  }
  glp_prob* program_ = glp_create_prob();
};

/// Where the lattice lies that has a motif at (u, v), and so in one case of it from 0 on.
inline std::pair<Ticks, Ticks> lattice_of(Ticks u, Ticks v, const rows::Repeat& repeat) {
  const Ticks rest = rows::mod(u, repeat.repeat_u), columns = (u - rest) / repeat.repeat_u;
  return {rest, rows::mod(v - columns * repeat.drop, repeat.repeat_v)};
}

/// None if the rects need more than `top`.
inline std::optional<Ticks> least_length(const std::vector<rows::Rect>& rects, Ticks width, Ticks top,
                                         const std::optional<rows::Repeat>& repeat = {}) {
  Program program;
  std::vector<int> lines; // paid for, all up to the last
  for (Ticks v = 0; v < top; ++v) {
    lines.push_back(program.column(1, 1));
    if (v > 0) program.no_more({{lines[lines.size() - 1], 1}, {lines[lines.size() - 2], -1}}, 0);
  }
  std::map<std::tuple<Ticks, Ticks, int, Ticks, Ticks>, int> kinds; // alike rects are one kind
  for (const auto& r : rects)
    ++kinds[{r.w, r.l, repeat ? r.match : -1, r.phase_u, r.phase_v}];
  using Lattice = std::tuple<int, Ticks, Ticks>; // of a match group
  std::map<Lattice, std::map<int, Terms>> on_lattice;
  std::vector<Terms> covers(static_cast<std::size_t>(width * top));
  std::vector<int> counts;
  std::map<int, std::vector<int>> kinds_of_group;
  for (const auto& [kind, count] : kinds) {
    const auto& [w, l, match, phase_u, phase_v] = kind;
    const int number = static_cast<int>(counts.size());
    counts.push_back(count);
    if (match >= 0) kinds_of_group[match].push_back(number);
    Terms everywhere;
    for (Ticks v = 0; v + l <= top; ++v)
      for (Ticks u = 0; u + w <= width; ++u) {
        const int here = program.column(0, 1);
        everywhere.emplace_back(here, 1);
        for (Ticks y = v; y < v + l; ++y)
          for (Ticks x = u; x < u + w; ++x)
            covers[static_cast<std::size_t>(y * width + x)].emplace_back(here, 1);
        if (match < 0) continue;
        const auto [a, b] = lattice_of(u + phase_u, v + phase_v, *repeat);
        on_lattice[{match, a, b}][number].emplace_back(here, 1);
      }
    program.equal(everywhere, count);
  }
  // A group's rects lie on its lattice, all of them, and nowhere else.
  for (auto& [lattice, rects_on] : on_lattice) {
    const int chosen = program.column(0, 1);
    for (const int number : kinds_of_group[std::get<0>(lattice)]) {
      rects_on[number].emplace_back(chosen, -counts[static_cast<std::size_t>(number)]);
      program.equal(rects_on[number], 0);
    }
  }
  for (std::size_t cell = 0; cell < covers.size(); ++cell) {
    covers[cell].emplace_back(lines[cell / static_cast<std::size_t>(width)], -1);
    program.no_more(covers[cell], 0);
  }
  return program.least();
}

/// The same by straight cuts from edge to edge, in any number of stages.
inline std::optional<Ticks> least_guillotine_length(const std::vector<pack::Box>& boxes, Ticks width,
                                                    Ticks top) {
  Program program;
  const auto many = static_cast<double>(boxes.size());
  std::map<std::pair<Ticks, Ticks>, Terms> parts; // spent less come about, by size
  Terms strips;
  for (Ticks l = 1; l <= top; ++l) {
    strips.emplace_back(program.column(static_cast<double>(l), 1), 1);
    parts[{width, l}].emplace_back(strips.back().first, -1);
  }
  program.equal(strips, 1);
  for (Ticks w = 1; w <= width; ++w)
    for (Ticks l = 1; l <= top; ++l) {
      const auto cut = [&](std::pair<Ticks, Ticks> one, std::pair<Ticks, Ticks> other) {
        const int c = program.column(0, many);
        parts[{w, l}].emplace_back(c, 1);
        parts[one].emplace_back(c, one == other ? -2 : -1);
        if (one != other) parts[other].emplace_back(c, -1);
      };
      for (Ticks at = 1; 2 * at <= w; ++at)
        cut({at, l}, {w - at, l});
      for (Ticks at = 1; 2 * at <= l; ++at)
        cut({w, at}, {w, l - at});
    }
  std::map<std::pair<Ticks, Ticks>, int> kinds;
  for (const auto& b : boxes)
    ++kinds[{b.w, b.l}];
  for (const auto& [size, count] : kinds) {
    const int used = program.column(0, count);
    program.equal({{used, 1}}, count);
    parts[size].emplace_back(used, 1);
  }
  for (const auto& [size, terms] : parts)
    program.no_more(terms, 0);
  return program.least();
}

} // namespace treadfold::milp
