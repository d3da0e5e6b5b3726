// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Who the firm is and whom to call, as papers say it.

#include <optional>
#include <string>
#include <vector>

#include "fogwright/desk/context.hpp"

namespace fogwright {

struct FirmContact {
  std::string who, number;  ///< "office, day and night", "555-0100"
};
struct Firm {
  std::string name;
  std::vector<FirmContact> contacts;  ///< in the order in which they are to be called
  /// Papers add the national numbers of the United States: Poison Help and 911.
  bool united_states = true;
};
/// Replaces what was said before. Errors: missing_value, out_of_range, not_understood (a number without a
/// digit).
[[nodiscard]] Result<Drafts> name_firm(const DeskContext& context, const Firm& firm);

/// nullopt where nobody named it.
[[nodiscard]] std::optional<Firm> firm_of(const Documents& documents);

}  // namespace fogwright
