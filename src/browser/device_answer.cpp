// SPDX-License-Identifier: Apache-2.0
// One request to a device's desk, as the server answers it.
#include <algorithm>

#include "asking/beside.hpp"
#include "asking/ids.hpp"
#include "asking/offline.hpp"
#include "asking/problem.hpp"
#include "asking/written_json.hpp"
#include "browser/device_desk.hpp"
#include "browser/own_entry.hpp"
#include "fogwright/book/canonical_json.hpp"
#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

json told(int status, json body) {
  return {{"status", status}, {"body", std::move(body)}, {"entries", json::array()}};
}
json refused(const Faults& faults) {
  json body = problem_details(faults);
  const int status = body.at("status");
  return told(status, std::move(body));
}
json refused(const Error& error) { return refused(Faults{error}); }

std::int64_t whole(const json& request, const char* member) {
  const auto found = request.find(member);
  return found != request.end() && found->is_number() ? found->get<std::int64_t>() : 0;
}
std::string words(const json& request, const char* member) {
  const auto found = request.find(member);
  return found != request.end() && found->is_string() ? found->get<std::string>() : std::string();
}

BootClock boot_clock(const json& request) { return {words(request, "boot"), whole(request, "uptime_ms")}; }

std::map<std::string, std::string> query_of(const json& request) {
  std::map<std::string, std::string> query;
  const json given = request.value("query", json::object());
  for (const auto& [name, value] : given.items())
    if (value.is_string()) query[name] = value.get<std::string>();
  return query;
}

Result<Uuid> first_id(const json& request) {
  const auto id = read_uuid(words(request, "first_id"));
  if (id && is_v7(*id)) return *id;
  return fail(ErrorCode::missing_value, "the entry has no id", "first_id", "make a UUIDv7 for each request");
}

struct Kept {
  std::string salt, text;
};
/// What of the request lives beside the record; its hash goes into the entry.
Result<Kept> keep_beside(const Route& route, Asked& asked, const json& request) {
  Kept kept{words(request, "salt"), beside_text(route, asked)};
  if (kept.text.empty()) return kept;
  const auto bytes = from_hex(kept.salt);
  Salt salt{};
  if (!bytes || bytes->size() != salt.size())
    return fail(ErrorCode::missing_value, "what may be erased needs a salt", "salt",
                "hand in 16 random bytes as hexadecimal");
  std::copy(bytes->begin(), bytes->end(), salt.begin());
  asked.set_beside(beside_hash(salt, kept.text));
  return kept;
}

Result<void> fits_the_record(const Drafts& drafts) {
  for (const NewEntry& draft : drafts)
    if (auto ok = record_value_ok(draft.body); !ok) return ok;
  return {};
}

}  // namespace

json DeviceDesk::answer(const Route& route, const std::vector<std::string>& names, const json& request) {
  const auto query = query_of(request);
  if (auto ok = check_query(query, route); !ok) return refused(ok.error());
  json body = request.value("body", json::object());
  if (!body.is_object())
    return refused(Error{ErrorCode::not_understood, "the body is no object", "the body", {}});
  if (const Faults faults = check_members(body, route.members); !faults.empty()) return refused(faults);
  if (route.view) {
    const auto shown =
        route.view({now(), size_, names, query, {whole(request, "now_ms"), boot_clock(request)}});
    return shown ? told(200, *shown) : refused(shown.error());
  }
  if (!route.work) return write(route, Asked(names, std::move(body)), request);
  const auto made = route.work(now(), Asked(names, std::move(body)));
  return made ? told(200, *made) : refused(made.error());
}

json DeviceDesk::write(const Route& route, Asked asked, const json& request) {
  const auto first = first_id(request);
  if (!first) return refused(first.error());
  if (std::any_of(own_.begin(), own_.end(), [&](const OwnEntry& own) { return own.request == *first; }))
    return written(*first, true, {});
  const auto kept = keep_beside(route, asked, request);
  if (!kept) return refused(kept.error());
  if (route.counted && !asked.has(route.counted))
    asked.set(route.counted, name_offline(now(), route.counted, *first));
  const DeskContext context{now(),
                            words(request, "actor"),
                            words(request, "device"),
                            whole(request, "now_ms"),
                            boot_clock(request),
                            [&, number = std::uint32_t{0}]() mutable { return derived_id(*first, number++); }};
  auto decision = route.decide(context, asked);
  if (!decision) return refused(decision.error());
  if (auto ok = fits_the_record(decision->drafts); !ok) return refused(ok.error());
  for (NewEntry& draft : decision->drafts) {
    OwnEntry own{std::move(draft), *first};
    if (!kept->text.empty() && own.entry.kind == route.kind) {
      own.beside_salt = kept->salt;
      own.beside_text = kept->text;
    }
    own_.push_back(std::move(own));
    fogwright::fold(on_top(own_.size() - 1), *top_);
  }
  return written(*first, false, decision->refusal);
}

json DeviceDesk::written(const Uuid& request, bool again, const std::optional<Error>& refusal) {
  std::vector<Entry> entries;
  json own = json::array();
  for (std::size_t i = 0; i < own_.size(); ++i) {
    if (own_[i].request != request) continue;
    entries.push_back(on_top(i));
    own.push_back(own_entry_json(own_[i]));
  }
  json body = written_json(now(), entries, again);
  int status = again ? 200 : 201;
  if (refusal) {
    json details = problem_details(Faults{*refusal});
    status = details.at("status");
    details.update(body);
    body = std::move(details);
  }
  return {{"status", status}, {"body", std::move(body)}, {"entries", std::move(own)}};
}

}  // namespace fogwright
