// SPDX-License-Identifier: Apache-2.0
#include "label/syntax.hpp"
#include "label/tables.hpp"

namespace fogwright {

tl::expected<Label, Faults> read_label(std::string_view toml_text, std::string_view file) {
  auto parsed = profile::parse_profile(toml_text);
  profile::Reading reading(file, parsed.faults.empty());
  for (auto& fault : parsed.faults) reading.fault(fault.at, std::move(fault.message), std::move(fault.hint));
  Label label;
  profile::read_table(reading, profile::label_table, profile::label_table.header, parsed.table, {1, 1}, label);
  if (auto faults = reading.take(); !faults.empty()) return tl::make_unexpected(std::move(faults));
  return label;
}

}  // namespace fogwright
