// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <ostream>

#include "asking/job_text.hpp"
#include "cli/job_run.hpp"
#include "desk/job_items.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::int64_t tick_ms = 1'000;
constexpr std::int64_t sparse_ms = 10 * 60'000;

}  // namespace

Walk JobRun::hold(const json& job) {
  if (wait_for_hold(job) == Went::left) return Went::left;
  const auto current = this->job();
  if (!current) return refuse(current.error());
  const auto state = hold_state(*current, now());
  if (!state || !state->ready) return Went::on;  // a reading was taken: look again
  if (ask_items(Stage::before_release) == Went::left) return Went::left;
  return release();
}

/// Counts down to the end of the hold. Keys: r enters a reading, q leaves; the hold runs on by itself.
Went JobRun::wait_for_hold(const json& job) {
  std::int64_t shown = -1;
  say("The hold. Keys: r enters a reading, q leaves (the hold runs on).", true);
  for (;;) {
    const auto state = hold_state(job, now());
    if (!state || state->ready) {
      end_redraw();
      return Went::on;
    }
    const bool time_is_up = state->elapsed_ms >= (state->readings_needed ? state->floor_ms : state->total_ms);
    const bool sparse = shown < 0 || state->elapsed_ms / sparse_ms != shown / sparse_ms;
    if (call_.outside.out_is_terminal || sparse)
      redraw("  " + hold_words(job, *state, call_.outside.now_ms()), sparse);
    shown = state->elapsed_ms;
    if (time_is_up) {
      end_redraw();
      tell(state->ready.error());
      return ask_reading();
    }
    const auto pressed = key(tick_ms);
    if (pressed == 'r') {
      end_redraw();
      return ask_reading();
    }
    if (pressed == 'q' || closed_) {
      end_redraw();
      return Went::left;
    }
  }
}

Went JobRun::ask_reading() {
  const auto typed = ask("Reading: CAS number and value, e.g. 10049-04-4 0.02 mg/m3 (Enter leaves)");
  if (!typed || typed->empty()) return Went::left;
  const auto space = std::min(typed->find(' '), typed->size());
  NewReading reading;
  reading.substance = typed->substr(0, space);
  reading.typed = typed->substr(std::min(space + 1, typed->size()));
  const auto value = read_reading(reading.substance, reading.typed);
  if (!value) {
    tell(value.error());
    return Went::on;
  }
  const auto fan = ask("Was the fan running? yes or no");
  if (!fan) return Went::left;
  reading.ug_m3 = *value;
  reading.fan_running = is_yes(*fan);
  (void)write([&](const DeskContext& context) { return take_reading(context, id_, reading); });
  return Went::on;
}

Walk JobRun::release() {
  const auto typed = ask("Release the building? Type release");
  if (!typed || *typed != "release") return Went::left;
  const auto released = submit_decision(
      call_, store_, [&](const DeskContext& context) { return release_job(context, id_, system_calendar()); });
  if (!released) return tl::make_unexpected(released.error());
  say("Released: people and animals may go in.", true);
  return Went::on;
}

}  // namespace fogwright
