// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <span>
#include <string_view>
#include <vector>

#include "fogwright/book/documents.hpp"
#include "fogwright/book/entry.hpp"
#include "fogwright/quantity.hpp"

namespace fogwright {

/// Brings the documents up to date with one entry. Never refuses: what stands in the book has happened. What an
/// entry breaks is raised as a departure; an entry of an unknown kind changes nothing but the count of kinds
/// unknown.
void fold(const Entry& entry, MutableDocuments& documents);

/// Raised whenever `fold` makes other documents of the same entries, so that a book knows that its own are of
/// another program and are to be derived anew. A test holds it against documents that are kept.
inline constexpr std::int64_t fold_version = 4;
/// The version that derived these documents; 0 where they do not say.
[[nodiscard]] std::int64_t fold_version_of(const Documents& documents);

/// The kinds that the fold knows, for docs and tests.
[[nodiscard]] const std::vector<std::string_view>& known_kinds();

/// A departure from the rules, as the documents keep it ("departure", key: sequence and running number).
enum class Severity { note, minor, major, grave };
[[nodiscard]] std::string_view severity_name(Severity severity) noexcept;

/// A rule that the record can be found to have broken. One table (src/desk/departure_rules.cpp).
struct DepartureRule {
  std::string_view id;  ///< "over-draw", "start-without-item", "late-entry", ...
  Severity severity{};
  Basis kind{};               ///< label, regulation, policy or common_practice
  std::string_view words;     ///< what it means, one sentence
  std::string_view citation;  ///< "29 CFR 1910.134(g)(3)", "label", "company policy", ...
  std::string_view remedy;    ///< what to do
};
[[nodiscard]] std::span<const DepartureRule> departure_rules();

/// Documents in memory: for tests, the browser and rebuilding.
class MapDocuments : public MutableDocuments {
 public:
  [[nodiscard]] std::optional<nlohmann::json> get(std::string_view kind, std::string_view key) const override;
  void each(
      std::string_view kind, bool live_only,
      const std::function<void(const std::string& key, const nlohmann::json& body)>& visit) const override;
  void put(std::string_view kind, std::string_view key, const nlohmann::json& body, bool live) override;

 private:
  struct Document {
    nlohmann::json body;
    bool live = true;
  };
  std::map<std::pair<std::string, std::string>, Document> documents_;
};

}  // namespace fogwright
