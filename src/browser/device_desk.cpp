// SPDX-License-Identifier: Apache-2.0
#include "browser/device_desk.hpp"

#include <algorithm>

#include "asking/problem.hpp"
#include "browser/own_entry.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

std::string text_in(const json& object, const char* member) {
  const auto found = object.find(member);
  return found != object.end() && found->is_string() ? found->get<std::string>() : std::string();
}

bool is_document(const json& row) {
  return row.is_object() && row.contains("kind") && row["kind"].is_string() && row.contains("key") &&
         row["key"].is_string() && row.contains("body") && row["body"].is_object();
}

json without_entries(json body) {
  const int status = body.at("status");
  return {{"status", status}, {"body", std::move(body)}, {"entries", json::array()}};
}

}  // namespace

void ListedDocuments::put(std::string_view kind, std::string_view key, const json& body, bool live) {
  live_[{std::string(kind), std::string(key)}] = live;
  MapDocuments::put(kind, key, body, live);
}

json ListedDocuments::list() const {
  json rows = json::array();
  for (const auto& [name, live] : live_)
    rows.push_back(
        {{"kind", name.first}, {"key", name.second}, {"body", *get(name.first, name.second)}, {"live", live}});
  return rows;
}

DeviceDesk::DeviceDesk() : routes_(routes_offline()) {}

Result<void> DeviceDesk::restore(const json& documents, std::int64_t size) {
  ListedDocuments book;
  for (const json& row : documents) {
    if (!is_document(row))
      return fail(ErrorCode::bad_entry, "this is no document of a book", "documents",
                  "hand in what GET /api/v1/documents or snapshot() gave");
    const bool live = !row.contains("live") || row["live"] != false;
    book.put(row["kind"].get<std::string>(), row["key"].get<std::string>(), row["body"], live);
  }
  top_.reset();
  book_ = std::move(book);
  size_ = size;
  own_.clear();
  return {};
}

Result<void> DeviceDesk::fold(const json& sent) {
  if (!sent.contains("seq")) {
    auto own = read_own_entry(sent);
    if (!own) return tl::make_unexpected(std::move(own.error()));
    if (sent.contains("beside")) {
      own->beside_salt = text_in(sent["beside"], "salt");
      own->beside_text = text_in(sent["beside"], "text");
    }
    const bool known = std::any_of(own_.begin(), own_.end(),
                                   [&](const OwnEntry& one) { return one.entry.id == own->entry.id; });
    if (known) return {};
    own_.push_back(std::move(*own));
    top_.reset();
    return {};
  }
  const auto entry = read_book_entry(sent);
  if (!entry) return tl::make_unexpected(entry.error());
  if (entry->seq > size_)
    return fail(ErrorCode::out_of_range, "entries before this one are missing", "seq", "fetch from size() on");
  drop(uuid_text(entry->id));
  if (entry->seq < size_) return {};
  top_.reset();
  fogwright::fold(*entry, book_);
  ++size_;
  return {};
}

void DeviceDesk::drop(const std::string& id) {
  const auto last = std::remove_if(own_.begin(), own_.end(),
                                   [&](const OwnEntry& own) { return uuid_text(own.entry.id) == id; });
  if (last == own_.end()) return;
  own_.erase(last, own_.end());
  top_.reset();
}

Entry DeviceDesk::on_top(std::size_t index) const {
  const NewEntry& own = own_[index].entry;
  // The book takes it in later; until then it is as if it had been taken in at once. A device whose clock is
  // behind is no reason to say that the book's was set back.
  const auto clock = book_.get("clock", "book");
  const std::int64_t last = clock ? clock->value("received_ms", std::int64_t{0}) : 0;
  return {size_ + static_cast<std::int64_t>(index),
          own.id,
          own.happened_ms,
          std::max(own.happened_ms, last),
          own.actor,
          own.device,
          own.kind,
          own.body,
          own.corrects,
          own.reason};
}

const Documents& DeviceDesk::now() {
  if (!top_) {
    top_.emplace(book_);
    for (std::size_t i = 0; i < own_.size(); ++i) fogwright::fold(on_top(i), *top_);
  }
  return *top_;
}

bool DeviceDesk::answers(std::string_view method, std::string_view path) const {
  const auto target = read_target(path);
  return target && routes_.find(method, target->segments).route != nullptr;
}

json DeviceDesk::ask(const json& request) {
  const auto target = read_target(text_in(request, "path"));
  if (!target) return without_entries(problem_details(Faults{target.error()}));
  const Found found = routes_.find(text_in(request, "method"), target->segments);
  if (!found.route)
    return without_entries(
        problem_details(404, "not-found", "this device cannot answer that by itself", {}, "ask the server"));
  const auto roles = roles_in(now(), text_in(request, "actor"));
  if (!may_use(*found.route, roles)) return without_entries(access_refusal(*found.route, roles));
  return answer(*found.route, found.names, request);
}

json DeviceDesk::snapshot() const { return {{"documents", book_.list()}, {"size", size_}}; }

}  // namespace fogwright
