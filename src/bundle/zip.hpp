// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <span>
#include <string>

#include "fogwright/error.hpp"

namespace fogwright::bundle {

/// One file in a bundle.
struct Member {
  std::string name;  ///< ASCII, folders by '/'
  std::string bytes;
};

/// A zip file of these members in this order. The same members give the same bytes: no clock, no owner, no time
/// zone goes in. Errors: internal_fault.
[[nodiscard]] Result<std::string> zip_of(std::span<const Member> members);

}  // namespace fogwright::bundle
