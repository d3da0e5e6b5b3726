// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <cmath>
#include <iterator>
#include <numeric>

#include "dose/simulation.hpp"
#include "fogwright/dose.hpp"

namespace fogwright {
namespace {

constexpr int least_draws = 1000;

// Of one job's flow over the mean flow: the scatter of a single run and what the mean itself may be off.
double flow_deviation(const Calibration& calibration) {
  return calibration.relative_spread * std::sqrt(1 + 1.0 / calibration.runs);
}

double draw_flow(RandomDraws& random, const Calibration& calibration) {
  if (calibration.runs >= 2) return random.normal(1, flow_deviation(calibration));
  // Only bounds are known, as with the gallon rule (JCGM 101:2008, 6.4.2); none for a flow that was entered.
  return random.rectangular(calibration.low / calibration.flow, calibration.high / calibration.flow);
}

}  // namespace

SpreadBand summarise(std::vector<double>& values) {
  const auto count = static_cast<double>(values.size());
  SpreadBand band;
  band.mean = std::accumulate(values.begin(), values.end(), 0.0) / count;
  const double squares = std::accumulate(values.begin(), values.end(), 0.0, [&](double sum, double value) {
    return sum + (value - band.mean) * (value - band.mean);
  });
  band.deviation = std::sqrt(squares / (count - 1));

  const auto covered = (std::ssize(values) * 95 + 50) / 100;
  const auto below = (std::ssize(values) - covered + 1) / 2;  // r of JCGM 101, counted from 1
  const auto low = values.begin() + (below - 1);
  const auto high = low + covered;
  std::nth_element(values.begin(), low, values.end());
  std::nth_element(low + 1, high, values.end());
  band.low = *low;
  band.high = *high;
  return band;
}

SpreadBand dose_spread(const SpreadInput& input, int draws, std::uint64_t seed) {
  const double time_deviation = input.time_standard_deviation_s / static_cast<double>(input.target_seconds);
  return simulate(std::max(draws, least_draws), seed, [&](RandomDraws& random) {
    const double flow = draw_flow(random, input.calibration);
    const double time = random.normal(1, time_deviation);
    const double strength = random.normal(1, input.active_relative_deviation);
    return std::max(flow, 0.0) * std::max(time, 0.0) * std::max(strength, 0.0);  // nothing flows backwards
  });
}

}  // namespace fogwright
