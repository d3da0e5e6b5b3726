// SPDX-License-Identifier: Apache-2.0
#include "dose/apportion.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "fogwright/dose.hpp"

namespace fogwright {

Apportioner::Apportioner(std::span<const std::int64_t> weights)
    : weights_(weights),
      equal_(std::adjacent_find(weights.begin(), weights.end(), std::not_equal_to<>()) == weights.end()) {
  if (equal_) return;
  remainders_.resize(weights.size());
  for (std::int64_t weight : weights) sum_ += static_cast<Wide>(weight);
}

/// All remainders are the same, so the earlier weights get what is left.
void Apportioner::split_equally(std::int64_t total, std::span<std::int64_t> shares) const {
  const auto count = static_cast<std::int64_t>(weights_.size());
  const auto left = static_cast<std::size_t>(total % count);
  for (std::size_t i = 0; i < weights_.size(); ++i) shares[i] = total / count + (i < left ? 1 : 0);
}

void Apportioner::split(std::int64_t total, std::span<std::int64_t> shares) {
  if (equal_) return split_equally(total, shares);
  std::int64_t left = total;
  for (std::size_t i = 0; i < weights_.size(); ++i) {
    const Wide product = static_cast<Wide>(total) * static_cast<Wide>(weights_[i]);
    shares[i] = static_cast<std::int64_t>(product / sum_);
    left -= shares[i];
    remainders_[i] = {product % sum_, i};
  }
  if (left == 0) return;

  // Fewer units are left than there are remainders above zero, so a weight of zero never gets one.
  const auto end_of_served = remainders_.begin() + static_cast<std::ptrdiff_t>(left);
  std::nth_element(remainders_.begin(), end_of_served, remainders_.end(),
                   [](const Remainder& a, const Remainder& b) {
                     return a.rest != b.rest ? a.rest > b.rest : a.index < b.index;
                   });
  for (auto it = remainders_.begin(); it != end_of_served; ++it) ++shares[it->index];
}

Result<std::vector<std::int64_t>> apportion(std::int64_t total, std::span<const std::int64_t> weights) {
  if (total < 0)
    return fail(ErrorCode::out_of_range, fmt::format("A total of {} cannot be split.", total), "total",
                "Give a total of zero or more.");
  const auto negative = std::find_if(weights.begin(), weights.end(), [](std::int64_t w) { return w < 0; });
  if (negative != weights.end())
    return fail(ErrorCode::out_of_range, fmt::format("A weight of {} is negative.", *negative),
                fmt::format("weight {}", negative - weights.begin() + 1), "Give weights of zero or more.");
  if (std::all_of(weights.begin(), weights.end(), [](std::int64_t w) { return w == 0; }))
    return fail(ErrorCode::out_of_range, "There is no weight above zero to split a total over.", "weights",
                "Give at least one weight above zero.");

  std::vector<std::int64_t> shares(weights.size());
  Apportioner(weights).split(total, shares);
  return shares;
}

}  // namespace fogwright
