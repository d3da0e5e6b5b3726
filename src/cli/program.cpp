// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <charconv>
#include <ostream>

#include "asking/zone_fault.hpp"
#include "cli/command.hpp"
#include "cli/printing.hpp"
#include "cli/version.hpp"
#include "fogwright/store.hpp"
#include "office/exit_status.hpp"

namespace fogwright {
namespace {

int report(const Faults& faults, bool json, Outside& outside) {
  outside.out.flush();
  // Words are wrapped on a terminal only: what reads a file or a pipe finds each sentence in one line.
  constexpr int unbounded = 1'000'000;
  print_faults(faults, json, outside.err_is_terminal ? outside.terminal_width : unbounded, outside.err);
  return static_cast<int>(exit_status(faults.front().code));
}

/// The command that the words name, and how many of them do. A name may stand alone and have actions as well
/// ("audit", "audit rules"): the action is looked for first.
std::pair<const Command*, std::size_t> find_command(const std::vector<std::string>& words) {
  const Command* alone = nullptr;
  for (const Command& command : commands()) {
    if (words[0] != command.name) continue;
    if (command.action.empty())
      alone = &command;
    else if (words.size() > 1 && words[1] == command.action)
      return {&command, 2};
  }
  return {alone, alone ? 1U : 0U};
}

Error unknown_command(const std::vector<std::string>& words) {
  std::string actions;
  for (const Command& command : commands())
    if (words[0] == command.name) actions += (actions.empty() ? "" : ", ") + std::string(command.action);
  if (actions.empty())
    return {ErrorCode::bad_usage, fmt::format("\"{}\" is not a command", words[0]), {}, "see fogwright help"};
  return {ErrorCode::bad_usage, fmt::format("{} needs one of its actions", words[0]), words[0],
          "known: " + actions};
}

Result<int> width_of(const Options& options, const Outside& outside) {
  const auto typed = options.text("width");
  if (!typed) return outside.terminal_width;
  int width = 0;
  const auto [end, error] = std::from_chars(typed->data(), typed->data() + typed->size(), width);
  if (error != std::errc{} || end != typed->data() + typed->size() || width < 32 || width > 1000)
    return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a width", *typed), "--width",
                "write a number of columns from 32 to 1000");
  return width;
}

Result<TextStyle> style_of(const Options& options, const Outside& outside) {
  TextStyle style;
  const auto width = width_of(options, outside);
  if (!width) return tl::make_unexpected(width.error());
  style.width = *width;
  const std::string units = options.text("units").value_or("us");
  if (units != "us" && units != "metric")
    return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a unit system", units), "--units",
                "write us or metric");
  style.units = units == "metric" ? UnitSystem::metric : UnitSystem::us_customary;
  const std::string colour = options.text("color").value_or("auto");
  if (colour != "auto" && colour != "always" && colour != "never")
    return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a choice for colour", colour), "--color",
                "write auto, always or never");
  const auto no_colour = outside.environment("NO_COLOR");
  style.colour =
      colour == "always" || (colour == "auto" && outside.out_is_terminal && (!no_colour || no_colour->empty()));
  return style;
}

int run_command(const Command& command, const std::vector<std::string>& rest, bool json, Outside& outside) {
  const auto options = read_options(command, rest);
  if (!options) return report({options.error()}, json, outside);
  const auto style = style_of(*options, outside);
  if (!style) return report({style.error()}, json, outside);
  if (options->has("help")) {
    outside.out << command_help(command, *style);
    return 0;
  }
  const auto format = format_of(*options, command);
  if (!format) return report({format.error()}, json, outside);
  const Outcome outcome =
      command.run({*options, outside, *style, *format == Format::json, *format, command.rows});
  return outcome ? 0 : report(outcome.error(), json, outside);
}

int dispatch(const std::vector<std::string>& words, Outside& outside) {
  const bool json = wants_json(words);
  if (words.empty() || words[0] == "help" || words[0] == "--help" || words[0] == "-h") {
    outside.out << program_help({outside.terminal_width, false});
    return words.empty() ? static_cast<int>(ExitStatus::usage) : 0;
  }
  if (words[0] == "--version" || words[0] == "version") {
    outside.out << "fogwright " << program_version << '\n';
    return 0;
  }
  const auto [command, used] = find_command(words);
  if (!command) return report({unknown_command(words)}, json, outside);
  return run_command(*command, {words.begin() + static_cast<std::ptrdiff_t>(used), words.end()}, json, outside);
}

}  // namespace

int run_program(const std::vector<std::string>& words, Outside& outside) {
  try {
    const int status = dispatch(words, outside);
    outside.out.flush();
    if (!outside.out)
      return report({{ErrorCode::file_fault, "the output could not be written", "standard output",
                      "check the disk or the pipe"}},
                    wants_json(words), outside);
    return status;
  } catch (const StorageFault& fault) {
    return report({{fault.code(), fault.what(), {}, fault.hint()}}, wants_json(words), outside);
  } catch (const ZoneFault& fault) {
    return report({fault.error()}, wants_json(words), outside);
  } catch (const std::exception& fault) {
    return report(
        {{ErrorCode::internal_fault, fault.what(), {}, "this is a defect of the program; please report it"}},
        wants_json(words), outside);
  }
}

}  // namespace fogwright
