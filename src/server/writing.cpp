// SPDX-License-Identifier: Apache-2.0
#include "server/writing.hpp"

#include <algorithm>

#include "asking/beside.hpp"
#include "asking/ids.hpp"
#include "asking/written_json.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/sha256.hpp"
#include "server/beside.hpp"
#include "server/problem.hpp"

namespace fogwright::server {
namespace {

using nlohmann::json;

/// The entries that one request became, in order. The desk may put them in another order than it numbered them,
/// and leave a number out.
std::vector<Entry> entries_of(Store& store, const Uuid& first) {
  std::vector<Entry> entries;
  constexpr std::uint32_t longest_gap = 3;
  for (std::uint32_t number = 0, missing = 0; missing <= longest_gap; ++number) {
    const auto seq = store.find(derived_id(first, number));
    missing = seq ? 0 : missing + 1;
    if (number == 0 && !seq) return entries;
    if (auto entry = seq ? store.entry(*seq) : std::nullopt) entries.push_back(std::move(*entry));
  }
  std::sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) { return a.seq < b.seq; });
  return entries;
}

/// Whether the body of an entry is about the thing that the path names.
bool is_about(const json& body, const std::string& name) {
  return std::any_of(body.begin(), body.end(), [&](const json& value) { return value == name; });
}

/// An entry of this id stands in the book: is it what this request made? What it said may have led to other
/// members than were sent, so kind, person and the thing itself decide.
Result<void> check_same(const Visit& visit, const std::vector<Entry>& entries) {
  const bool same = std::any_of(entries.begin(), entries.end(), [&](const Entry& entry) {
    const bool kind = entry.kind == visit.route.kind || is_refusal(entry.kind);
    const bool about = visit.asked.names().empty() || is_about(entry.body, visit.asked.name());
    return kind && about && entry.actor == visit.person->handle;
  });
  if (same) return {};
  return fail(ErrorCode::bad_entry, "this id belongs to another entry", "Idempotency-Key",
              "give each entry an id of its own");
}

HttpResponse told(Store& store, const std::vector<Entry>& entries, bool again,
                  const std::optional<Error>& refusal) {
  json body;
  store.read([&](const Documents& now, const Head&) { body = written_json(now, entries, again); });
  if (!refusal) return json_response(again ? 200 : 201, body);
  HttpResponse response = problem(*refusal);
  json details = json::parse(response.body);
  details.update(body);
  response.body = details.dump() + "\n";
  return response;
}

/// What an entry of refusal says, for who asks again.
std::optional<Error> refusal_in(const Entry& entry) {
  if (!is_refusal(entry.kind)) return std::nullopt;
  const bool release = entry.kind == "release-refused";
  return Error{release ? ErrorCode::hold_running : ErrorCode::gate_closed,
               "this was refused, and the refusal is written down",
               {},
               "look at the job; ask again under a new id"};
}

std::optional<HttpResponse> answer_again(Store& store, const Visit& visit, const Uuid& id) {
  const auto entries = entries_of(store, id);
  if (entries.empty()) return std::nullopt;
  if (auto ok = check_same(visit, entries); !ok) return problem(ok.error());
  return told(store, entries, true, refusal_in(entries.front()));
}

/// The entry that the path names is looked up for the desk, which sees documents alone.
Result<void> hand_entry(Store& store, Visit& visit) {
  if (!visit.route.of_entry) return {};
  const auto id = read_uuid(visit.asked.name());
  if (!id) return tl::make_unexpected(id.error());
  const auto seq = store.find(*id);
  auto entry = seq ? store.entry(*seq) : std::nullopt;
  if (!entry)
    return fail(ErrorCode::not_found, "the book has no entry of this id", "the address",
                "GET /api/v1/book/entries lists them");
  visit.asked.set_entry(std::move(*entry));
  return {};
}

HttpResponse append(Service& service, Visit& visit, Store& store, const Uuid& id) {
  if (auto ok = hand_entry(store, visit); !ok) return problem(ok.error());
  std::optional<Error> refusal;
  Salt salt{};
  service.world().random(salt);
  Beside beside(store, salt, beside_text(visit.route, visit.asked));
  visit.asked.set_beside(beside.hash());
  const auto receipts = store.append([&](const Documents& now, const Head&) -> Result<std::vector<NewEntry>> {
    const DeskContext context = service.context(now, visit.person->handle, visit.person->device, id);
    auto decision = visit.route.decide(context, visit.asked);
    if (!decision) return tl::make_unexpected(decision.error());
    refusal = std::move(decision->refusal);
    return std::move(decision->drafts);
  });
  if (!receipts) {
    // Another server may have taken the same request just before.
    if (auto again = answer_again(store, visit, id)) return std::move(*again);
    return problem(receipts.error());
  }
  beside.used();
  return told(store, entries_of(store, id), false, refusal);
}

}  // namespace

Result<Uuid> entry_id(const HttpRequest& request) {
  std::string text = request.header("idempotency-key");
  if (text.size() >= 2 && text.front() == '"' && text.back() == '"') text = text.substr(1, text.size() - 2);
  constexpr auto hint = "make a UUIDv7 for each entry and send it again when you are not sure that it arrived";
  if (text.empty()) return fail(ErrorCode::missing_value, "the entry has no id", "Idempotency-Key", hint);
  auto id = read_uuid(text);
  if (!id || !is_v7(*id))
    return fail(ErrorCode::not_understood, "the id of the entry is no UUIDv7", "Idempotency-Key", hint);
  return id;
}

HttpResponse write_entry(Service& service, Visit& visit) {
  const auto id = entry_id(visit.request);
  if (!id) return problem(id.error());
  HttpResponse response;
  service.books().write([&](Store& store) {
    if (auto again = answer_again(store, visit, *id))
      response = std::move(*again);
    else
      response = append(service, visit, store, *id);
  });
  return response;
}

}  // namespace fogwright::server
