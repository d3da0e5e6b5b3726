// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Departures of a job: each check raises what an entry broke, and refuses nothing.

#include "desk/fold_parts.hpp"
#include "desk/job_document.hpp"
#include "fogwright/book/entry.hpp"

namespace fogwright {

void raise_about(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job,
                 std::string_view rule, std::string what, Sequence shown_by = {});
/// The entries that these members of the job come from: "planned_seq", "fog_started", "fog_ended", "last_seq".
[[nodiscard]] Sequence entries_of(const nlohmann::json& job, std::initializer_list<const char*> members);

/// Items that were open when fog started, the label, whose gate it was.
void check_start(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job, std::int64_t at_ms,
                 const LocalDay& day);
/// Each return against its band.
void check_dose(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job);
/// Of a job that was given up: what was too much already.
void check_too_much(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job);
/// What was used against the plan.
void check_volume(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job);
/// One row of planned against used, for the audit's control charts; none where use was reckoned from the time.
void note_use_of_job(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job);
/// What was drawn from stock against what the job used.
void check_draws(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job);
/// The hold, and readings.
void check_release(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job,
                   const Moment& moment);
/// What must be done before anybody goes back in.
void check_before_release(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job,
                          std::int64_t at_ms);
void check_releaser(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job);
/// A clock that was set, or a reboot, in the hold.
void check_clock(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job);
/// Products that were drawn for the job and must not meet.
void check_products(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job);
/// Only the active crew meets items.
void check_actor(const Entry& entry, MutableDocuments& documents, const nlohmann::json& job);

}  // namespace fogwright
