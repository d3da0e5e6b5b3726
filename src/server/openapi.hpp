// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>

namespace fogwright::server {

/// The description of the API (OpenAPI 3.1): addresses, members and roles from the table of routes, answers
/// from answer_schemas(). It is served, kept for review in docs/openapi.json, and held to the routes by tests.
[[nodiscard]] const nlohmann::json& openapi_document();

/// What each kind of answer holds, as JSON Schema (2020-12) by name.
[[nodiscard]] nlohmann::json answer_schemas();

}  // namespace fogwright::server
