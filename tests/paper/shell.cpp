// SPDX-License-Identifier: Apache-2.0
#include "shell.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <regex>

#include "golden.hpp"

namespace fogwright::test {
namespace fs = std::filesystem;

Ran run(const std::string& command) {
  FILE* pipe = popen(("exec 2>&1; " + command).c_str(), "r");
  REQUIRE(pipe != nullptr);
  Ran ran;
  std::array<char, 4096> part{};
  while (const auto count = fread(part.data(), 1, part.size(), pipe)) ran.out.append(part.data(), count);
  ran.status = WEXITSTATUS(pclose(pipe));
  return ran;
}

const fs::path& scratch() {
  struct Folder {
    fs::path path = fs::temp_directory_path() / ("fogwright-paper-" + std::to_string(getpid()));
    Folder() { fs::create_directories(path); }
    ~Folder() { fs::remove_all(path); }
  };
  static const Folder folder;
  return folder.path;
}

fs::path write_file(const std::string& name, const std::string& bytes) {
  const fs::path path = scratch() / name;
  std::ofstream(path, std::ios::binary) << bytes;
  return path;
}

fs::path pdf_file(const std::string& name, const paper::Paper& paper) {
  const auto pdf = paper::pdf_of(paper);
  INFO((pdf ? "" : pdf.error().message));
  REQUIRE(pdf.has_value());
  return write_file(name + ".pdf", *pdf);
}

std::string text_of(const fs::path& pdf) {
  const auto ran = run("pdftotext -enc UTF-8 '" + pdf.string() + "' -");
  REQUIRE(ran.status == 0);
  return one_blank(ran.out);
}

std::string one_blank(const std::string& text) {
  return std::regex_replace(text, std::regex("[ \\n\\f]+"), " ");
}

int pages_of(const fs::path& pdf) {
  const auto ran = run("pdfinfo '" + pdf.string() + "'");
  std::smatch found;
  REQUIRE(std::regex_search(ran.out, found, std::regex("Pages: +([0-9]+)")));
  return std::stoi(found[1]);
}

}  // namespace fogwright::test

/// Fontconfig keeps 288 bytes of its caches to the end of the process, however many papers are set.
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() { return "leak:libfontconfig.so"; }
