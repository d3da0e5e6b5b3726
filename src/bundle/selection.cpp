// SPDX-License-Identifier: Apache-2.0
#include "bundle/selection.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>
#include <string_view>

namespace fogwright::bundle {
namespace {

using nlohmann::json;
using Names = std::set<std::string, std::less<>>;

constexpr std::int64_t chunk = 1000;

/// Members of a body whose text is the name of a thing or a person (docs/entries.md).
constexpr std::string_view naming[] = {"from",      "container",    "batch",      "fogger",
                                       "cartridge", "label_digest", "technician", "mixed_by",
                                       "holder",    "person",       "by"};

/// Kinds of entries that say what a thing is, and the member that names it.
const std::map<std::string, const char*, std::less<>>& defining() {
  static const std::map<std::string, const char*, std::less<>> table = {
      {"label-adopted", "digest"},
      {"container-received", "container"},
      {"container-opened", "container"},
      {"container-moved", "container"},
      {"container-corrected", "container"},
      {"batch-mixed", "batch"},
      {"fogger-added", "fogger"},
      {"fogger-tested", "fogger"},
      {"cartridge-registered", "cartridge"},
      {"person-enrolled", "handle"},
      {"person-roles-changed", "handle"},
      {"credential-added", "handle"},
      {"credential-withdrawn", "credential"},
  };
  return table;
}

void add_texts(const json& value, Names& names) {
  if (value.is_string()) names.insert(value.get<std::string>());
  if (value.is_array())
    for (const json& one : value) add_texts(one, names);
}

void add_names(const json& value, Names& names) {
  if (value.is_array())
    for (const json& one : value) add_names(one, names);
  if (!value.is_object()) return;
  for (const auto& [member, inner] : value.items()) {
    if (std::find(std::begin(naming), std::end(naming), member) != std::end(naming)) add_texts(inner, names);
    add_names(inner, names);
  }
}

bool names_one_of(const Entry& entry, const char* member, const Names& names) {
  const auto found = entry.body.find(member);
  return found != entry.body.end() && found->is_string() &&
         names.contains(found->get_ref<const std::string&>());
}

/// Calls `use` with each entry from the last to the first.
template <class Use>
void each_backwards(Store& store, const Use& use) {
  for (std::int64_t end = store.head().size; end > 0; end -= std::min(end, chunk))
    for (std::int64_t seq = end; seq-- > std::max<std::int64_t>(0, end - chunk);)
      if (const auto entry = store.entry(seq)) use(*entry);
}

/// One walk from the last entry to the first: what a thing is stands before what was done with it.
class Gathering {
 public:
  explicit Gathering(std::span<const std::string> jobs) : jobs_(jobs.begin(), jobs.end()) {}

  void see(const Entry& entry) {
    if (entry.corrects) corrections_.emplace_back(entry.seq, entry.id, *entry.corrects);
    const bool of_job = names_one_of(entry, "job", jobs_) || names_one_of(entry, "about", jobs_);
    if (of_job) found_.insert(entry.body.contains("job") ? entry.body["job"].get<std::string>() : "");
    const auto defines = defining().find(entry.kind);
    if (!of_job && (defines == defining().end() || !names_one_of(entry, defines->second, named_))) return;
    take(entry);
  }

  [[nodiscard]] Selection selection() {
    for (auto correction = corrections_.rbegin(); correction != corrections_.rend(); ++correction) {
      const auto& [seq, id, corrects] = *correction;
      if (!ids_.contains(corrects.bytes)) continue;
      taken_.insert(seq);
      ids_.insert(id.bytes);
    }
    return {taken_.begin(), taken_.end()};
  }

  [[nodiscard]] std::vector<std::string> missing() const {
    std::vector<std::string> list;
    std::set_difference(jobs_.begin(), jobs_.end(), found_.begin(), found_.end(), std::back_inserter(list));
    return list;
  }

 private:
  void take(const Entry& entry) {
    taken_.insert(entry.seq);
    ids_.insert(entry.id.bytes);
    named_.insert(entry.actor);
    add_names(entry.body, named_);
  }

  Names jobs_, found_, named_;
  std::set<std::int64_t> taken_;
  std::set<decltype(Uuid::bytes)> ids_;
  std::vector<std::tuple<std::int64_t, Uuid, Uuid>> corrections_;  // number, id, what it corrects; last first
};

}  // namespace

Result<Selection> entries_of_jobs(Store& store, std::span<const std::string> jobs) {
  Gathering gathering(jobs);
  each_backwards(store, [&](const Entry& entry) { gathering.see(entry); });
  const auto missing = gathering.missing();
  if (missing.empty()) return gathering.selection();
  return fail(ErrorCode::not_found, fmt::format("no entry is about a job {}", missing.front()), "--job",
              "see fogwright job list --all");
}

Selection entries_between(Store& store, std::int64_t from_ms, std::int64_t to_ms) {
  Selection selection;
  each_backwards(store, [&](const Entry& entry) {
    if (entry.happened_ms >= from_ms && entry.happened_ms < to_ms) selection.push_back(entry.seq);
  });
  std::reverse(selection.begin(), selection.end());
  return selection;
}

}  // namespace fogwright::bundle
