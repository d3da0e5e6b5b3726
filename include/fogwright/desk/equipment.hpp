// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Foggers, respirator cartridges and product labels. Errors common to all: not_permitted, not_found,
/// missing_value, not_understood; already_exists for a name that is taken; wrong_state for what is retired.

#include <optional>
#include <string>
#include <vector>

#include "fogwright/desk/context.hpp"
#include "fogwright/dose.hpp"

namespace fogwright {

struct NewFogger {
  std::string name;
  std::optional<LiquidVolume> tank;
  std::optional<Mass> empty_mass;
  std::string note;
};
[[nodiscard]] Result<Drafts> add_fogger(const DeskContext& context, const NewFogger& fogger);

/// A set of catch tests on one day ("" is today, UTC); the flow is worked out by calibrate() and compared with
/// the test before. Errors: those of calibrate(), out_of_range for a day in the future.
[[nodiscard]] Result<Drafts> record_catch_test(const DeskContext& context, const std::string& fogger,
                                               const std::vector<CatchTest>& runs, const std::string& on = {});
[[nodiscard]] Result<Drafts> retire_fogger(const DeskContext& context, const std::string& fogger,
                                           const std::string& why);

struct NewCartridge {
  std::string name;
  std::string model;
  std::vector<std::string> words;     ///< as printed on it: "organic vapor/acid gas", "P100"
  std::int64_t schedule_minutes = 0;  ///< the maker's change schedule; never estimated
  std::string basis;                  ///< where the schedule comes from
};
/// Errors: out_of_range for a schedule that is not 1 minute to 1 year.
[[nodiscard]] Result<Drafts> register_cartridge(const DeskContext& context, const NewCartridge& cartridge);
/// `job` may be empty. Recorded also beyond the schedule or after retirement: the fold raises that.
[[nodiscard]] Result<Drafts> use_cartridge(const DeskContext& context, const std::string& cartridge,
                                           std::int64_t minutes, const std::string& job,
                                           const std::string& worn_by);
[[nodiscard]] Result<Drafts> retire_cartridge(const DeskContext& context, const std::string& cartridge,
                                              const std::string& why);

/// The most bytes that a profile may have, so that its entry fits the record.
inline constexpr std::size_t largest_label_text = 48 * 1024;

struct LabelAdoption {
  std::string product;  ///< key by which the book knows the product
  std::string text;     ///< the profile, as read
  std::string file;     ///< for messages
  std::string digest;   ///< SHA-256 of the text, lower-case hexadecimal
};
/// Replaces the label that was current. Errors: bad_label (the first fault; fogwright label check lists all),
/// out_of_range (too long), already_exists (this very text is current).
[[nodiscard]] Result<Drafts> adopt_label(const DeskContext& context, const LabelAdoption& adoption);
/// `digest` "" is the current label.
[[nodiscard]] Result<Drafts> retire_label(const DeskContext& context, const std::string& product,
                                          const std::string& digest, const std::string& why);

/// Key for a product by the name on its label: "Fenmist RTU" is fenmist-rtu.
[[nodiscard]] std::string product_key(std::string_view label_name);

}  // namespace fogwright
