// SPDX-License-Identifier: Apache-2.0
#include <nlohmann/json.hpp>

#include "fogwright/plan.hpp"

namespace fogwright {
namespace {

nlohmann::json error_json(const Error& error) {
  return {{"code", code_name(error.code)},
          {"message", error.message},
          {"where", error.where},
          {"hint", error.hint}};
}

}  // namespace

nlohmann::json faults_json(const Faults& faults) {
  nlohmann::json out = {{"error", error_json(faults.front())}};
  if (faults.size() > 1)
    for (const Error& fault : faults) out["faults"].push_back(error_json(fault));
  return out;
}

}  // namespace fogwright
