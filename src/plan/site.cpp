// SPDX-License-Identifier: Apache-2.0
#include "fogwright/plan.hpp"
#include "plan/request_reader.hpp"
#include "plan/toml_tree.hpp"

namespace fogwright {

tl::expected<PlanRequest, Faults> read_site(std::string_view toml_text, std::string_view file,
                                            const Overlay& overlay) {
  auto tree = read_toml_tree(toml_text, file);
  if (!tree) return tl::make_unexpected(tree.error());
  tree->value.merge_patch(overlay.members);
  return read_request_members(tree->value,
                              overlay.bare_numbers ? BareNumbers::us_customary : BareNumbers::refused,
                              [&](const std::string& pointer) -> Place {
                                const auto option = overlay.names.find(pointer);
                                if (option != overlay.names.end()) return {option->second};
                                return {tree->where(pointer), ErrorCode::bad_site};
                              });
}

}  // namespace fogwright
