// SPDX-License-Identifier: Apache-2.0
#include <algorithm>

#include "fogwright/book/checkpoint.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/tlog_proof.hpp"
#include "fogwright/desk/correction.hpp"
#include "server/problem.hpp"
#include "server/signing.hpp"

namespace fogwright::server {
namespace {

using nlohmann::json;

Result<std::int64_t> number_in(const Visit& visit, const char* name, std::int64_t fallback, std::int64_t most) {
  const auto typed = visit.target.query.find(name);
  if (typed == visit.target.query.end()) return fallback;
  const auto number = read_decimal(typed->second);
  if (number && *number <= static_cast<std::uint64_t>(most)) return static_cast<std::int64_t>(*number);
  return fail(ErrorCode::out_of_range, "this is no number in its range", name, "write a whole number");
}

json entry_row(const Entry& entry, const Corrections& corrections) {
  json row = {{"seq", entry.seq},
              {"id", uuid_text(entry.id)},
              {"happened_ms", entry.happened_ms},
              {"actor", entry.actor},
              {"received_ms", entry.received_ms},
              {"device", entry.device},
              {"kind", entry.kind},
              {"body", entry.body}};
  if (entry.corrects) row["corrects"] = uuid_text(*entry.corrects);
  if (!entry.reason.empty()) row["reason"] = entry.reason;
  if (const auto by = corrections.find(uuid_text(entry.id)); by != corrections.end())
    row["corrected_by"] = by->second;
  return row;
}

/// What is new since a cursor: entries from a number on. `next` is where to go on, now or later.
HttpResponse entries_since(Service& service, Visit& visit) {
  const auto from = number_in(visit, "from", 0, std::int64_t{1} << 52U);
  const auto limit = number_in(visit, "limit", 100, 1'000);
  if (!from) return problem(from.error());
  if (!limit) return problem(limit.error());
  const auto reader = service.books().reader();
  const std::int64_t size = reader->head().size;
  Corrections corrections;
  reader->read([&](const Documents& now, const Head&) { corrections = corrections_in(now); });
  json items = json::array();
  reader->each_leaf(*from, std::min(size, *from + *limit), [&](std::int64_t, std::string_view leaf) {
    if (const auto entry = read_entry(leaf, reader->origin())) items.push_back(entry_row(*entry, corrections));
  });
  const std::int64_t next = std::max(*from, std::min(size, *from + *limit));
  return json_response(200, {{"items", std::move(items)}, {"next", next}, {"size", size}});
}

/// Signs the book as it is and keeps the note in it. Errors: not_found (no key).
Result<std::string> checkpoint_now(Service& service) {
  const auto key = signing_key(service);
  if (!key) return tl::make_unexpected(key.error());
  Result<std::string> note;
  service.books().write([&](Store& store) {
    const Head head = store.head();
    note = sign_checkpoint({store.origin(), static_cast<std::uint64_t>(head.size), head.root}, *key);
    if (note) store.add_checkpoint(head.size, *note);
  });
  return note;
}

HttpResponse checkpoint(Service& service, Visit& visit) {
  (void)visit;
  const auto note = checkpoint_now(service);
  return note ? json_response(200, {{"checkpoint", *note}}) : problem(note.error());
}

HttpResponse proof(Service& service, Visit& visit) {
  const auto id = read_uuid(visit.asked.name());
  if (!id) return problem(id.error());
  const auto note = checkpoint_now(service);
  if (!note) return problem(note.error());
  const auto reader = service.books().reader();
  const auto seq = reader->find(*id);
  if (!seq)
    return problem(Error{ErrorCode::not_found, "the book has no entry of this id", "the address",
                         "GET /api/v1/book/entries lists them"});
  const auto signed_state = read_checkpoint(read_note(*note)->text);
  if (!signed_state) return problem(signed_state.error());
  const NodeSource nodes = [&reader](NodeId node) -> Result<Hash> {
    const auto hash =
        reader->node(static_cast<std::int64_t>(node.level), static_cast<std::int64_t>(node.index));
    if (!hash) return fail(ErrorCode::bad_book, "the book lacks a node of its tree");
    return *hash;
  };
  auto path = inclusion_proof(nodes, static_cast<std::uint64_t>(*seq), signed_state->size);
  if (!path) return problem(path.error());
  return json_response(
      200, {{"proof", proof_text({{}, static_cast<std::uint64_t>(*seq), std::move(*path), *note})}});
}

Answer correct(const DeskContext& context, Asked& asked) {
  return decided(correct_entry(context, *asked.entry(), asked.text("text"), asked.text("why")));
}

Route correcting() {
  using enum MemberType;
  Route route =
      writing("/api/v1/book/entries/{entry}/corrections", "correctEntry", "note",
              "What is right instead of what an entry says; both stay",
              {{"text", text, true, "what is right"}, {"why", text, true, "why it is put right"}}, correct);
  route.of_entry = true;
  return route;
}

Route acting(const char* path, const char* id, const char* summary, const char* answer,
             HttpResponse (*act)(Service&, Visit&), std::vector<const char*> query = {}) {
  return {.method = "GET",
          .path = path,
          .id = id,
          .access = Access::crew,
          .summary = summary,
          .answer = answer,
          .query = std::move(query),
          .act = act};
}

}  // namespace

std::vector<Route> book_routes() {
  return {
      acting("/api/v1/book/entries", "listEntries",
             "The entries from a number on, in order: what is new since a cursor", "Entries", entries_since,
             {"from", "limit"}),
      acting("/api/v1/book/checkpoint", "signCheckpoint", "The book as it is, signed; keep it elsewhere",
             "Checkpoint", checkpoint),
      acting("/api/v1/book/entries/{entry}/proof", "proveEntry",
             "A proof, to be checked without us, that an entry is in the book", "Proof", proof),
      correcting(),
  };
}

}  // namespace fogwright::server
