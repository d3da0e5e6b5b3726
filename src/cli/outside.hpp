// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <iosfwd>
#include <optional>
#include <string>

#include "fogwright/error.hpp"

namespace fogwright {

/// Everything a command touches outside the program; tests hand in their own.
struct Outside {
  std::ostream& out;
  std::ostream& err;
  std::function<std::optional<std::string>(const char* name)> environment;
  bool out_is_terminal = false;
  bool err_is_terminal = false;
  int terminal_width = 80;
};

/// The whole of a text file. "-" is standard input. Errors: file_fault; out_of_range over `largest` bytes.
[[nodiscard]] Result<std::string> read_file(const std::string& path, std::size_t largest = 1'000'000);

}  // namespace fogwright
