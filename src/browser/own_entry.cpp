// SPDX-License-Identifier: Apache-2.0
#include "browser/own_entry.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

tl::unexpected<Error> bad_entry() {
  return fail(ErrorCode::bad_entry, "this is no entry", "entry",
              "hand in entries as the server or ask() gave them");
}

bool is_text(const json& entry, const char* member) {
  return entry.contains(member) && entry[member].is_string();
}
bool is_whole(const json& entry, const char* member) {
  return entry.contains(member) && entry[member].is_number_integer();
}

/// What both sorts of entries hold.
Result<NewEntry> read_common(const json& entry) {
  if (!entry.is_object() || !is_text(entry, "id") || !is_text(entry, "kind") || !is_text(entry, "actor") ||
      !is_text(entry, "device") || !is_whole(entry, "happened_ms") || !entry.contains("body") ||
      !entry["body"].is_object())
    return bad_entry();
  const auto id = read_uuid(entry["id"].get<std::string>());
  if (!id) return bad_entry();
  NewEntry read{*id,
                entry["happened_ms"].get<std::int64_t>(),
                entry["actor"].get<std::string>(),
                entry["device"].get<std::string>(),
                entry["kind"].get<std::string>(),
                entry["body"],
                {},
                {}};
  if (is_text(entry, "reason")) read.reason = entry["reason"].get<std::string>();
  if (!is_text(entry, "corrects")) return read;
  const auto corrects = read_uuid(entry["corrects"].get<std::string>());
  if (!corrects) return bad_entry();
  read.corrects = *corrects;
  return read;
}

}  // namespace

json own_entry_json(const OwnEntry& own) {
  const NewEntry& entry = own.entry;
  json out = {{"id", uuid_text(entry.id)}, {"kind", entry.kind},   {"happened_ms", entry.happened_ms},
              {"body", entry.body},        {"actor", entry.actor}, {"device", entry.device}};
  if (!own.beside_text.empty()) out["beside"] = {{"salt", own.beside_salt}, {"text", own.beside_text}};
  return out;
}

Result<OwnEntry> read_own_entry(const json& entry) {
  auto read = read_common(entry);
  if (!read) return tl::make_unexpected(std::move(read.error()));
  OwnEntry own{std::move(*read)};
  own.request = own.entry.id;
  return own;
}

Result<Entry> read_book_entry(const json& entry) {
  auto read = read_common(entry);
  if (!read || !is_whole(entry, "seq") || !is_whole(entry, "received_ms")) return bad_entry();
  return Entry{entry["seq"].get<std::int64_t>(),
               read->id,
               read->happened_ms,
               entry["received_ms"].get<std::int64_t>(),
               read->actor,
               read->device,
               read->kind,
               std::move(read->body),
               read->corrects,
               read->reason};
}

}  // namespace fogwright
