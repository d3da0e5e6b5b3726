// SPDX-License-Identifier: Apache-2.0
#include <benchmark/benchmark.h>

#include "fogwright/air.hpp"

using namespace fogwright;

namespace {

Active active(std::string cas, double mass_fraction) {
  Active a;
  a.cas = std::move(cas);
  a.mass_fraction = mass_fraction;
  return a;
}

Label label(int actives) {
  Label l;
  l.chemistry = {Chemistry::chlorite};
  l.actives.push_back(active("7758-19-2", 0.002));
  l.actives[0].released_cas = "10049-04-4";
  l.actives[0].yield = 0.5966;
  if (actives > 1) l.actives.push_back(active("64-19-7", 0.005));
  if (actives > 2) l.actives.push_back(active("7722-84-1", 0.01));
  for (std::size_t i = 1; i < l.actives.size(); ++i) l.actives[i].off_gassing = HoldTime{180, unit::minute};
  return l;
}

Zone house() {
  Zone zone;
  zone.gross = AirVolume{453, unit::cubic_metre};
  zone.airing = AirChanges{5, unit::per_hour};
  zone.airing_from = HoldTime{60, unit::minute};
  return zone;
}

AirInput input_of(const Label& l) {
  AirInput input;
  input.label = &l;
  input.volume = LiquidVolume{0.4, unit::litre};
  input.flow = LiquidFlow{180, unit::millilitre_per_minute};
  return input;
}

}  // namespace

static void air_of_one_building(benchmark::State& state) {
  const Label l = label(static_cast<int>(state.range(0)));
  const Zone zone = house();
  const AirInput input = input_of(l);
  for (auto _ : state) benchmark::DoNotOptimize(air_after_fogging(zone, input));
}
BENCHMARK(air_of_one_building)->Arg(1)->Arg(2)->Arg(3);

static void air_with_low_and_high_case(benchmark::State& state) {
  const Label l = label(2);
  const Zone zone = house();
  const AirInput input = input_of(l);
  for (auto _ : state) benchmark::DoNotOptimize(air_with_cases(zone, input, {}));
}
BENCHMARK(air_with_low_and_high_case);

static void airing_out_for_a_deadline(benchmark::State& state) {
  const Label l = label(2);
  const Zone zone = house();
  const AirInput input = input_of(l);
  for (auto _ : state) benchmark::DoNotOptimize(airing_for_deadline(zone, input, HoldTime{5, unit::hour}));
}
BENCHMARK(airing_out_for_a_deadline);
