// SPDX-License-Identifier: Apache-2.0
#pragma once

/// A job from plan to close: which entries a request becomes, and what the gate refuses. There is no override:
/// no option, no setting and no other path starts a job with an open item or releases a building early. What
/// has already happened is always recorded; the fold raises a departure where it broke a rule.
/// Errors common to all: not_permitted, not_found, missing_value, not_understood, wrong_state.

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/desk/context.hpp"
#include "fogwright/plan.hpp"

namespace fogwright {

// --- States -------------------------------------------------------------------------------------------------

enum class JobState { planned, cleared, fogging, holding, released, closed, stopped };
[[nodiscard]] std::string_view job_state_name(JobState state) noexcept;
[[nodiscard]] std::optional<JobState> read_job_state(std::string_view name) noexcept;

enum class JobStep { clear, start, fog_off, release, close, stop };
/// The one function that decides each transition, for every surface. nullopt: not from this state. A stopped
/// job is released too (and stays stopped), where fog was let out before it was stopped.
[[nodiscard]] std::optional<JobState> next_state(JobState from, JobStep step) noexcept;

/// Evidence of a moment: the calendar, and the running boot with the time since it.
struct Moment {
  std::int64_t ms = 0;  ///< UTC
  BootClock clock;
};
/// How much of the time between two moments counts, in milliseconds, never negative: what the calendar says,
/// and within one boot not more than the uptime says. A clock set forward does not add, one set back takes
/// away; across a reboot the calendar alone can tell.
[[nodiscard]] std::int64_t elapsed_ms(const Moment& from, const Moment& to) noexcept;

/// The day at the job's place.
struct LocalDay {
  std::string date;           ///< ISO 8601
  std::int64_t began_ms = 0;  ///< UTC
};
/// The day of a moment in a time zone; the desk has no table of zones. Precondition: the zone is known.
using Calendar = std::function<LocalDay(const std::string& zone, std::int64_t ms)>;

// --- The gate -----------------------------------------------------------------------------------------------

/// A safety item that is not met.
struct Missing {
  std::string requirement;  ///< id of the rule
  std::string why;
};
/// What stands between a job and its start: every item before mixing and before fogging that nobody in the
/// active crew has met, that has lapsed, or whose evidence does not hold now (credentials, facepiece,
/// cartridge, product, counts). Empty: it may start. `job` is the document of the job.
[[nodiscard]] std::vector<Missing> missing_for_start(const Documents& documents, const nlohmann::json& job,
                                                     std::int64_t now_ms, const LocalDay& today);
/// The same for one stage of the job. Items that facts decide (seconds, hold, readings) are left out.
[[nodiscard]] std::vector<Missing> missing_in(const Documents& documents, const nlohmann::json& job,
                                              Stage stage, std::int64_t now_ms, const LocalDay& today);

/// What to ask for as evidence of an item: "How many people left?". Empty where a plain yes is enough.
[[nodiscard]] std::string_view evidence_question(std::string_view requirement) noexcept;
/// Whether the facts of the job decide this item, so that nobody is asked.
[[nodiscard]] bool decided_by_facts(std::string_view requirement) noexcept;

/// What a request becomes, and what it was refused with: both a refusal and the entry that says so.
struct Decision {
  Drafts drafts;
  std::optional<Error> refusal;
};

// --- Requests -----------------------------------------------------------------------------------------------

/// The `plan` of a job (docs/entries.md): whole numbers and texts, rounded to the safe side.
[[nodiscard]] nlohmann::json plan_snapshot(const Plan& plan);

struct NewJob {
  std::string id;    ///< empty: the next number ("J12")
  std::string zone;  ///< time zone of the site, "America/Chicago"
  std::string site;  ///< hash of what may be erased (customer, address); may be empty
  std::string product;
  std::string label_digest;  ///< of the text that the plan was made with
  std::string fogger, van;   ///< may be empty
  std::string technician;
  nlohmann::json request = nlohmann::json::object();  ///< as typed
  std::optional<std::int64_t> scheduled_ms;
};
/// Errors: label_forbids when that label is not the product's current one, out_of_range (a plan that does not
/// fit an entry).
[[nodiscard]] Result<Drafts> plan_job(const DeskContext& context, const NewJob& job, const Plan& plan);

/// An item as met, with its evidence as typed ("yes", a count, the name of a cartridge, ...). Errors:
/// gate_closed where the evidence does not show it.
[[nodiscard]] Result<Drafts> meet_requirement(const DeskContext& context, const std::string& job,
                                              const std::string& requirement, const std::string& typed,
                                              const Calendar& calendar, const std::string& photo_digest = {});
/// An item that is no longer met, or (while fogging) one that was not kept.
[[nodiscard]] Result<Drafts> lapse_requirement(const DeskContext& context, const std::string& job,
                                               const std::string& requirement, const std::string& why);
/// Everything that lapses when someone enters, or when the respirator is taken off.
[[nodiscard]] Result<Drafts> lapse_all(const DeskContext& context, const std::string& job, Lapse lapse,
                                       const std::string& why);

/// Errors: gate_closed, with every item that is open.
[[nodiscard]] Result<Drafts> clear_job(const DeskContext& context, const std::string& job,
                                       const Calendar& calendar);
/// Clears the job as well where that was not done. Refusals: gate_closed, incompatible_chemistry; each leaves a
/// start-refused entry. Only the job's own technician starts it: the fit test is theirs.
[[nodiscard]] Result<Decision> start_job(const DeskContext& context, const std::string& job,
                                         const Calendar& calendar);

/// A stretch of fog at one return; stretches of one return add up.
[[nodiscard]] Result<Drafts> record_return(const DeskContext& context, const std::string& job,
                                           const std::string& system, const std::string& name,
                                           std::int64_t actual_ms);

struct FogOff {
  std::optional<std::int64_t> left_ul;  ///< measured in the tank after; nullopt: use is reckoned from the time
  std::int64_t added_ul = 0;            ///< filled in between
  std::string left_typed;
};
/// Valve shut, motor off: the hold starts. Errors: out_of_range when more is left than there was.
[[nodiscard]] Result<Drafts> end_fog(const DeskContext& context, const std::string& job, const FogOff& off);

struct NewReading {
  std::string substance;  ///< CAS number
  std::int64_t ug_m3 = 0;
  std::string typed;
  bool fan_running = false;
  std::string instrument;
};
/// "0.02 mg/m3", or "0.01 ppm" of a substance whose limits are known (a limit's ppm: 25 °C, 760 mmHg); rounded
/// up.
[[nodiscard]] Result<std::int64_t> read_reading(const std::string& substance, const std::string& typed);
[[nodiscard]] Result<Drafts> take_reading(const DeskContext& context, const std::string& job,
                                          const NewReading& reading);

/// How the hold stands.
struct HoldState {
  std::int64_t elapsed_ms = 0;  ///< what counts
  std::int64_t floor_ms = 0;    ///< must pass in full
  std::int64_t total_ms = 0;    ///< after which time alone releases
  bool readings_needed = false;
  bool rebooted = false;    ///< since fog-off: only the calendar counts
  Result<void> ready = {};  ///< of the hold alone; items before release are apart
  bool by_time = false;     ///< ready without any reading
};
/// nullopt before fog-off.
[[nodiscard]] std::optional<HoldState> hold_state(const nlohmann::json& job, const Moment& now);

/// Refusals: hold_running, gate_closed (items before release); each leaves a release-refused entry.
[[nodiscard]] Result<Decision> release_job(const DeskContext& context, const std::string& job,
                                           const Calendar& calendar);
/// Also draws what was used from stock and adds the cartridge's hours, where that was not done. Errors:
/// gate_closed, with the items that are open.
[[nodiscard]] Result<Drafts> close_job(const DeskContext& context, const std::string& job,
                                       const Calendar& calendar);
/// In the middle of fogging it also ends the fog: the hold runs all the same.
[[nodiscard]] Result<Drafts> stop_job(const DeskContext& context, const std::string& job,
                                      const std::string& why);

/// A planned job that was done without the tool, in part or whole.
struct LateRecord {
  std::string why_late;
  std::int64_t started_ms = 0;
  std::int64_t ended_ms = 0;
  std::optional<std::int64_t> released_ms;
  std::optional<std::int64_t> used_ul;
  struct Return {
    std::string system, name;
    std::int64_t actual_ms = 0;
  };
  std::vector<Return> returns;
  std::vector<std::pair<std::string, std::string>> met;  ///< item and its evidence, as typed
};
[[nodiscard]] Result<Drafts> record_job(const DeskContext& context, const std::string& job,
                                        const LateRecord& record, const Calendar& calendar);

}  // namespace fogwright
