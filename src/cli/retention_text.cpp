// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/audit_text.hpp"
#include "desk/vessels.hpp"

namespace fogwright {
namespace {

std::string count_words(const RetentionLine& line) {
  if (line.count == 0) return "none in this book";
  std::string words = fmt::format("{} in this book", line.count);
  if (line.oldest_ms && line.newest_ms)
    words += fmt::format(", {} to {}", day_of(*line.oldest_ms), day_of(*line.newest_ms));
  if (line.over > 0) words += fmt::format("; {} past their time", line.over);
  if (line.next_over_ms) words += fmt::format("; the next may go on {}", day_of(*line.next_over_ms));
  if (line.over == 0 && !line.next_over_ms) words += "; none may go yet";
  return words;
}

void source_lines(const RetentionRule& rule, Page& page) {
  page.paragraph(fmt::format("[{}]", source_words(rule.kind, rule.citation)), "      ", Emphasis::quiet);
  if (!rule.remark.empty()) page.paragraph(rule.remark, "      ", Emphasis::quiet);
}

}  // namespace

void tell_retention(const std::vector<RetentionLine>& lines, Page& page) {
  page.heading("What must be kept, and how long");
  for (const RetentionLine& line : lines) {
    page.paragraph(fmt::format("{}: {}", line.rule->what, line.rule->keep), "  - ", Emphasis::strong);
    page.paragraph(count_words(line), "    ");
    source_lines(*line.rule, page);
  }
  page.blank();
  page.paragraph(
      "The entries of a book are never deleted. What stands beside them (a customer's name and address, a "
      "person's "
      "details), papers and backups can be disposed of: ask about one with --job or --person first. These are "
      "the "
      "least periods of the rules named; contracts, insurers and your state may ask for more.",
      "");
}

void tell_holds(std::string_view of, const std::vector<RetentionHold>& holds, Page& page) {
  if (holds.empty()) {
    page.paragraph(fmt::format("No rule known here asks to keep what stands beside {} any longer.", of), "");
    return;
  }
  page.paragraph(fmt::format("Do not dispose of what stands beside {} yet:", of), "", Emphasis::alarm);
  for (const RetentionHold& hold : holds) {
    page.paragraph(fmt::format("{}: {}", hold.what,
                               hold.until_ms ? fmt::format("until {}", day_of(*hold.until_ms - 1))
                                             : fmt::format("{}, no end is known yet", hold.rule->keep)),
                   "  - ");
    source_lines(*hold.rule, page);
  }
}

}  // namespace fogwright
