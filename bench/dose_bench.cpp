// SPDX-License-Identifier: Apache-2.0
#include <benchmark/benchmark.h>

#include "fogwright/dose.hpp"

namespace {

using namespace fogwright;

AirSystem house(std::int64_t returns) {
  AirSystem system{"downstairs", FloorArea(2400, unit::square_foot), {}, DuctMaterial::bare_metal};
  for (std::int64_t i = 0; i < returns; ++i)
    system.returns.push_back({"return " + std::to_string(i + 1),
                              FaceArea(400.0 + static_cast<double>(i * 37 % 200), unit::square_inch),
                              {}});
  return system;
}

void dose_of_a_house(benchmark::State& state) {
  const AirSystem system = house(state.range(0));
  while (state.KeepRunning()) benchmark::DoNotOptimize(dose_system(system, {}, {}, SplitRule::face_area));
}
BENCHMARK(dose_of_a_house)->Arg(3)->Arg(20)->Arg(200);

void spread_of_10000_draws(benchmark::State& state) {
  SpreadInput input{gallon_rule(), 126};
  input.calibration.runs = 3;
  input.calibration.relative_spread = 0.05;
  while (state.KeepRunning()) benchmark::DoNotOptimize(dose_spread(input));
}
BENCHMARK(spread_of_10000_draws)->Unit(benchmark::kMillisecond);

}  // namespace
