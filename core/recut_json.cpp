#include "recut.h"

#include "plan_json_parts.h"

namespace treadfold {

const char* word(Remedy how) {
  switch (how) {
  case Remedy::as_planned:
    return "as_planned";
  case Remedy::laid_anew:
    return "laid_anew";
  case Remedy::other_remnant:
    return "other_remnant";
  case Remedy::smaller_join:
    return "smaller_join";
  case Remedy::hidden_seam:
    return "hidden_seam";
  }
  return "";
}

namespace {

using in_json::Json;
using in_json::list;
using in_json::mm;

Json replaced(const Replaced& r) {
  return {{"piece", r.piece},
          {"by", list(r.by, [](const CutPiece& p) {
             return Json{{"id", p.id}, {"cut_width_mm", mm(p.width)}, {"cut_length_mm", mm(p.length)}};
           })}};
}

Json part(const PartLayout& p) {
  return {{"of", p.of}, {"u_mm", mm(p.u)}, {"v_mm", mm(p.v)}, {"layout", in_json::roll(p.layout)}};
}

Json way(const Way& w) {
  return {{"how", word(w.how)},
          {"words", w.words},
          {"remnant", w.remnant},
          {"length_to_buy_mm", mm(w.recovered.length_to_buy)},
          {"as_planned", w.recovered.as_planned},
          {"replaced", list(w.replaced, replaced)},
          {"parts", list(w.recovered.parts, part)}};
}

Json carpet(const Recut& r) {
  return {{"carpet", r.carpet},   {"cut", r.cut},     {"spoiled", r.spoiled},     {"to_cut", r.to_cut},
          {"why_not", r.why_not}, {"taken", r.taken}, {"ways", list(r.ways, way)}};
}

} // namespace

std::string recut_json(const Recuts& recuts) {
  Json out{{"treadfold_recut", 1},
           {"carpets", list(recuts.carpets, carpet)},
           {"problems", list(recuts.problems, in_json::problem)}};
  return in_json::text(out);
}

} // namespace treadfold
