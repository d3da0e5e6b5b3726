// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "fogwright/dose.hpp"

namespace fogwright::testing {

inline AirSystem house(double square_feet, std::size_t returns) {
  AirSystem system{"downstairs", {square_feet, unit::square_foot}, {}, DuctMaterial::bare_metal};
  for (std::size_t i = 0; i < returns; ++i)
    system.returns.push_back({"return " + std::to_string(i + 1), {}, {}});
  return system;
}

inline FaceArea square_inches(double value) { return {value, unit::square_inch}; }
inline AirFlow cfm(double value) { return {value, unit::cubic_foot_per_minute}; }
inline LiquidVolume ml(double value) { return {value, unit::millilitre}; }
inline LiquidVolume gallons(double value) { return {value, unit::us_gallon}; }
inline LiquidDensity g_per_ml(double value) { return {value, unit::gram_per_millilitre}; }

inline std::vector<std::int64_t> seconds_of(const SystemDose& dose) {
  std::vector<std::int64_t> seconds;
  for (const ReturnDose& r : dose.returns) seconds.push_back(r.seconds);
  return seconds;
}

/// Numbers between blanks.
template <class T>
std::vector<T> numbers(const std::string& text) {
  std::istringstream in(text);
  std::vector<T> values;
  for (T value; in >> value;) values.push_back(value);
  return values;
}

/// A refusal with this code, message and place, and with advice.
template <class T>
void check_refused(const Result<T>& result, ErrorCode code, const std::string& message,
                   const std::string& where, const std::string& hint) {
  REQUIRE_FALSE(result.has_value());
  CHECK(code_name(result.error().code) == code_name(code));
  CHECK(result.error().message == message);
  CHECK(result.error().where == where);
  CHECK(result.error().hint == hint);
}

}  // namespace fogwright::testing
