// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>

namespace fogwright::test {

/// Where two answers differ; empty if nowhere. Real figures may differ in the last digits: mathematical
/// functions are not the same in every C library.
inline std::string difference(const nlohmann::json& a, const nlohmann::json& b, const std::string& place) {
  if (a.is_number_float() && b.is_number_float()) {
    const double x = a, y = b;
    return std::abs(x - y) <= 1e-12 * std::abs(y) ? "" : place;
  }
  if (a.type() != b.type() && !(a.is_number_integer() && b.is_number_integer())) return place;
  if (!a.is_structured()) return a == b ? "" : place;
  if (a.size() != b.size()) return place;
  for (const auto& [key, value] : a.items()) {
    if (b.is_object() && !b.contains(key)) return place + "/" + key;
    const nlohmann::json& other = b.is_object() ? b.at(key) : b.at(std::stoul(key));
    if (auto found = difference(value, other, place + "/" + key); !found.empty()) return found;
  }
  return "";
}

}  // namespace fogwright::test
