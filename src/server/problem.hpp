// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "asking/problem.hpp"
#include "server/http.hpp"

namespace fogwright::server {

/// Problem details (src/asking/problem.hpp) as an answer.
[[nodiscard]] HttpResponse problem(const Faults& faults);
[[nodiscard]] HttpResponse problem(const Error& error);
[[nodiscard]] HttpResponse problem(const nlohmann::json& details);
[[nodiscard]] HttpResponse problem(int status, std::string_view code, std::string_view message,
                                   std::string_view hint);

}  // namespace fogwright::server
