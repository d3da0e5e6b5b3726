// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fogwright::profile {

/// The lines of a TOML text, some of them blanked.
class Lines {
 public:
  explicit Lines(std::string_view text);
  [[nodiscard]] std::string text() const;
  /// Blanks the statement that an error at this place (counted from 1) most likely belongs to: the line and
  /// what its open bracket spans; the list above it, when that was never closed; all of a table whose header
  /// cannot be read. False when nothing is left to blank there.
  [[nodiscard]] bool blank_statement_at(std::size_t line, std::size_t column);
  /// The same for an error at the end of the file: a list or a text was never closed.
  [[nodiscard]] bool blank_last_statement();

 private:
  [[nodiscard]] std::size_t statement_start(std::size_t index) const;
  [[nodiscard]] std::size_t statement_end(std::size_t index) const;
  [[nodiscard]] int open_brackets(std::size_t begin, std::size_t end) const;
  bool blank(std::size_t begin, std::size_t end);

  std::vector<std::string> lines_;
};

}  // namespace fogwright::profile
