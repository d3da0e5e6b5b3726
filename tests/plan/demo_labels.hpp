// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <fstream>
#include <memory>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "fogwright/plan.hpp"

namespace fogwright::test {

inline std::shared_ptr<const Label> demo_label(const std::string& file) {
  std::ifstream in(std::string(FOGWRIGHT_SOURCE_DIR) + "/product_profiles_demo/" + file);
  std::ostringstream text;
  text << in.rdbuf();
  return std::make_shared<const Label>(read_label(text.str(), file).value());
}

inline AirSystem house(double area_ft2, int returns) {
  AirSystem system{"house", FloorArea{area_ft2, unit::square_foot}, {}, DuctMaterial::bare_metal};
  for (int i = 1; i <= returns; ++i) system.returns.push_back({"return " + std::to_string(i), {}, {}});
  return system;
}

inline PlanRequest request_for(const std::string& label, double area_ft2 = 2400, int returns = 3) {
  PlanRequest request;
  request.label = demo_label(label);
  request.systems = {house(area_ft2, returns)};
  return request;
}

inline constexpr const char* fenmist = "fenmist-rtu.toml";
inline constexpr const char* brackwater = "brackwater-20.toml";
inline constexpr const char* palelight = "palelight-hp.toml";

}  // namespace fogwright::test
