// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <memory>
#include <string>

#include "fogwright/book/documents.hpp"
#include "fogwright/label.hpp"

namespace fogwright {

struct AdoptedLabel {
  std::string digest;
  std::shared_ptr<const Label> label;
};
/// The label of a product that holds now. Errors: not_found, bad_label.
[[nodiscard]] Result<AdoptedLabel> adopted_label(const Documents& now, const std::string& product);

}  // namespace fogwright
