// SPDX-License-Identifier: Apache-2.0
#pragma once

/// TOML text to a TOML table, past every syntax error.

#include <toml++/toml.h>

#include <string>
#include <string_view>
#include <vector>

namespace fogwright::profile {

struct SyntaxFault {
  toml::source_position at;
  std::string message;
  std::string hint;
};

struct Parsed {
  toml::table table;  ///< what could be read
  std::vector<SyntaxFault> faults;
};

/// The parser stops at its first error; each faulty statement is then blanked (lines keep their numbers) and
/// the rest parsed again, so that one run names them all, up to 25.
[[nodiscard]] Parsed parse_profile(std::string_view text);

}  // namespace fogwright::profile
