// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the book would hold after entries that nobody has written: for imports whose lines build on each other,
/// and for dry runs.

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "fogwright/desk/context.hpp"
#include "fogwright/desk/fold.hpp"

namespace fogwright {

/// Documents laid over others, which stay as they are.
class OverlaidDocuments : public MutableDocuments {
 public:
  explicit OverlaidDocuments(const Documents& below) : below_(below) {}
  [[nodiscard]] std::optional<nlohmann::json> get(std::string_view kind, std::string_view key) const override;
  void each(
      std::string_view kind, bool live_only,
      const std::function<void(const std::string& key, const nlohmann::json& body)>& visit) const override;
  void put(std::string_view kind, std::string_view key, const nlohmann::json& body, bool live) override;

 private:
  struct Put {
    nlohmann::json body;
    bool live = true;
  };
  const Documents& below_;
  std::map<std::string, std::map<std::string, Put, std::less<>>, std::less<>> above_;
};

class Rehearsal {
 public:
  /// Precondition: the context and its documents outlive this.
  explicit Rehearsal(const DeskContext& context) : context_(context), documents_(context.documents) {}

  /// The same request, after what was taken so far.
  [[nodiscard]] DeskContext context() const;
  void take(const Drafts& drafts);
  [[nodiscard]] const Drafts& drafts() const { return drafts_; }
  /// What they would raise, in order.
  [[nodiscard]] std::vector<nlohmann::json> departures() const;

 private:
  const DeskContext& context_;
  OverlaidDocuments documents_;
  Drafts drafts_;
};

}  // namespace fogwright
