// SPDX-License-Identifier: Apache-2.0
#include "store/import.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <future>

namespace fogwright {
namespace {

constexpr std::size_t most_faults = 100;  // a file of another kind has one a line
constexpr std::size_t lines_at_a_time = 512;

struct Line {
  std::string bytes;
  Result<Entry> entry;
  Hash hash;
};
using Lines = std::vector<Line>;

class Import {
 public:
  Import(Appender& appender, const std::string& origin, BookTables& tables, const ImportSource& source)
      : appender_(appender), origin_(origin), tables_(tables), source_(source) {}

  /// Another thread reads the entries of the next lines while these are written.
  void run(const Progress& progress) {
    for (Lines lines = entries_of(take()); !lines.empty() && faults_.size() < most_faults;) {
      std::future<Lines> next = std::async(
          std::launch::async, [this, taken = take()]() mutable { return entries_of(std::move(taken)); });
      if (faults_.empty()) look_up(lines);
      for (Line& line : lines) {
        ++number_;
        if (faults_.size() < most_faults) add(line);
      }
      if (faults_.empty() && progress) progress(number_, std::max(number_, source_.total));
      lines = next.get();
    }
  }
  [[nodiscard]] tl::expected<std::int64_t, Faults> outcome() {
    if (!faults_.empty()) return tl::make_unexpected(std::move(faults_));
    return added_;
  }

 private:
  [[nodiscard]] std::vector<std::string> take() const {
    std::vector<std::string> taken;
    taken.reserve(lines_at_a_time);
    while (taken.size() < lines_at_a_time) {
      const auto line = source_.next();
      if (!line) break;
      taken.emplace_back(*line);
    }
    return taken;
  }

  [[nodiscard]] Lines entries_of(std::vector<std::string> taken) const {
    Lines lines;
    lines.reserve(taken.size());
    for (std::string& bytes : taken) {
      auto entry = read_entry(bytes, origin_);
      const Hash hash = hash_leaf(bytes);
      lines.push_back({std::move(bytes), std::move(entry), hash});
    }
    return lines;
  }

  void look_up(const Lines& lines) {
    std::vector<Uuid> ids;
    for (const Line& line : lines)
      if (line.entry) ids.push_back(line.entry->id);
    tables_.look_up(ids);
  }

  // After the first fault nothing more is added.
  void add(Line& line) {
    if (!line.entry) return tell(line.entry.error());
    if (!faults_.empty()) return;
    const auto copied = appender_.add_copy(std::move(*line.entry), std::move(line.bytes), line.hash);
    if (!copied) return tell(copied.error());
    added_ += *copied ? 1 : 0;
  }

  void tell(const Error& error) {
    faults_.push_back({ErrorCode::bad_import, error.message, fmt::format("{}:{}", source_.name, number_),
                       error.hint.empty() ? "import an export of this book as it was written" : error.hint});
  }

  Appender& appender_;
  const std::string& origin_;
  BookTables& tables_;
  const ImportSource& source_;
  std::int64_t number_ = 0, added_ = 0;
  Faults faults_;
};

}  // namespace

tl::expected<std::int64_t, Faults> import_lines(Appender& appender, const std::string& origin,
                                                BookTables& tables, const ImportSource& source,
                                                const Progress& progress) {
  Import import(appender, origin, tables, source);
  import.run(progress);
  return import.outcome();
}

// A last line without a line feed counts.
tl::expected<std::int64_t, Faults> Store::import_lines(std::string_view lines, std::string_view file,
                                                       const Progress& progress) {
  ImportSource source;
  source.name = file;
  source.total = std::count(lines.begin(), lines.end(), '\n');
  source.next = [lines]() mutable -> std::optional<std::string_view> {
    if (lines.empty()) return std::nullopt;
    const auto end = std::min(lines.find('\n'), lines.size());
    const auto line = lines.substr(0, end);
    lines.remove_prefix(std::min(end + 1, lines.size()));
    return line;
  };
  return import_from(source, progress);
}

}  // namespace fogwright
