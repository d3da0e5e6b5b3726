// SPDX-License-Identifier: Apache-2.0
#include "server/problem.hpp"

namespace fogwright::server {
namespace {

HttpResponse respond(const nlohmann::json& body) {
  const int status = body.at("status");
  HttpResponse response = json_response(status, body);
  response.content_type = "application/problem+json";
  if (status == 503) response.headers.emplace_back("Retry-After", "2");
  return response;
}

}  // namespace

HttpResponse problem(const Error& error) { return problem(Faults{error}); }

HttpResponse problem(const nlohmann::json& details) { return respond(details); }

HttpResponse problem(const Faults& faults) { return respond(problem_details(faults)); }

HttpResponse problem(int status, std::string_view code, std::string_view message, std::string_view hint) {
  return respond(problem_details(status, code, message, {}, hint));
}

}  // namespace fogwright::server
