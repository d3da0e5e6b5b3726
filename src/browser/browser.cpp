// SPDX-License-Identifier: Apache-2.0
/// What the pages call. Text goes in, JSON comes out; a refusal is the error object of the command line.

#include <emscripten.h>

#include <nlohmann/json.hpp>
#include <string>

#include "fogwright/quantity.hpp"

namespace {

using nlohmann::json;

json error_object(const fogwright::Error& error) {
  return {{"error",
           {{"code", fogwright::code_name(error.code)},
            {"message", error.message},
            {"where", error.where},
            {"hint", error.hint}}}};
}

json floor_area(const char* text) {
  const auto area = fogwright::read_floor_area(text, "area");
  if (!area) return error_object(area.error());
  return {{"m2", area->value_in(fogwright::unit::square_metre)}};
}

}  // namespace

extern "C" {

/// Reads a floor area as a person types it: {"m2": 222.97} or {"error": ...}. The answer stays valid until the
/// next call.
EMSCRIPTEN_KEEPALIVE const char* fogwright_floor_area(const char* text) {
  static std::string answer;
  answer = floor_area(text).dump();
  return answer.c_str();
}
}
