// SPDX-License-Identifier: Apache-2.0
/// Stands in for libFuzzer's main: gives every file of a corpus folder to the fuzz target once. A missing or
/// empty folder is a failure, so that a target without a corpus does not pass for a tested one.

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

void replay(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
}

}  // namespace

int main(int argc, char** argv) {
  const std::filesystem::path corpus = argc == 2 ? argv[1] : "";
  if (!std::filesystem::is_directory(corpus)) {
    std::cerr << "no corpus folder at '" << corpus.string() << "'\n";
    return 1;
  }
  std::size_t count = 0;
  for (const auto& entry : std::filesystem::directory_iterator(corpus)) {
    if (!entry.is_regular_file()) continue;
    replay(entry.path());
    ++count;
  }
  std::cout << count << " inputs replayed\n";
  return count == 0 ? 1 : 0;
}
