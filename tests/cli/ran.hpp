// SPDX-License-Identifier: Apache-2.0
#pragma once

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

/// Runs the program in this process, off a terminal, in an environment of its own.
inline Ran run(std::vector<std::string> words, std::map<std::string, std::string> environment = {}) {
  std::ostringstream out;
  std::ostringstream err;
  Outside outside{out, err, [&environment](const char* name) {
                    const auto found = environment.find(name);
                    return found == environment.end() ? std::nullopt : std::optional(found->second);
                  }};
  const int status = run_program(words, outside);
  return {status, out.str(), err.str()};
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
