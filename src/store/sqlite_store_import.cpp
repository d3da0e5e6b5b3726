// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>

#include "store/sqlite_store.hpp"

namespace fogwright {
namespace {

constexpr std::size_t most_faults = 100;  // a file of another kind has one a line

/// Calls `use` with each line and its number, from 1. A last line without a line feed counts.
template <class Use>
void each_line(std::string_view text, const Use& use) {
  std::int64_t number = 1;
  while (!text.empty()) {
    const auto end = std::min(text.find('\n'), text.size());
    use(text.substr(0, end), number++);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
}

}  // namespace

// After the first fault nothing more is added, but the other lines are still read, so that all faults are told.
tl::expected<std::int64_t, Faults> SqliteStore::import_lines(std::string_view lines, std::string_view file,
                                                             const Progress& progress) {
  const auto total = static_cast<std::int64_t>(std::count(lines.begin(), lines.end(), '\n'));
  std::int64_t added = 0;
  Faults faults;
  TreeState after;
  write([&](Session& open) {
    Appender appender({open.written, open.book, open.documents, origin_, fold_}, state_, 0);
    each_line(lines, [&](std::string_view line, std::int64_t number) {
      if (faults.size() == most_faults) return;
      const auto told = [&](const Error& error) {
        faults.push_back({ErrorCode::bad_import, error.message, fmt::format("{}:{}", file, number),
                          error.hint.empty() ? "import an export of this book as it was written" : error.hint});
      };
      if (!faults.empty()) {
        if (const auto entry = read_entry(line, origin_); !entry) told(entry.error());
        return;
      }
      const auto copied = appender.add_copy(line);
      if (!copied) return told(copied.error());
      added += *copied ? 1 : 0;
      progress(number, std::max(number, total));
    });
    after = appender.state();
    return faults.empty() && appender.wrote();
  });
  if (!faults.empty()) return tl::make_unexpected(std::move(faults));
  if (added > 0) state_ = std::move(after);
  return added;
}

}  // namespace fogwright
