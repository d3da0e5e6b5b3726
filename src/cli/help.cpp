// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/command.hpp"
#include "report/page.hpp"

namespace fogwright {
namespace {

void option_help(Page& page, const OptionRow& row) {
  std::string name = fmt::format("--{}", row.name);
  if (row.value) name += fmt::format(" {}", row.value);
  page.line("  " + name, Emphasis::strong);
  page.paragraph(row.repeated ? fmt::format("{} (may be repeated)", row.help) : std::string(row.help),
                 "      ");
}

std::string call_words(const Command& command) {
  std::string words(command.name);
  if (!command.action.empty()) words += fmt::format(" {}", command.action);
  return words;
}

/// Of a command that stands alone and has actions as well.
void actions_help(Page& page, const Command& command) {
  if (!command.action.empty()) return;
  bool first = true;
  for (const Command& other : commands()) {
    if (other.name != command.name || other.action.empty()) continue;
    if (first) page.heading("Actions");
    first = false;
    page.field(call_words(other), other.summary);
  }
}

}  // namespace

std::string command_help(const Command& command, const TextStyle& style) {
  Page page(style);
  page.paragraph(fmt::format("fogwright {} [options] {}", call_words(command), command.operands), "",
                 Emphasis::strong);
  page.paragraph(command.summary, "");
  actions_help(page, command);
  if (!command.options.empty()) page.heading("Options");
  for (const OptionRow& row : command.options) option_help(page, row);
  page.heading("Options of every command");
  for (const OptionRow& row : common_options()) option_help(page, row);
  if (!command.example.empty()) {
    page.heading("Example");
    page.paragraph(command.example, "  ");
  }
  return std::move(page).take();
}

std::string program_help(const TextStyle& style) {
  Page page(style);
  page.paragraph("fogwright plans, gates, times and records the fogging of cleaned air ducts.", "",
                 Emphasis::strong);
  page.paragraph("fogwright COMMAND [ACTION] [options]; fogwright COMMAND --help tells more.", "");
  page.blank();
  for (const Command& command : commands()) page.field(call_words(command), command.summary);
  page.blank();
  page.paragraph(
      "Exit status: 0 done; 1 the gate or a rule refuses; 2 the call is off; 3 bad data; 4 storage or system "
      "fault.",
      "");
  return std::move(page).take();
}

}  // namespace fogwright
