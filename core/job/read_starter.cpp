// The curved front of a bottom step: rounds at its ends, or offsets from the next riser's line.

#include "job/read_parts.h"

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr LengthRange kPast{{}, inches(36)};
constexpr LengthRange kHalfAxis{inches(0, 1, 2), inches(96)};
constexpr std::size_t kMostOffsets = 60;
constexpr std::int64_t kLeastGive = 5'000, kUsualGive = 20'000, kMostGive = 100'000; // millionths

bool read_end(ObjectReader& starter, std::string_view key, FrontEnd& end) {
  const Node* node = starter.find(key);
  if (!node) return true;
  Context& context = starter.context();
  if (node->kind == Node::Kind::string && node->text == "square") return true;
  if (node->kind != Node::Kind::object) {
    context.findings.error(starter.at(key), shown(*node),
                           "'square' or {'round': 'quarter' or 'half', 'past', 'along', 'across': lengths}");
    return false;
  }
  ObjectReader o(context, *node, starter.at(key));
  const auto round =
      o.choice<FrontEndShape>("round", {{"quarter", FrontEndShape::quarter}, {"half", FrontEndShape::half}});
  const auto past = o.length("past", kPast), along = o.length("along", kHalfAxis),
             across = o.length("across", kHalfAxis);
  if (!round || !past || !along || !across) return false;
  end = {*round, *past, *along, *across};
  return true;
}

bool read_offsets(ObjectReader& starter, FrontReadings& readings) {
  bool good = true;
  for (const auto& entry : starter.list("offsets", 4, kMostOffsets)) {
    ObjectReader o(starter.context(), *entry.node, entry.where);
    const auto at = o.is_object() ? read_offset(o, "along", "left_of") : std::nullopt,
               out = o.is_object() ? read_offset(o, "out", "behind") : std::nullopt;
    good = good && at && out;
    if (at && out) readings.offsets.push_back({*at, *out, entry.where});
  }
  for (const auto key : {"left", "right"}) {
    starter.find(key);
    if (starter.has(key))
      starter.context().findings.error(starter.at(key), fmt::format("'{}' beside offsets", key),
                                       "either rounds at the ends, or offsets");
    good = good && !starter.has(key);
  }
  return good && readings.offsets.size() >= 4;
}

} // namespace

std::optional<Starter> read_starter(ObjectReader& part) {
  const Node* node = part.find("starter");
  if (!node) return {};
  Context& context = part.context();
  ObjectReader o(context, *node, part.at("starter"));
  if (!o.is_object()) return {};
  Starter starter;
  starter.closing =
      o.choice_if<StarterClosing>("closing", {{"band", StarterClosing::band}, {"cuts", StarterClosing::cuts}})
          .value_or(StarterClosing::band);
  const auto give = o.decimal_or("give", 4, kMostGive, true, kUsualGive);
  if (give < kLeastGive)
    context.findings.error(o.at("give"), "less than 0.5 %", "0.5 % or more: no carpet is cut finer");
  starter.strain_limit = static_cast<double>(give) / 1e6;
  auto& readings = starter.readings;
  readings.where = o.where();
  readings.unit = context.unit;
  const bool left = o.has("offsets") || read_end(o, "left", readings.left),
             right = o.has("offsets") || read_end(o, "right", readings.right);
  if (o.has("offsets") ? !read_offsets(o, readings) : !(left && right)) return {};
  return starter;
}

} // namespace treadfold
