// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/fold.hpp"

namespace fogwright {

std::optional<nlohmann::json> MapDocuments::get(std::string_view kind, std::string_view key) const {
  const auto found = documents_.find({std::string(kind), std::string(key)});
  return found == documents_.end() ? std::nullopt : std::optional(found->second.body);
}

void MapDocuments::each(
    std::string_view kind, bool live_only,
    const std::function<void(const std::string& key, const nlohmann::json& body)>& visit) const {
  for (auto at = documents_.lower_bound({std::string(kind), {}});
       at != documents_.end() && at->first.first == kind; ++at)
    if (!live_only || at->second.live) visit(at->first.second, at->second.body);
}

void MapDocuments::put(std::string_view kind, std::string_view key, const nlohmann::json& body, bool live) {
  documents_[{std::string(kind), std::string(key)}] = {body, live};
}

}  // namespace fogwright
