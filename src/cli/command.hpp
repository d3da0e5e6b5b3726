// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "cli/outside.hpp"
#include "fogwright/report.hpp"

namespace fogwright {

/// One option of a command. Options with `value` take one; a repeated option may be given several times.
struct OptionRow {
  const char* name;
  const char* value;  ///< what to write, e.g. "AREA"; nullptr for a switch
  const char* help;
  bool repeated = false;
  const char* pointer = nullptr;  ///< where a plan option goes in the request (JSON pointer)
};

/// The options of one call, as typed.
class Options {
 public:
  [[nodiscard]] bool has(std::string_view name) const { return !all(name).empty(); }
  [[nodiscard]] std::optional<std::string> text(std::string_view name) const;
  [[nodiscard]] std::vector<std::string> all(std::string_view name) const;
  [[nodiscard]] const std::vector<std::string>& operands() const { return operands_; }

  void add(std::string name, std::string value) { given_.emplace_back(std::move(name), std::move(value)); }
  void add_operand(std::string value) { operands_.push_back(std::move(value)); }

 private:
  std::vector<std::pair<std::string, std::string>> given_;
  std::vector<std::string> operands_;
};

enum class Format { text, json, csv, json_lines };

/// The table in what a command shows: where its rows are (rows_at in report/rows.hpp), and the columns that
/// come first. Without `at` the command has no table.
struct Rows {
  std::string_view at;
  std::vector<std::string_view> columns;
};

/// What a command works with.
struct Call {
  const Options& options;
  Outside& outside;
  TextStyle style;
  bool json = false;
  Format format = Format::text;
  const Rows& rows = no_rows;

  static const Rows no_rows;
};
inline const Rows Call::no_rows{};

using Outcome = tl::expected<void, Faults>;
[[nodiscard]] inline tl::unexpected<Faults> refuse(Error error) {
  return tl::make_unexpected(Faults{std::move(error)});
}

/// A row of the command table.
struct Command {
  std::string_view name;      ///< "plan"
  std::string_view action;    ///< "check" in `label check`; empty for a command without actions
  std::string_view operands;  ///< as shown in help, e.g. "FILE..."
  std::string_view summary;
  std::vector<OptionRow> options;
  Outcome (*run)(const Call& call);
  std::string_view example;
  Rows rows = {};
};

[[nodiscard]] const std::vector<Command>& commands();
[[nodiscard]] const std::vector<OptionRow>& common_options();

/// Reads the words after the command by its table of options. Errors: bad_usage.
[[nodiscard]] Result<Options> read_options(const Command& command, const std::vector<std::string>& words);

[[nodiscard]] std::string command_help(const Command& command, const TextStyle& style);
[[nodiscard]] std::string program_help(const TextStyle& style);

/// Runs one call of the program; returns its exit status. Exceptions are caught here and nowhere else.
[[nodiscard]] int run_program(const std::vector<std::string>& words, Outside& outside);

}  // namespace fogwright
