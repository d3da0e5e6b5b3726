// SPDX-License-Identifier: Apache-2.0
#include <sys/ioctl.h>
#include <unistd.h>
#include <cstdlib>
#include <iostream>
#include <string>
#include <vector>

#include "cli/command.hpp"

namespace {

int terminal_width() {
  winsize size{};
  if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) return size.ws_col;
  return 80;
}

std::optional<std::string> environment(const char* name) {
  const char* value = std::getenv(name);
  return value ? std::optional<std::string>(value) : std::nullopt;
}

}  // namespace

int main(int argc, char** argv) {
  std::ios::sync_with_stdio(false);
  fogwright::Outside outside{
      std::cout,       std::cerr, environment, isatty(STDOUT_FILENO) != 0, isatty(STDERR_FILENO) != 0,
      terminal_width()};
  return fogwright::run_program({argv + 1, argv + argc}, outside);
}
