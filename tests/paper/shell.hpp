// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <filesystem>
#include <string>

#include "fogwright/paper.hpp"

namespace fogwright::test {

struct Ran {
  int status = 0;
  std::string out;  ///< both streams
};
/// Runs a command of the shell.
[[nodiscard]] Ran run(const std::string& command);

/// A folder of this process, gone at its end.
[[nodiscard]] const std::filesystem::path& scratch();
[[nodiscard]] std::filesystem::path write_file(const std::string& name, const std::string& bytes);

/// Sets the paper; gives the file.
[[nodiscard]] std::filesystem::path pdf_file(const std::string& name, const paper::Paper& paper);
/// What pdftotext reads, in reading order; blanks and line breaks become one blank each.
[[nodiscard]] std::string text_of(const std::filesystem::path& pdf);
[[nodiscard]] std::string one_blank(const std::string& text);
[[nodiscard]] int pages_of(const std::filesystem::path& pdf);

}  // namespace fogwright::test
