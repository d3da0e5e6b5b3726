// SPDX-License-Identifier: Apache-2.0
// A whole plan in the engine, without the simulated spread and with it.
#include <benchmark/benchmark.h>

#include <fstream>
#include <sstream>

#include "fogwright/plan.hpp"

namespace {

using namespace fogwright;

PlanRequest request_for(const std::string& file) {
  std::ifstream in(std::string(FOGWRIGHT_SOURCE_DIR) + "/product_profiles_demo/" + file);
  std::ostringstream text;
  text << in.rdbuf();
  PlanRequest request;
  request.label = std::make_shared<const Label>(read_label(text.str(), file).value());
  request.systems = {{"system 1",
                      FloorArea{2400, unit::square_foot},
                      {{"return 1", {}, {}}, {"return 2", {}, {}}, {"return 3", {}, {}}},
                      DuctMaterial::bare_metal}};
  return request;
}

void plan(benchmark::State& state, const std::string& file, int draws) {
  PlanRequest request = request_for(file);
  request.spread_draws = draws;
  for (auto _ : state) benchmark::DoNotOptimize(make_plan(request));
}

BENCHMARK_CAPTURE(plan, ready_to_use, "fenmist-rtu.toml", 0);
BENCHMARK_CAPTURE(plan, high_strength, "brackwater-20.toml", 0);
BENCHMARK_CAPTURE(plan, dilutable, "palelight-hp.toml", 0);
BENCHMARK_CAPTURE(plan, ready_to_use_spread_10000, "fenmist-rtu.toml", 10'000);

}  // namespace
