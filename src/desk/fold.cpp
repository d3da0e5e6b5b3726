// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <vector>

#include "desk/fold_parts.hpp"
#include "desk/readable.hpp"
#include "fogwright/book/uuid.hpp"
#include "fogwright/desk/correction.hpp"

namespace fogwright {
namespace {

/// All kinds, sorted, so that folding looks a kind up by halves.
const std::vector<FoldRow>& fold_table() {
  static const std::vector<FoldRow> table = [] {
    std::vector<FoldRow> rows;
    for (const auto part : {crew_fold(), equipment_fold(), stock_fold(), job_fold()})
      rows.insert(rows.end(), part.begin(), part.end());
    std::sort(rows.begin(), rows.end(), [](const FoldRow& a, const FoldRow& b) { return a.kind < b.kind; });
    return rows;
  }();
  return table;
}

/// Longest delay between when something happened and when the book took it in that needs no remark.
constexpr std::int64_t late_ms = 60 * 60'000;
/// How far a device's clock may run ahead of the book's before it is remarked upon.
constexpr std::int64_t ahead_ms = 2 * 60'000;

std::string minutes_words(std::int64_t ms) { return fmt::format("{} min", ms / 60'000); }

/// Time as each entry tells it: late entries, clocks ahead, the book's own clock set back.
void watch_the_clock(const Entry& entry, MutableDocuments& documents) {
  const auto before = documents.get("clock", "book");
  const std::int64_t last = before ? (*before)["received_ms"].get<std::int64_t>() : entry.received_ms;
  if (entry.received_ms < last)
    raise(entry, documents, "clock-set-back",
          fmt::format("the clock of the book went back by {}", minutes_words(last - entry.received_ms)));
  if (entry.received_ms - entry.happened_ms > late_ms)
    raise(entry, documents, "late-entry",
          fmt::format("written {} after it happened", minutes_words(entry.received_ms - entry.happened_ms)));
  if (entry.happened_ms - entry.received_ms > ahead_ms)
    raise(entry, documents, "clock-ahead",
          fmt::format("the device's clock is {} ahead of the book's",
                      minutes_words(entry.happened_ms - entry.received_ms)));
  documents.put("clock", "book", {{"received_ms", std::max(last, entry.received_ms)}}, true);
}

/// The number of the entry that is put right, as the correction tells it. Another program's may lack it, or
/// tell one that can't be.
std::optional<std::int64_t> corrected_seq(const Entry& entry) {
  const auto told = entry.body.find("corrected");
  if (told == entry.body.end() || !told->is_object()) return std::nullopt;
  const auto seq = told->find("seq"), kind = told->find("kind");
  if (seq == told->end() || !seq->is_number_integer() || kind == told->end() || !kind->is_string())
    return std::nullopt;
  const auto number = seq->get<std::int64_t>();
  return number >= 0 && number < entry.seq ? std::optional(number) : std::nullopt;
}

/// Both entries show a correction; the one that was put right is found again from its side.
void note_correction(const Entry& entry, MutableDocuments& documents) {
  const std::string id = uuid_text(*entry.corrects);
  auto corrections =
      documents.get("corrections", id).value_or(nlohmann::json{{"seqs", nlohmann::json::array()}});
  corrections["seqs"].push_back(entry.seq);
  documents.put("corrections", id, corrections, true);
  nlohmann::json about = {{"corrects", id}};
  about.update(job_and_container(entry.body));
  if (const auto container = documents.get("container", about.value("container", std::string())))
    for (const char* member : {"product", "place"}) about[member] = container->at(member);
  const auto seq = corrected_seq(entry);
  if (!seq)
    return raise(entry, documents, "correction", fmt::format("corrects an earlier entry: {}", entry.reason),
                 std::move(about));
  raise(entry, documents, "correction",
        fmt::format("corrects entry {} ({}): {}", *seq, entry.body["corrected"]["kind"].get<std::string>(),
                    entry.reason),
        std::move(about), {*seq});
}

void count_unknown(const Entry& entry, MutableDocuments& documents) {
  auto body = documents.get("unknown-kind", entry.kind).value_or(nlohmann::json{{"count", 0}});
  body["count"] = body["count"].get<std::int64_t>() + 1;
  documents.put("unknown-kind", entry.kind, body, true);
}

}  // namespace

std::int64_t fold_version_of(const Documents& documents) {
  const auto told = documents.get("fold", "version");
  return told ? told->at("version").get<std::int64_t>() : 0;
}

void fold(const Entry& entry, MutableDocuments& documents) {
  if (entry.seq == 0) documents.put("fold", "version", {{"version", fold_version}}, true);
  watch_the_clock(entry, documents);
  if (entry.corrects) note_correction(entry, documents);
  const auto& table = fold_table();
  const auto row = std::lower_bound(table.begin(), table.end(), entry.kind,
                                    [](const FoldRow& a, const std::string& kind) { return a.kind < kind; });
  if (row == table.end() || row->kind != entry.kind) return count_unknown(entry, documents);
  // A body that lacks a member (written by another program) must not stop the book from being read.
  if (const auto why = why_unreadable([&] { row->part(entry, documents); }))
    raise(entry, documents, "unreadable-body",
          fmt::format("the body of this {} cannot be read: {}", entry.kind, *why));
}

const std::vector<std::string_view>& known_kinds() {
  static const std::vector<std::string_view> kinds = [] {
    std::vector<std::string_view> names;
    for (const FoldRow& row : fold_table()) names.push_back(row.kind);
    return names;
  }();
  return kinds;
}

}  // namespace fogwright
