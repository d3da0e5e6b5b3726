// SPDX-License-Identifier: Apache-2.0
#include "desk/rehearsal.hpp"

#include <fmt/format.h>

namespace fogwright {
namespace {

/// Behind every entry that a book can hold, so that departures get keys of their own.
constexpr std::int64_t first_seq = 900'000'000'000;

Entry as_entry(const NewEntry& draft, std::int64_t seq, std::int64_t now_ms) {
  return {seq,          draft.id,   draft.happened_ms, now_ms,         draft.actor,
          draft.device, draft.kind, draft.body,        draft.corrects, draft.reason};
}

}  // namespace

std::optional<nlohmann::json> OverlaidDocuments::get(std::string_view kind, std::string_view key) const {
  if (const auto kinds = above_.find(kind); kinds != above_.end())
    if (const auto found = kinds->second.find(key); found != kinds->second.end()) return found->second.body;
  return below_.get(kind, key);
}

void OverlaidDocuments::each(
    std::string_view kind, bool live_only,
    const std::function<void(const std::string& key, const nlohmann::json& body)>& visit) const {
  const auto kinds = above_.find(kind);
  if (kinds == above_.end()) return below_.each(kind, live_only, visit);
  std::map<std::string, nlohmann::json> merged;
  below_.each(kind, live_only, [&](const std::string& key, const nlohmann::json& body) {
    if (!kinds->second.contains(key)) merged[key] = body;
  });
  for (const auto& [key, put] : kinds->second)
    if (put.live || !live_only) merged[key] = put.body;
  for (const auto& [key, body] : merged) visit(key, body);
}

void OverlaidDocuments::put(std::string_view kind, std::string_view key, const nlohmann::json& body,
                            bool live) {
  above_[std::string(kind)][std::string(key)] = {body, live};
}

DeskContext Rehearsal::context() const {
  return {documents_, context_.actor, context_.device, context_.now_ms, context_.clock, context_.new_id};
}

void Rehearsal::take(const Drafts& drafts) {
  for (const NewEntry& draft : drafts) {
    fold(as_entry(draft, first_seq + static_cast<std::int64_t>(drafts_.size()), context_.now_ms), documents_);
    drafts_.push_back(draft);
  }
}

std::vector<nlohmann::json> Rehearsal::departures() const {
  std::vector<nlohmann::json> list;
  for (std::size_t i = 0; i < drafts_.size(); ++i)
    for (int number = 0;; ++number) {
      const auto found = documents_.get(
          "departure", fmt::format("{:012}-{}", first_seq + static_cast<std::int64_t>(i), number));
      if (!found) break;
      list.push_back(*found);
      list.back().erase("seq");  // none yet
    }
  return list;
}

}  // namespace fogwright
