// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstdint>
#include <map>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "cli/command.hpp"

namespace fogwright::demo {

/// What one call of the program did.
struct Done {
  int status = 0;
  std::string out, err;
};

/// A machine for the demo: its clock goes on only as far as the demo lets it, and a scripted person answers.
class StageMachine {
 public:
  StageMachine(std::string book, std::string labels, std::int64_t now_ms);

  /// Runs one call as `by`. Questions are answered by `answers`: the first whose words stand in the question;
  /// "yes" otherwise.
  Done run(const std::string& by, std::vector<std::string> words,
           const std::map<std::string, std::string>& answers = {});

  /// Whether the person presses q when a hold begins, instead of waiting for its end.
  void leave_in_hold(bool leave) { leave_in_hold_ = leave; }
  void pass(std::int64_t ms);
  void set_time(std::int64_t now_ms);
  [[nodiscard]] std::int64_t now_ms() const { return now_ms_; }

 private:
  std::optional<std::string> answer(const std::map<std::string, std::string>& answers);
  std::optional<char> key(std::int64_t timeout_ms);

  std::string book_, labels_;
  std::int64_t now_ms_;
  std::int64_t booted_ms_;
  bool leave_in_hold_ = false;
  std::mt19937_64 random_{20260301};
  std::ostringstream out_;
};

}  // namespace fogwright::demo
