// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <boost/program_options.hpp>

#include "cli/command.hpp"

namespace fogwright {
namespace {

namespace po = boost::program_options;

std::string full_name(const Command& command) {
  return command.action.empty() ? std::string(command.name)
                                : fmt::format("{} {}", command.name, command.action);
}

po::options_description describe(const Command& command) {
  po::options_description all;
  const auto add = [&all](const OptionRow& row) {
    if (row.value)
      all.add_options()(row.name, po::value<std::vector<std::string>>(), row.help);
    else
      all.add_options()(row.name, row.help);
  };
  for (const OptionRow& row : command.options) add(row);
  for (const OptionRow& row : common_options()) add(row);
  return all;
}

const OptionRow* find_row(const Command& command, const std::string& name) {
  for (const auto* rows : {&command.options, &common_options()})
    for (const OptionRow& row : *rows)
      if (name == row.name) return &row;
  return nullptr;
}

/// "-5 C": a value. No option's name begins with a digit or a point.
bool is_negative_number(const std::string& word) {
  return word.size() > 1 && word[0] == '-' &&
         (std::isdigit(static_cast<unsigned char>(word[1])) != 0 || word[1] == '.');
}

/// "--area -5" is meant as a value, so that the person is told about the area and not about an option "-5".
std::vector<std::string> join_negative_numbers(const Command& command, const std::vector<std::string>& words) {
  std::vector<std::string> joined;
  for (const std::string& word : words) {
    const bool after_option = !joined.empty() && joined.back().starts_with("--");
    const OptionRow* option = after_option ? find_row(command, joined.back().substr(2)) : nullptr;
    if (is_negative_number(word) && option && option->value)
      joined.back() += "=" + word;
    else
      joined.push_back(word);
  }
  return joined;
}

/// Takes a negative number that stands by itself for an operand, where it would be read as a short option.
std::vector<po::option> negative_operand(std::vector<std::string>& words) {
  if (words.empty() || !is_negative_number(words.front())) return {};
  po::option operand;
  operand.value = operand.original_tokens = {words.front()};
  words.erase(words.begin());
  return {operand};
}

}  // namespace

std::optional<std::string> Options::text(std::string_view name) const {
  const auto values = all(name);
  return values.empty() ? std::nullopt : std::optional(values.back());
}

std::vector<std::string> Options::all(std::string_view name) const {
  std::vector<std::string> values;
  for (const auto& [key, value] : given_)
    if (key == name) values.push_back(value);
  return values;
}

Result<Options> read_options(const Command& command, const std::vector<std::string>& words) {
  const std::string hint = fmt::format("see fogwright {} --help", full_name(command));
  Options options;
  try {
    const auto description = describe(command);
    const auto parsed = po::command_line_parser(join_negative_numbers(command, words))
                            .options(description)
                            .style(po::command_line_style::unix_style & ~po::command_line_style::allow_guessing)
                            .positional(po::positional_options_description().add("operand", -1))
                            .extra_style_parser(negative_operand)
                            .run();
    for (const po::option& option : parsed.options) {
      if (option.string_key == "operand" || option.string_key.empty()) {
        for (const std::string& value : option.value) options.add_operand(value);
        continue;
      }
      const OptionRow* row = find_row(command, option.string_key);
      if (row && row->value && !row->repeated && options.has(option.string_key))
        return fail(ErrorCode::bad_usage, fmt::format("--{} is given twice", option.string_key),
                    "--" + option.string_key, "give it once");
      options.add(option.string_key, option.value.empty() ? "" : option.value.front());
    }
  } catch (const po::error& error) {
    return fail(ErrorCode::bad_usage, error.what(), full_name(command), hint);
  }
  if (command.operands.empty() && !options.operands().empty())
    return fail(ErrorCode::bad_usage, fmt::format("\"{}\" is not expected here", options.operands().front()),
                full_name(command), hint);
  return options;
}

}  // namespace fogwright
