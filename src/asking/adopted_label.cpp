// SPDX-License-Identifier: Apache-2.0
#include "asking/adopted_label.hpp"

namespace fogwright {

Result<AdoptedLabel> adopted_label(const Documents& now, const std::string& product) {
  const auto known = now.get("product", product);
  std::string digest = known ? known->at("current").get<std::string>() : std::string();
  const auto adopted = known ? now.get("label", digest) : std::nullopt;
  if (!adopted)
    return fail(ErrorCode::not_found, "no label of that product is adopted", "product",
                "GET /api/v1/products lists them");
  auto label = read_label(adopted->at("text").get<std::string>(), product);
  if (!label) return tl::make_unexpected(label.error().front());
  return AdoptedLabel{std::move(digest), std::make_shared<const Label>(std::move(*label))};
}

}  // namespace fogwright
