// Every piece folding onto its step, to JSON: positions at stated fractions, rounded to 0.01 mm. Pieces of
// one shape share it: a stair has many steps and few kinds of them.
#include "cover/fold_mesh.h"
#include "json_words.h"
#include "plan.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <map>

namespace treadfold {
namespace {

using Json = nlohmann::ordered_json;

constexpr int kFoldVersion = 1;
constexpr int kStages = 8; // and the flat one

double rounded(double x) {
  const double r = std::round(x * 100) / 100;
  return r == 0 ? 0 : r; // no -0.0
}

Json line(const Piece& piece, const MeshLine& l) {
  std::vector<int> vertices;
  for (const auto& segment : l.segments)
    vertices.insert(vertices.end(), segment.begin(), segment.end());
  const auto role = piece.lines[static_cast<std::size_t>(l.line)].role;
  return {{"line", l.line}, {"role", name(role)}, {"vertices", vertices}};
}

Json shape(const PlannedPiece& planned) {
  const auto& piece = planned.piece;
  const auto mesh = fold_mesh(piece);
  Json faces = Json::array(), lines = Json::array(), stages = Json::array();
  for (const auto& range : mesh.faces)
    faces.push_back({{"from", range.from}, {"to", range.to}});
  std::vector<int> triangles;
  for (const auto& triangle : mesh.triangles)
    triangles.insert(triangles.end(), triangle.begin(), triangle.end());
  for (const auto& l : mesh.lines)
    lines.push_back(line(piece, l));
  std::vector<double> flat;
  for (const auto& vertex : mesh.vertices)
    flat.insert(flat.end(), {rounded(vertex.flat.u), rounded(vertex.flat.v)});
  for (int stage = 0; stage <= kStages; ++stage) {
    std::vector<double> stage_mm;
    for (const auto& at : positions(mesh, piece, planned.steps, static_cast<double>(stage) / kStages))
      stage_mm.insert(stage_mm.end(), {rounded(at[0]), rounded(at[1]), rounded(at[2])});
    stages.push_back(stage_mm);
  }
  return {{"faces", faces},
          {"triangles", triangles},
          {"lines", lines},
          {"flat_mm", flat},
          {"positions_mm", stages}};
}

} // namespace

std::string fold_json(const Plan& plan) {
  Json fractions = Json::array(), pieces = Json::array();
  for (int stage = 0; stage <= kStages; ++stage)
    fractions.push_back(static_cast<double>(stage) / kStages);
  std::map<std::string, std::size_t> known;
  std::string shapes; // as written, one a line
  for (const auto& planned : plan.pieces) {
    const auto [at, is_new] = known.try_emplace(shape(planned).dump(), known.size());
    if (is_new) shapes += (at->second == 0 ? "\n" : ",\n") + at->first;
    pieces.push_back({{"piece", planned.piece.id}, {"shape", at->second}});
  }
  const Json head{{"treadfold_fold", kFoldVersion}, {"fractions", fractions}, {"pieces", pieces}};
  auto text = head.dump(-1, ' ', false, Json::error_handler_t::replace);
  text.pop_back();
  return text + ",\"shapes\":[" + shapes + "\n]}\n";
}

} // namespace treadfold
