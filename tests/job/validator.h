// A JSON Schema validator from outside (valijson).
#pragma once

#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

namespace valijson {
class Schema;
}

namespace treadfold {

class Validator {
public:
  explicit Validator(std::string_view schema);
  ~Validator();

  /// "" if `document` is valid.
  std::string complaints(const nlohmann::json& document) const;

private:
  std::unique_ptr<valijson::Schema> schema_;
};

} // namespace treadfold
