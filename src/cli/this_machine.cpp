// SPDX-License-Identifier: Apache-2.0
#include <poll.h>
#include <sys/ioctl.h>
#include <sys/random.h>
#include <termios.h>
#include <unistd.h>

#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iostream>
#include <stdexcept>

#include "cli/outside.hpp"

namespace fogwright {
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

std::int64_t clock_ms(clockid_t clock) {
  timespec time{};
  clock_gettime(clock, &time);
  return static_cast<std::int64_t>(time.tv_sec) * 1000 + time.tv_nsec / 1'000'000;
}

BootClock boot_clock() {
  std::string boot;
  std::ifstream("/proc/sys/kernel/random/boot_id") >> boot;
  return {boot, clock_ms(CLOCK_BOOTTIME)};
}

void random_bytes(std::span<std::uint8_t> bytes) {
  if (getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    throw std::runtime_error("the system gives no random bytes");
}

std::string host_name() {
  char name[256] = {};
  return gethostname(name, sizeof name - 1) == 0 && name[0] != '\0' ? std::string(name)
                                                                    : std::string("this-machine");
}

std::optional<std::string> read_line() {
  std::string line;
  if (!std::getline(std::cin, line)) return std::nullopt;
  return line;
}

/// Takes keys without waiting for Enter while it lives.
class SingleKeys {
 public:
  SingleKeys() {
    active_ = isatty(STDIN_FILENO) != 0 && tcgetattr(STDIN_FILENO, &before_) == 0;
    if (!active_) return;
    termios now = before_;
    now.c_lflag &= ~static_cast<tcflag_t>(ICANON | ECHO);
    tcsetattr(STDIN_FILENO, TCSANOW, &now);
  }
  ~SingleKeys() {
    if (active_) tcsetattr(STDIN_FILENO, TCSANOW, &before_);
  }
  SingleKeys(const SingleKeys&) = delete;
  SingleKeys& operator=(const SingleKeys&) = delete;

 private:
  bool active_ = false;
  termios before_{};
};

std::optional<char> key(std::int64_t timeout_ms) {
  const SingleKeys single;
  pollfd input{STDIN_FILENO, POLLIN, 0};
  if (poll(&input, 1, static_cast<int>(timeout_ms)) <= 0 || (input.revents & POLLIN) == 0) return std::nullopt;
  char pressed = 0;
  if (read(STDIN_FILENO, &pressed, 1) != 1) return std::nullopt;
  return pressed;
}

}  // namespace

Outside this_machine() {
  return {.out = std::cout,
          .err = std::cerr,
          .environment = environment,
          .out_is_terminal = isatty(STDOUT_FILENO) != 0,
          .err_is_terminal = isatty(STDERR_FILENO) != 0,
          .terminal_width = terminal_width(),
          .now_ms = [] { return clock_ms(CLOCK_REALTIME); },
          .boot_clock = boot_clock,
          .random = random_bytes,
          .device = host_name(),
          .in_is_terminal = isatty(STDIN_FILENO) != 0,
          .read_line = read_line,
          .key = key};
}

}  // namespace fogwright
