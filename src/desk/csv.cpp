// SPDX-License-Identifier: Apache-2.0
#include "desk/csv.hpp"

#include <fmt/format.h>

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

}  // namespace

tl::expected<std::vector<CsvRecord>, Faults> read_csv(std::string_view text, std::string_view file) {
  return CsvReader(text, file).read();
}

}  // namespace fogwright
