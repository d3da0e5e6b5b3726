// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The reference as the member table gives it: a JSON Schema (draft 2020-12) and the tables of docs/labels.md.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace fogwright::test {

[[nodiscard]] nlohmann::ordered_json label_schema();
[[nodiscard]] std::string label_tables_in_markdown();

/// Where the value breaks the schema. Throws std::runtime_error on a keyword that it does not know.
[[nodiscard]] std::vector<std::string> schema_faults(const nlohmann::ordered_json& value,
                                                     const nlohmann::ordered_json& schema);

}  // namespace fogwright::test
