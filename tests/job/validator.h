// A JSON Schema validator from outside (valijson).
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <string_view>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

namespace treadfold {

class Validator {
public:
  explicit Validator(std::string_view schema) {
    const auto json = nlohmann::json::parse(schema);
    valijson::SchemaParser parser;
    parser.populateSchema(valijson::adapters::NlohmannJsonAdapter(json), schema_);
  }

  /// "" if `document` is valid.
  std::string complaints(const nlohmann::json& document) const {
    valijson::Validator validator;
    valijson::ValidationResults results;
    if (validator.validate(schema_, valijson::adapters::NlohmannJsonAdapter(document), &results)) return "";
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

private:
  valijson::Schema schema_;
};

} // namespace treadfold
