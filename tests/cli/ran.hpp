// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "cli/command.hpp"

namespace fogwright::test {

/// What one call of the program did.
struct Ran {
  int status = 0;
  std::string out, err;

  [[nodiscard]] nlohmann::json json() const { return nlohmann::json::parse(out); }
  [[nodiscard]] nlohmann::json error() const { return nlohmann::json::parse(err).at("error"); }
};

/// A machine that a test sets: its time, its environment, what is typed at it.
struct Machine {
  std::map<std::string, std::string> environment;
  std::int64_t now_ms = 1'767'225'600'000;  ///< 2026-01-01 00:00 UTC
  BootClock clock{"boot-1", 1000};
  std::vector<std::string> lines;  ///< what is typed, line by line
  /// Answers a question by what stands on the output so far; unset: the lines above.
  std::function<std::optional<std::string>(const std::string& shown)> on_line = {};
  /// Waits for a key; unset: the time passes and none is pressed.
  std::function<std::optional<char>(std::int64_t timeout_ms)> on_key = {};
  std::uint8_t random = 0;
  bool err_is_terminal = false;
  int terminal_width = 80;

  Ran run(std::vector<std::string> words) {
    std::ostringstream out;
    std::ostringstream err;
    std::size_t line = 0;
    Outside outside{.out = out,
                    .err = err,
                    .environment =
                        [this](const char* name) {
                          const auto found = environment.find(name);
                          return found == environment.end() ? std::nullopt : std::optional(found->second);
                        },
                    .err_is_terminal = err_is_terminal,
                    .terminal_width = terminal_width,
                    .now_ms = [this] { return now_ms; },
                    .boot_clock = [this] { return clock; },
                    .random =
                        [this](std::span<std::uint8_t> bytes) {
                          for (std::uint8_t& byte : bytes) byte = ++random;
                        },
                    .device = "test-device",
                    .read_line = [this, &line, &out]() -> std::optional<std::string> {
                      if (on_line) return on_line(out.str());
                      return line < lines.size() ? std::optional(lines[line++]) : std::nullopt;
                    },
                    .key = [this](std::int64_t timeout_ms) -> std::optional<char> {
                      if (on_key) return on_key(timeout_ms);
                      pass(timeout_ms);
                      return std::nullopt;
                    }};
    const int status = run_program(words, outside);
    return {status, out.str(), err.str()};
  }
  void pass(std::int64_t ms) {
    now_ms += ms;
    clock.uptime_ms += ms;
  }
};

/// Runs the program in this process, off a terminal, in an environment of its own.
inline Ran run(std::vector<std::string> words, std::map<std::string, std::string> environment = {}) {
  Machine machine;
  machine.environment = std::move(environment);
  return machine.run(std::move(words));
}

inline const std::string demo_labels = std::string(FOGWRIGHT_SOURCE_DIR) + "/product_profiles_demo/";
inline const std::string fenmist = demo_labels + "fenmist-rtu.toml";
inline const std::string brackwater = demo_labels + "brackwater-20.toml";
inline const std::string palelight = demo_labels + "palelight-hp.toml";

/// `plan` for 2,400 sq ft and three returns, with more words.
inline Ran plan(std::vector<std::string> more, const std::string& label = fenmist) {
  std::vector<std::string> words = {"plan", "--label", label};
  words.insert(words.end(), more.begin(), more.end());
  return run(words);
}

/// A file of this text, removed again.
class TemporaryFile {
 public:
  explicit TemporaryFile(const std::string& text, const std::string& ending = ".toml");
  ~TemporaryFile();
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

}  // namespace fogwright::test
