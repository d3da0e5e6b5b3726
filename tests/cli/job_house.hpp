// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "ran.hpp"

namespace fogwright::test {

/// Power lost in the middle: nothing of the program runs after it.
struct PowerLost {};

/// A book of the demo firm in a folder of its own: crew with papers, product on the van, one job J1. Somebody
/// answers every question of `job run`, and times each return to its target.
class JobHouse {
 public:
  /// "fenmist-rtu" or "brackwater-20" (whose batch M1 is mixed).
  explicit JobHouse(const std::string& product);
  /// A copy of that book as it is now.
  JobHouse(const JobHouse& other);
  JobHouse& operator=(const JobHouse&) = delete;
  ~JobHouse();

  Ran call(std::vector<std::string> words);  ///< by rowan
  Ran done(std::vector<std::string> words);  ///< and it must be done
  [[nodiscard]] nlohmann::json job();        ///< `job show J1 --json`
  [[nodiscard]] std::string answer(const std::string& item) const;
  void meet(const std::string& stage);  ///< every open item of a stage, by `job check`

  /// `job run J1`; after so many answers nobody answers any more (negative: to the end).
  Ran walk(int answers = -1);
  /// The power fails at this wait for a key.
  int power_fails_at = -1;
  int keys_waited = 0;
  /// Gives the machine a home folder, in the folder of the book; returns where running stretches are kept in
  /// it.
  std::string give_home();
  std::int64_t hold_tick_ms = 60'000;  ///< how much time each wait in the hold takes

  Machine machine;

 private:
  [[nodiscard]] std::string reply(const std::string& shown) const;
  std::optional<char> press(std::int64_t timeout_ms);

  std::string product_;
  std::string path_;
  std::int64_t fogged_ms_ = 0;
};

}  // namespace fogwright::test
