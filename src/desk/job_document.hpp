// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The document of a job (docs/entries.md), read: its requirements, what is met, its vessels, its hold.

#include <optional>
#include <string>
#include <vector>

#include "fogwright/desk/job.hpp"

namespace fogwright {

/// An item of the job. `rule` is nullptr for an id that this program does not know (written by a newer one).
struct Need {
  std::string id;
  std::string value;
  const Rule* rule = nullptr;
};
[[nodiscard]] std::vector<Need> needs_of(const nlohmann::json& job);
[[nodiscard]] std::optional<Need> need_of(const nlohmann::json& job, std::string_view id);

[[nodiscard]] JobState state_of(const nlohmann::json& job);
/// `{by, at_ms, evidence, entry}` of an item; nullptr where it is not met.
[[nodiscard]] const nlohmann::json* met_of(const nlohmann::json& job, std::string_view id);
/// A member of an item's evidence; empty where the item is not met.
[[nodiscard]] std::string evidence_text(const nlohmann::json& job, std::string_view id, const char* member);

/// Whether the product is mixed before it is fogged.
[[nodiscard]] bool is_mixed(const nlohmann::json& job);
/// The containers that were named, and what the fog comes out of: the batch of a product that is mixed, else
/// those containers.
[[nodiscard]] std::vector<std::string> containers_of(const nlohmann::json& job);
[[nodiscard]] std::vector<std::string> vessels_of(const nlohmann::json& job);

/// Seconds of fog that the plan aims at, over all systems.
[[nodiscard]] std::int64_t target_seconds(const nlohmann::json& job);
struct PlannedReturn {
  std::string system;
  nlohmann::json plan;  ///< as the plan has it, with its name
};
/// A return by its name; the system may be left out where the name tells, or stand before it: "upstairs: hall".
/// Errors: not_found; missing_value where several systems have a return of that name.
[[nodiscard]] Result<PlannedReturn> find_return(const nlohmann::json& job, std::string_view system,
                                                std::string_view name);
/// The latest that anybody knows of the end of the fog. Precondition: it has ended.
[[nodiscard]] std::int64_t fog_off_ms(const nlohmann::json& job);
/// No stretch of fog at one return is longer.
inline constexpr std::int64_t longest_stretch_ms = 6 * 3'600'000;
/// How long one return was fogged.
[[nodiscard]] std::int64_t fogged_ms(const nlohmann::json& job, std::string_view system, std::string_view name);
/// What the fog so far took by time: flow times seconds, rounded up.
[[nodiscard]] std::int64_t used_by_time_ul(const nlohmann::json& job);
/// The cartridge of a job and its minutes: as worn where that is told, else as declared at the gate. No
/// cartridge: supplied air, or nothing told.
struct CartridgeWear {
  std::string cartridge;
  std::int64_t minutes = 0;
};
[[nodiscard]] CartridgeWear cartridge_wear(const nlohmann::json& job);
/// Of those the minutes that no `cartridge-used` has booked for the job yet.
[[nodiscard]] CartridgeWear not_booked(const nlohmann::json& job, CartridgeWear worn);
/// A job is live until it is closed; a stopped one until the fog that was let out is released.
[[nodiscard]] bool is_live(const nlohmann::json& job);
/// Fog that was out when the job was given up, and nobody has released the building yet.
[[nodiscard]] bool is_stopped_in_fog(const nlohmann::json& job);
/// Fog was let out, and what it took is not in the books of the stock and the cartridges yet: they are written
/// when the job is closed or given up.
[[nodiscard]] bool is_unbooked(const nlohmann::json& job);
/// What was drawn for the job, less what was returned.
[[nodiscard]] std::int64_t drawn_ul(const Documents& documents, const nlohmann::json& job);

[[nodiscard]] nlohmann::json clock_json(const BootClock& clock);
[[nodiscard]] nlohmann::json moment_json(const Moment& moment);
[[nodiscard]] Moment read_moment(const nlohmann::json& moment);
/// The moment of an entry, by its body's `clock`.
[[nodiscard]] Moment moment_of(std::int64_t happened_ms, const nlohmann::json& body);
[[nodiscard]] Moment moment_of(const DeskContext& context);

/// The job of that id. Errors: not_found.
[[nodiscard]] Result<nlohmann::json> find_job(const Documents& documents, const std::string& id);
/// Errors: wrong_state.
[[nodiscard]] Result<JobState> check_step(const nlohmann::json& job, JobStep step);

}  // namespace fogwright
