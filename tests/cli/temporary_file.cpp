// SPDX-License-Identifier: Apache-2.0
#include <unistd.h>

#include <atomic>
#include <filesystem>
#include <fstream>

#include "ran.hpp"

namespace fogwright::test {

TemporaryFile::TemporaryFile(const std::string& text, const std::string& ending) {
  static std::atomic<int> count{0};
  path_ = (std::filesystem::temp_directory_path() /
           ("fogwright-test-" + std::to_string(getpid()) + "-" + std::to_string(count++) + ending))
              .string();
  std::ofstream(path_, std::ios::binary) << text;
}

TemporaryFile::~TemporaryFile() {
  std::error_code ignored;
  std::filesystem::remove(path_, ignored);
}

}  // namespace fogwright::test
