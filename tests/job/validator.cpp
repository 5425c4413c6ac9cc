#include "validator.h"

#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

namespace treadfold {

Validator::Validator(std::string_view schema) : schema_(std::make_unique<valijson::Schema>()) {
  const auto json = nlohmann::json::parse(schema);
  valijson::SchemaParser parser;
  parser.populateSchema(valijson::adapters::NlohmannJsonAdapter(json), *schema_);
}

Validator::~Validator() = default;

std::string Validator::complaints(const nlohmann::json& document) const {
  valijson::Validator validator;
  valijson::ValidationResults results;
  if (validator.validate(*schema_, valijson::adapters::NlohmannJsonAdapter(document), &results)) return "";
  std::string out = "invalid";
  valijson::ValidationResults::Error error;
  while (results.popError(error)) {
    out += "\n";
    for (const auto& part : error.context)
      out += part;
    out += ": " + error.description;
  }
  return out;
}

} // namespace treadfold
