// SPDX-License-Identifier: Apache-2.0
#include "label/lines.hpp"

#include <algorithm>

namespace fogwright::profile {
namespace {

std::string_view trimmed(std::string_view line) {
  const auto first = line.find_first_not_of(" \t\r");
  return first == std::string_view::npos ? std::string_view{} : line.substr(first);
}

bool is_header(std::string_view line) { return trimmed(line).starts_with('['); }

bool is_key_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-' ||
         c == '.';
}

/// `name =` or `[table]` without an indent that a list's items would have.
bool starts_statement(std::string_view line) {
  line = trimmed(line);
  const auto end = std::find_if_not(line.begin(), line.end(), is_key_character);
  if (end == line.begin()) return line.starts_with('[') && line.find(']') != std::string_view::npos;
  return trimmed(line.substr(static_cast<std::size_t>(end - line.begin()))).starts_with('=');
}

/// Brackets opened less brackets closed, outside quotes and comments.
int brackets(std::string_view line) {
  int open = 0;
  char quote = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (quote == '"' && c == '\\')
      ++i;
    else if (quote != 0)
      quote = c == quote ? '\0' : quote;
    else if (c == '#')
      break;
    else if (c == '"' || c == '\'')
      quote = c;
    else if (c == '[' || c == '{')
      ++open;
    else if (c == ']' || c == '}')
      --open;
  }
  return open;
}

}  // namespace

Lines::Lines(std::string_view text) {
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    lines_.emplace_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
}

std::string Lines::text() const {
  std::string all = lines_.front();
  for (std::size_t i = 1; i < lines_.size(); ++i) all.append("\n").append(lines_[i]);
  return all;
}

std::size_t Lines::statement_start(std::size_t index) const {
  while (index > 0 && !starts_statement(lines_[index])) --index;
  return index;
}

std::size_t Lines::statement_end(std::size_t index) const {
  if (is_header(lines_[index])) {
    do ++index;
    while (index < lines_.size() && !is_header(lines_[index]));
    return index;
  }
  for (int open = brackets(lines_[index++]); open > 0 && index < lines_.size(); ++index) {
    if (starts_statement(lines_[index])) break;
    open += brackets(lines_[index]);
  }
  return index;
}

int Lines::open_brackets(std::size_t begin, std::size_t end) const {
  int open = 0;
  for (std::size_t i = begin; i < end; ++i) open += brackets(lines_[i]);
  return open;
}

bool Lines::blank(std::size_t begin, std::size_t end) {
  bool changed = false;
  for (std::size_t i = begin; i < end; ++i) {
    changed = changed || !lines_[i].empty();
    lines_[i].clear();
  }
  return changed;
}

bool Lines::blank_statement_at(std::size_t line, std::size_t column) {
  if (line == 0 || line > lines_.size()) return false;
  const std::size_t index = line - 1;
  const bool at_start = column <= lines_[index].size() - trimmed(lines_[index]).size() + 1;
  if (index > 0 && at_start && starts_statement(lines_[index])) {
    const std::size_t above = statement_start(index - 1);
    if (open_brackets(above, index) > 0) return blank(above, index);
  }
  return blank(index, statement_end(index));
}

bool Lines::blank_last_statement() {
  std::size_t last = lines_.size() - 1;
  while (last > 0 && lines_[last].empty()) --last;
  return blank(statement_start(last), last + 1);
}

}  // namespace fogwright::profile
