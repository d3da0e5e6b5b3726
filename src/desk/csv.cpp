// SPDX-License-Identifier: Apache-2.0
#include "desk/csv.hpp"

#include <fmt/format.h>
#include <algorithm>

namespace fogwright {
namespace {

class CsvReader {
 public:
  CsvReader(std::string_view text, std::string_view file) : text_(text), file_(file) {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (text_.starts_with(byte_order_mark)) at_ = byte_order_mark.size();
  }

  tl::expected<std::vector<CsvRecord>, Faults> read() {
    while (at_ < text_.size()) {
      CsvRecord record{line_, {}};
      read_record(record);
      const bool empty = record.fields.size() == 1 && record.fields.front().empty();
      if (!empty) records_.push_back(std::move(record));
    }
    if (!faults_.empty()) return tl::make_unexpected(std::move(faults_));
    return std::move(records_);
  }

 private:
  [[nodiscard]] bool at_line_end() const {
    return at_ >= text_.size() || text_[at_] == '\n' || text_.substr(at_, 2) == "\r\n";
  }

  void read_record(CsvRecord& record) {
    record.fields.push_back(read_field());
    while (at_ < text_.size() && text_[at_] == ',') {
      ++at_;
      record.fields.push_back(read_field());
    }
    if (!at_line_end()) {
      fault(line_, "something stands between a closing quote and the next comma");
      while (!at_line_end()) ++at_;
    }
    if (at_ >= text_.size()) return;
    at_ += text_[at_] == '\r' ? 2 : 1;
    ++line_;
  }

  std::string read_field() {
    if (at_ < text_.size() && text_[at_] == '"') return read_quoted();
    std::string field;
    while (!at_line_end() && text_[at_] != ',') field += text_[at_++];
    if (field.find('"') != std::string::npos) fault(line_, "a quote stands inside a field that is not quoted");
    return field;
  }

  std::string read_quoted() {
    const int start = line_;
    std::string field;
    for (++at_; at_ < text_.size(); ++at_) {
      if (text_[at_] == '\n') ++line_;
      if (text_[at_] != '"') {
        field += text_[at_];
        continue;
      }
      if (text_.substr(at_, 2) != "\"\"") {
        ++at_;
        return field;
      }
      field += '"';
      ++at_;
    }
    fault(start, "a quote is opened and never closed");
    return field;
  }

  void fault(int line, std::string what) {
    faults_.push_back(
        {ErrorCode::bad_import, std::move(what), fmt::format("{}:{}", file_, line),
         "put a field that holds commas or quotes in double quotes, and double each quote in it"});
  }

  std::string_view text_, file_;
  std::size_t at_ = 0;
  int line_ = 1;
  std::vector<CsvRecord> records_;
  Faults faults_;
};

constexpr std::string_view formula_starts[] = {
    "=", "+", "-", "@", "\t", "\r", "\n", std::string_view("\0", 1),
    // The wide forms, which some spreadsheets take for the narrow ones.
    "\xEF\xBC\x9D", "\xEF\xBC\x8B", "\xEF\xBC\x8D", "\xEF\xBC\xA0"};

/// "-12", "+3.5": a sign, digits, at most one point.
bool is_plain_number(std::string_view text) {
  if (text.starts_with('+') || text.starts_with('-')) text.remove_prefix(1);
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  return std::any_of(text.begin(), text.end(), is_digit) && std::count(text.begin(), text.end(), '.') <= 1 &&
         std::all_of(text.begin(), text.end(), [&](char c) { return c == '.' || is_digit(c); });
}

bool begins_a_formula(std::string_view text) {
  return std::any_of(std::begin(formula_starts), std::end(formula_starts),
                     [text](std::string_view start) { return text.starts_with(start); }) &&
         !is_plain_number(text);
}

std::string quoted(const std::string& field) {
  std::string out = "\"";
  for (const char c : field) out.append(c == '"' ? 2 : 1, c);
  return out + '"';
}

}  // namespace

std::string csv_line(const std::vector<std::string>& fields) {
  std::string line;
  for (std::size_t i = 0; i < fields.size(); ++i) {
    const std::string& field = fields[i];
    const bool lone_empty = fields.size() == 1 && field.empty();
    const bool quotes = lone_empty || field.find_first_of(",\"\r\n") != std::string::npos;
    line += (i > 0 ? "," : "") + (quotes ? quoted(field) : field);
  }
  return line + "\r\n";
}

// What already begins with apostrophes before such a character gets one more, so that reading takes off the
// right one.
std::string csv_guarded(std::string_view text) {
  const auto bare = text.substr(std::min(text.find_first_not_of('\''), text.size()));
  return begins_a_formula(bare) ? "'" + std::string(text) : std::string(text);
}

std::string csv_unguarded(std::string_view field) {
  const auto bare = field.substr(std::min(field.find_first_not_of('\''), field.size()));
  const bool guarded = field.starts_with('\'') && begins_a_formula(bare);
  return std::string(guarded ? field.substr(1) : field);
}

tl::expected<std::vector<CsvRecord>, Faults> read_csv(std::string_view text, std::string_view file) {
  return CsvReader(text, file).read();
}

}  // namespace fogwright
