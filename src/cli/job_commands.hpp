// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/command.hpp"
#include "fogwright/desk/job.hpp"
#include "fogwright/store.hpp"

namespace fogwright {

/// The rows of `job` in the table of commands.
[[nodiscard]] std::vector<Command> job_commands();

/// The zones of this system, for the desk.
[[nodiscard]] Calendar system_calendar();

[[nodiscard]] std::vector<OptionRow> job_plan_options();

struct PlannedJob {
  NewJob job;
  Plan plan;
};
/// The job that the options of `job plan` describe, planned with what the book knows; nothing is written.
[[nodiscard]] tl::expected<PlannedJob, Faults> plan_from_options(const Call& call, Store& store);
/// Keeps --customer and --address beside the record, so that they can be erased; their hash, or nothing.
[[nodiscard]] std::string keep_site(const Call& call, Store& store);
[[nodiscard]] Outcome run_job_plan(const Call& call);
[[nodiscard]] Outcome run_job_check(const Call& call);
[[nodiscard]] Outcome run_job_lapse(const Call& call);
[[nodiscard]] Outcome run_job_clear(const Call& call);
[[nodiscard]] Outcome run_job_start(const Call& call);
[[nodiscard]] Outcome run_job_fogged(const Call& call);
[[nodiscard]] Outcome run_job_fog_off(const Call& call);
[[nodiscard]] Outcome run_job_reading(const Call& call);
[[nodiscard]] Outcome run_job_release(const Call& call);
[[nodiscard]] Outcome run_job_close(const Call& call);
[[nodiscard]] Outcome run_job_stop(const Call& call);
[[nodiscard]] Outcome run_job_record(const Call& call);
[[nodiscard]] Outcome run_job_show(const Call& call);
[[nodiscard]] Outcome run_job_list(const Call& call);
[[nodiscard]] Outcome run_job_run(const Call& call);
[[nodiscard]] Outcome run_job_import(const Call& call);

}  // namespace fogwright
