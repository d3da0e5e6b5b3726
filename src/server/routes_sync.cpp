// SPDX-License-Identifier: Apache-2.0
// Entries that a device made while it could not reach the server. They have happened: the gate is not asked,
// the fold raises what broke a rule. Each is written on its own, so that a batch that is cut off and sent again
// goes on where it stopped.
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "asking/beside.hpp"
#include "asking/ids.hpp"
#include "asking/offline.hpp"
#include "asking/written_json.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/desk/job.hpp"
#include "fogwright/desk/permissions.hpp"
#include "fogwright/desk/plan_check.hpp"
#include "server/beside.hpp"
#include "server/problem.hpp"
#include "server/service.hpp"

namespace fogwright::server {
namespace {

using nlohmann::json;
using enum MemberType;

constexpr std::size_t most_entries = 500;
/// A device's clock that is off by more is remarked upon.
constexpr std::int64_t clock_off_remark_ms = 2 * 60'000;
// Numbers of the ids of what the server itself says about an entry.
constexpr std::uint32_t clock_remark_id = 1;
constexpr std::uint32_t plan_check_id = 1'000;
constexpr std::uint32_t clock_check_id = 1'001;

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
  if (!made_offline(kind) || !roles_may_make(visit.roles, kind))
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

/// The first receipt is the sent entry's; others are what the server wrote about it.
json accepted(Store& store, const std::vector<Receipt>& receipts, std::string_view plain) {
  const Receipt& receipt = receipts.front();
  std::vector<std::int64_t> seqs;
  for (const Receipt& one : receipts) seqs.push_back(one.seq);
  json departures;
  store.read([&](const Documents& now, const Head&) { departures = departures_json(now, seqs); });
  json row = {{"id", uuid_text(receipt.id)}, {"seq", receipt.seq}, {"result", plain}};
  if (departures.empty()) return row;
  if (plain == "accepted") row["result"] = "accepted-with-departures";
  row["departures"] = std::move(departures);
  return row;
}

/// Where in the body of an entry the hash of what lives beside the record stands.
const char* beside_member(const std::string& kind) { return kind == "job-planned" ? "site" : nullptr; }

struct SentBeside {
  Salt salt{};
  std::string text;
};
/// What a device sends to be kept beside the record; the entry must hold its hash.
Result<SentBeside> read_beside(const json& sent, const NewEntry& entry) {
  if (!sent.contains("beside")) return SentBeside{};
  constexpr std::size_t longest_text = 4'096;
  const json& given = sent["beside"];
  const char* const member = beside_member(entry.kind);
  const bool texts =
      given.is_object() && given.value("salt", json()).is_string() && given.value("text", json()).is_string();
  const auto salt = texts ? from_hex(given["salt"].get<std::string>()) : fail(ErrorCode::bad_entry, {});
  SentBeside beside;
  if (member && salt && salt->size() == beside.salt.size()) {
    std::copy(salt->begin(), salt->end(), beside.salt.begin());
    beside.text = given["text"].get<std::string>();
    if (!beside.text.empty() && beside.text.size() <= longest_text && is_utf8(beside.text) &&
        entry.body.value(member, json()) == beside_hash(beside.salt, beside.text))
      return beside;
  }
  return fail(ErrorCode::bad_entry, "what is sent beside the entry is not what its hash says", "beside",
              "send salt (32 hexadecimal digits) and text (4,096 bytes at most) as they were hashed");
}

/// What the server itself says about an entry that a device sent.
NewEntry remark_on(const NewEntry& entry, std::uint32_t number, std::int64_t now_ms, const char* kind,
                   json body) {
  return {derived_id(entry.id, number), now_ms, entry.actor, "server", kind, std::move(body), {}, {}};
}

/// The job that a device's entry names; empty where it names none.
std::string job_of(const NewEntry& entry) {
  const json job = entry.body.value("job", json());
  return job.is_string() ? job.get<std::string>() : std::string();
}

/// Whether an entry dates the end of a fog, in a job as it stands before it.
bool dates_fog_off(const Documents& now, const NewEntry& entry) {
  if (entry.kind == "fog-ended") return true;
  const auto job = now.get("job", job_of(entry));
  const std::string state = job ? job->value("state", std::string()) : std::string();
  return (entry.kind == "job-stopped" && state == job_state_name(JobState::fogging)) ||
         (entry.kind == "return-fogged" &&
          (state == job_state_name(JobState::stopped) || state == job_state_name(JobState::holding)));
}

/// A hold that a clock running behind dated too early begins when the fog really ended.
std::optional<json> check_fog_off(const Documents& now, const NewEntry& entry, std::int64_t off_ms,
                                  std::int64_t now_ms) {
  if (off_ms >= -clock_off_remark_ms || !dates_fog_off(now, entry)) return std::nullopt;
  return json{{"job", entry.body.value("job", json())},
              {"behind_ms", -off_ms},
              {"fog_ended_ms", std::min(now_ms, entry.happened_ms - off_ms)}};
}

/// The entries that one sent entry becomes: a plan that was made away from the book is made here again, and the
/// end of a fog is held against the server's clock.
Drafts drafts_of(const Documents& now, const NewEntry& entry, std::int64_t off_ms, std::int64_t now_ms) {
  Drafts drafts{entry};
  if (entry.kind == "job-planned")
    if (auto checked = check_plan(now, entry.body))
      drafts.push_back(remark_on(entry, plan_check_id, now_ms, "plan-checked", std::move(*checked)));
  if (auto checked = check_fog_off(now, entry, off_ms, now_ms))
    drafts.push_back(remark_on(entry, clock_check_id, now_ms, "clock-checked", std::move(*checked)));
  return drafts;
}

Result<void> check_job_name(const Documents& now, const NewEntry& entry) {
  if (entry.kind != "job-planned" || !now.get("job", job_of(entry))) return {};
  return fail(ErrorCode::already_exists, "another job goes by that name", "job",
              "plan it again under another name");
}

json take_one(Store& store, const json& sent, const Visit& visit, std::int64_t off_ms, std::int64_t now_ms) {
  auto entry = read_sent(sent, visit);
  if (!entry) return refused(sent, entry.error());
  const auto kept = read_beside(sent, *entry);
  if (!kept) return refused(sent, kept.error());
  if (const auto seq = store.find(entry->id)) {
    const auto stored = store.entry(*seq);
    if (stored && is_same(*entry, *stored)) return accepted(store, {{*seq, entry->id, true}}, "already-there");
    return refused(
        sent,
        {ErrorCode::bad_entry, "this id belongs to another entry", {}, "give each entry an id of its own"});
  }
  Beside beside(store, kept->salt, kept->text);
  const auto receipts = store.append([&](const Documents& now, const Head&) -> Result<Drafts> {
    if (auto ok = check_job_name(now, *entry); !ok) return tl::make_unexpected(ok.error());
    return drafts_of(now, *entry, off_ms, now_ms);
  });
  if (!receipts) return refused(sent, receipts.error());
  beside.used();
  return accepted(store, *receipts, "accepted");
}

/// Says in the record that the clock was off, once for a batch: the times of its entries are the device's own.
void remark_clock(Store& store, const Visit& visit, const Uuid& first, std::int64_t off_ms,
                  std::int64_t now_ms) {
  if (std::abs(off_ms) <= clock_off_remark_ms) return;
  const Uuid id = derived_id(first, clock_remark_id);
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
    for (const json& sent : entries) results.push_back(take_one(store, sent, visit, off_ms, now_ms));
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
