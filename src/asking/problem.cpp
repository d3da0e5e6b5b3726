// SPDX-License-Identifier: Apache-2.0
#include "asking/problem.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

std::string_view title(int status) {
  switch (status) {
    case 400:
      return "The request is not understood";
    case 401:
      return "Nobody is signed in";
    case 403:
      return "Not permitted";
    case 404:
      return "Not found";
    case 405:
      return "Not this method";
    case 409:
      return "A rule refuses";
    case 413:
      return "Too large";
    case 415:
      return "Not this type of content";
    case 421:
      return "Not this server";
    case 422:
      return "The data is bad";
    case 429:
      return "Too many attempts";
    case 431:
      return "Too large a header";
    case 503:
      return "Busy";
    default:
      return status < 500 ? "The request is refused" : "The server failed";
  }
}

}  // namespace

int http_status(ErrorCode code) noexcept {
  switch (code) {
    case ErrorCode::bad_usage:
    case ErrorCode::not_understood:
    case ErrorCode::out_of_range:
    case ErrorCode::missing_value:
      return 400;
    case ErrorCode::not_permitted:
      return 403;
    case ErrorCode::not_found:
      return 404;
    case ErrorCode::label_forbids:
    case ErrorCode::label_incomplete:
    case ErrorCode::rate_outside_band:
    case ErrorCode::incompatible_chemistry:
    case ErrorCode::gate_closed:
    case ErrorCode::hold_running:
    case ErrorCode::wrong_state:
    case ErrorCode::stock_short:
    case ErrorCode::already_exists:
      return 409;
    case ErrorCode::bad_label:
    case ErrorCode::bad_site:
    case ErrorCode::bad_import:
    case ErrorCode::bad_entry:
      return 422;
    case ErrorCode::storage_busy:
    case ErrorCode::storage_fault:
      return 503;
    case ErrorCode::bad_book:
    case ErrorCode::newer_book:
    case ErrorCode::file_fault:
    case ErrorCode::internal_fault:
      return 500;
  }
  return 500;
}

json problem_details(int status, std::string_view code, std::string_view message, std::string_view where,
                     std::string_view hint) {
  json body = {{"type", "about:blank"},
               {"title", title(status)},
               {"status", status},
               {"code", code},
               {"detail", message}};
  if (!where.empty()) body["where"] = where;
  if (!hint.empty()) body["hint"] = hint;
  return body;
}

json problem_details(const Faults& faults) {
  const Error& first = faults.front();
  const int status = http_status(first.code);
  // What the storage says of itself is for the log. Whether it was written is not known here; the id decides.
  if (first.code == ErrorCode::storage_fault)
    return problem_details(status, code_name(first.code), "the book cannot be reached", {},
                           "send the same request again in a while, a write under the same id");
  if (status == 500)
    return problem_details(status, code_name(first.code), "the server could not do this", {},
                           "look into the log of the server");
  json body = problem_details(status, code_name(first.code), first.message, first.where, first.hint);
  if (faults.size() > 1)
    for (const Error& fault : faults)
      body["faults"].push_back(
          problem_details(status, code_name(fault.code), fault.message, fault.where, fault.hint));
  return body;
}

}  // namespace fogwright
