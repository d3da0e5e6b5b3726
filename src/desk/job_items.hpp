// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What shows that an item of the gate is met: how its evidence is typed, and whether it holds now.

#include <optional>
#include <string>
#include <string_view>

#include "desk/job_document.hpp"

namespace fogwright {

/// What evidence is held against.
struct GateView {
  const Documents& documents;
  const nlohmann::json& job;
  std::int64_t now_ms = 0;
  const LocalDay& today;

  [[nodiscard]] std::string technician() const { return job.at("technician"); }
};

/// The evidence object of what was typed. Errors: not_understood.
[[nodiscard]] Result<nlohmann::json> read_evidence(const GateView& view, const Need& need,
                                                   const std::string& typed);

/// Why this evidence does not show the item now; nullopt where it does.
using Fault = std::optional<std::string>;
[[nodiscard]] Fault evidence_fault(const GateView& view, const Need& need, const nlohmann::json& evidence);

/// One item whose evidence is more than a plain yes.
struct ItemForm {
  std::string_view id;
  std::string_view question;
  Result<nlohmann::json> (*read)(const GateView& view, const Need& need, const std::string& typed);
  Fault (*fault)(const GateView& view, const Need& need, const nlohmann::json& evidence);
};
[[nodiscard]] const ItemForm* find_form(std::string_view id) noexcept;
[[nodiscard]] std::span<const ItemForm> respirator_forms();  // job_items_respirator.cpp
[[nodiscard]] std::span<const ItemForm> product_forms();     // job_items_product.cpp
[[nodiscard]] std::span<const ItemForm> site_forms();        // job_items_site.cpp

[[nodiscard]] bool is_yes(std::string_view typed) noexcept;
/// For items that take a plain yes. Errors: not_understood.
[[nodiscard]] Result<nlohmann::json> read_yes(const GateView& view, const Need& need, const std::string& typed);
[[nodiscard]] tl::unexpected<Error> unclear(const Need& need, std::string_view typed, std::string hint);
/// Lower case, without blanks at the ends.
[[nodiscard]] std::string plain_words(std::string_view text);
/// Parts between commas, semicolons or blanks (`blanks`), plain blanks trimmed.
[[nodiscard]] std::vector<std::string> parts_of(std::string_view text, bool blanks);

/// An active person of the crew.
[[nodiscard]] bool is_active(const Documents& documents, const std::string& handle);
/// Whether the words on a cartridge name everything that is asked for.
[[nodiscard]] bool words_cover(const std::vector<std::string>& printed, const std::vector<std::string>& asked);

}  // namespace fogwright
