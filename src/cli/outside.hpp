// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <functional>
#include <iosfwd>
#include <optional>
#include <span>
#include <string>

#include "fogwright/desk/context.hpp"
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

  std::function<std::int64_t()> now_ms = {};   ///< UTC
  std::function<BootClock()> boot_clock = {};  ///< the running boot and the time since it
  std::function<void(std::span<std::uint8_t>)> random = {};
  std::string device = {};  ///< name of this machine
  bool in_is_terminal = false;
  std::function<std::optional<std::string>()> read_line =
      {};  ///< one line of standard input; nullopt at its end
  /// Waits for a key at most so long; nullopt where none was pressed. Does not wait for the Enter key on a
  /// terminal.
  std::function<std::optional<char>(std::int64_t timeout_ms)> key = {};
};

/// This machine: its streams, clocks, environment, terminal.
[[nodiscard]] Outside this_machine();

/// The whole of a text file. "-" is standard input. Errors: file_fault; out_of_range over `largest` bytes.
[[nodiscard]] Result<std::string> read_file(const std::string& path, std::size_t largest = 1'000'000);

/// Writes a new file whose bytes are durable before it has its name. Errors: already_exists, file_fault.
[[nodiscard]] Result<void> write_new_file(const std::string& path, std::string_view bytes,
                                          bool only_for_owner = false);

}  // namespace fogwright
