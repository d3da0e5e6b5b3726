// SPDX-License-Identifier: Apache-2.0
// Entries that a device made while it could not reach the server. They have happened: the gate is not asked,
// the fold raises what broke a rule. Each is written on its own, so that a batch that is cut off and sent again
// goes on where it stopped.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "fogwright/desk/permissions.hpp"
#include "office/written_json.hpp"
#include "server/problem.hpp"
#include "server/service.hpp"

namespace fogwright::server {
namespace {

using nlohmann::json;
using enum MemberType;

constexpr std::size_t most_entries = 500;
/// A device's clock that is off by more is remarked upon.
constexpr std::int64_t clock_off_remark_ms = 2 * 60'000;

/// What can happen where there is no network. People, credentials, labels and registers wait for it.
constexpr std::string_view offline_kinds[] = {
    "batch-mixed",        "cartridge-retired", "cartridge-used", "container-moved", "container-opened",
    "container-received", "counted",           "disposed",       "drawn",           "fog-ended",
    "fog-started",        "fogger-tested",     "job-cleared",    "job-closed",      "job-recorded",
    "job-released",       "job-stopped",       "note",           "reading-taken",   "release-refused",
    "requirement-lapsed", "requirement-met",   "return-fogged",  "returned",        "spilled",
    "start-refused",      "storage-read"};

bool may_send(const std::vector<std::string>& roles, const std::string& kind) {
  if (std::find(std::begin(offline_kinds), std::end(offline_kinds), kind) == std::end(offline_kinds))
    return false;
  for (const Role role : {Role::technician, Role::owner, Role::safety_officer})
    if (std::find(roles.begin(), roles.end(), role_name(role)) != roles.end() && role_may_make(role, kind))
      return true;
  return false;
}

/// An entry as its device tells it; who made it is who is signed in.
Result<NewEntry> read_sent(const json& sent, const Visit& visit) {
  if (!sent.contains("id") || !sent["id"].is_string() || !sent.contains("kind") || !sent["kind"].is_string() ||
      !sent.contains("happened_ms") || !sent["happened_ms"].is_number_unsigned() || !sent.contains("body") ||
      !sent["body"].is_object() ||
      sent["happened_ms"].get<std::uint64_t>() > static_cast<std::uint64_t>(latest_time_ms))
    return fail(ErrorCode::bad_entry, "an entry has id, kind, happened_ms and body", "entries",
                "see docs/entries.md");
  const auto id = read_uuid(sent["id"].get<std::string>());
  if (!id || !is_v7(*id)) return fail(ErrorCode::bad_entry, "the id of an entry is a UUIDv7", "id", {});
  const std::string kind = sent["kind"];
  if (!may_send(visit.roles, kind))
    return fail(ErrorCode::not_permitted,
                fmt::format("{} may not send this entry ({})", visit.person->handle, kind), "kind",
                "what takes another role, or the office, is done while connected");
  const json& body = sent["body"];
  if (kind == "requirement-met" && body.value("by", json()) != visit.person->handle)
    return fail(ErrorCode::not_permitted, "an item is met by who is signed in", "by", "sign in as who met it");
  return NewEntry{
      *id, sent["happened_ms"].get<std::int64_t>(), visit.person->handle, visit.person->device, kind, body, {},
      {}};
}

bool is_same(const NewEntry& sent, const Entry& stored) {
  return sent.kind == stored.kind && sent.body == stored.body && sent.actor == stored.actor &&
         sent.happened_ms == stored.happened_ms;
}

json refused(const json& sent, const Error& error) {
  json row = {{"id", sent.value("id", json(""))},
              {"result", "refused"},
              {"code", code_name(error.code)},
              {"detail", error.message}};
  if (!row["id"].is_string()) row["id"] = "";
  if (!error.hint.empty()) row["hint"] = error.hint;
  return row;
}

json accepted(Store& store, const Receipt& receipt, std::string_view plain) {
  json departures;
  store.read([&](const Documents& now, const Head&) { departures = departures_json(now, {receipt}); });
  json row = {{"id", uuid_text(receipt.id)}, {"seq", receipt.seq}, {"result", plain}};
  if (departures.empty()) return row;
  if (plain == "accepted") row["result"] = "accepted-with-departures";
  row["departures"] = std::move(departures);
  return row;
}

json take_one(Store& store, const json& sent, const Visit& visit) {
  auto entry = read_sent(sent, visit);
  if (!entry) return refused(sent, entry.error());
  if (const auto seq = store.find(entry->id)) {
    const auto stored = store.entry(*seq);
    if (stored && is_same(*entry, *stored)) return accepted(store, {*seq, entry->id, true}, "already-there");
    return refused(
        sent,
        {ErrorCode::bad_entry, "this id belongs to another entry", {}, "give each entry an id of its own"});
  }
  const auto receipts = store.append(
      [&](const Documents&, const Head&) -> Result<std::vector<NewEntry>> { return std::vector{*entry}; });
  return receipts ? accepted(store, receipts->front(), "accepted") : refused(sent, receipts.error());
}

/// Says in the record that the clock was off, once for a batch: the times of its entries are the device's own.
void remark_clock(Store& store, const Visit& visit, const Uuid& first, std::int64_t off_ms,
                  std::int64_t now_ms) {
  if (std::abs(off_ms) <= clock_off_remark_ms) return;
  const Uuid id = derived_id(first, 1);
  if (store.find(id)) return;
  const std::string words =
      fmt::format("the clock of {} was {} min {} when it sent its entries", visit.person->device,
                  std::abs(off_ms) / 60'000, off_ms > 0 ? "ahead" : "behind");
  (void)store.append([&](const Documents&, const Head&) -> Result<std::vector<NewEntry>> {
    return std::vector{NewEntry{id,
                                now_ms,
                                visit.person->handle,
                                "server",
                                "note",
                                {{"about", "device/" + visit.person->device}, {"text", words}},
                                {},
                                {}}};
  });
}

HttpResponse take_batch(Service& service, Visit& visit) {
  const json& entries = visit.asked.body().at("entries");
  if (entries.size() > most_entries)
    return problem(
        Error{ErrorCode::out_of_range, "a batch has 500 entries at most", "entries", "send it in parts"});
  const std::int64_t now_ms = service.world().now_ms();
  const std::int64_t off_ms = visit.asked.body().at("device_now_ms").get<std::int64_t>() - now_ms;
  json results = json::array();
  std::int64_t size = 0;
  service.books().write([&](Store& store) {
    for (const json& sent : entries) results.push_back(take_one(store, sent, visit));
    for (const json& row : results)
      if (row.contains("seq")) {
        remark_clock(store, visit, *read_uuid(row["id"].get<std::string>()), off_ms, now_ms);
        break;
      }
    size = store.head().size;
  });
  return json_response(200, {{"results", std::move(results)}, {"clock_off_ms", off_ms}, {"size", size}});
}

}  // namespace

std::vector<Route> sync_routes() {
  return {
      {.method = "POST",
       .path = "/api/v1/sync",
       .id = "sync",
       .access = Access::crew,
       .summary = "Entries that a device made by itself: for each accepted, already-there, "
                  "accepted-with-departures or refused",
       .answer = "Synced",
       .members = {{"device_now_ms", whole_number, true, "what the device's clock says now, UTC milliseconds"},
                   {"entries", objects, true, "id, kind, happened_ms, body (docs/entries.md), in order"}},
       .act = take_batch}};
}

}  // namespace fogwright::server
