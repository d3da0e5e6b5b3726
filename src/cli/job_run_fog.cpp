// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <ostream>

#include "asking/job_text.hpp"
#include "cli/desk_call.hpp"
#include "cli/job_run.hpp"
#include "desk/job_document.hpp"
#include "desk/job_items.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::int64_t tick_ms = 250;
constexpr std::int64_t sparse_ms = 10'000;  // off a terminal, a line so often
/// After the high mark the clock stops by itself: nobody is at the keyboard.
constexpr std::int64_t overrun_ms = 30'000;

struct Mark {
  std::int64_t ms;
  std::string words;
};

std::vector<Mark> marks_of(const json& planned) {
  const auto ms = [](const json& seconds) { return seconds.get<std::int64_t>() * 1'000; };
  return {{ms(planned.at("band_s").at(0)), "LOW MARK: from here on it counts"},
          {ms(planned.at("seconds")), "TARGET: shut the valve"},
          {ms(planned.at("band_s").at(1)), "HIGH MARK: shut the valve now"}};
}

}  // namespace

std::optional<char> JobRun::key(std::int64_t ms) {
  const std::int64_t before = uptime();
  const auto pressed = call_.outside.key(ms);
  // An input that has ended gives no key and does not wait for one.
  closed_ = !pressed && uptime() - before < ms / 2;
  return pressed;
}

void JobRun::redraw(std::string_view text, bool sparse) {
  if (call_.outside.out_is_terminal) {
    call_.outside.out << '\r' << text << "\x1b[K";
    drawn_ = true;
  } else if (sparse) {
    call_.outside.out << "  " << text << '\n';
  }
  call_.outside.out.flush();
}

void JobRun::end_redraw() {
  if (drawn_) call_.outside.out << '\n';
  drawn_ = false;
}

bool JobRun::record(const std::string& system, const std::string& name, std::int64_t ms) {
  const bool known = ms <= 0 || write([&](const DeskContext& context) {
                       return record_return(context, id_, system, name, ms);
                     });
  if (known) running_.remove();
  return known;
}

Went JobRun::take_up(const json& job) {
  const auto stretch = running_.kept();
  if (!stretch) return Went::on;
  const JobState state = state_of(job);
  const bool fog_is_out = state == JobState::fogging || state == JobState::holding || is_stopped_in_fog(job);
  if (!find_return(job, stretch->system, stretch->name)) {
    running_.remove();
    return Went::on;
  }
  say(fmt::format("{}, {} was being timed when the tool ended. Shut the valve if it is open.", stretch->system,
                  stretch->name),
      true);
  if (!fog_is_out) {
    say(fmt::format("The job is {} now, and this stretch is not in the book: tell the safety officer.",
                    job_state_name(state)),
        true);
    running_.remove();
    return Went::on;
  }
  // More in the book than when the valve opened: this stretch, by the last thing that the tool did, or another
  // one.
  const std::int64_t since = fogged_ms(job, stretch->system, stretch->name) - stretch->before_ms;
  if (since <= 0) return ask_stretch(stretch->system, stretch->name, open_ms(*stretch, now()));
  say(fmt::format("The book got {}.{} s of it since: write 0 if this stretch is among them.", since / 1'000,
                  since / 100 % 10),
      true);
  return ask_stretch(stretch->system, stretch->name, 0);
}

Went JobRun::ask_stretch(const std::string& system, const std::string& name, std::int64_t reckoned_ms) {
  const std::int64_t offered = std::min(reckoned_ms, longest_stretch_ms);
  // Where no clock tells a time, Enter does not mean that there was none.
  const std::string by_enter = offered > 0 ? fmt::format("Enter: {} s; ", (offered + 999) / 1'000) : "";
  for (;;) {
    const auto typed = ask(
        fmt::format("Seconds that the valve was open in this stretch ({}0: it was never opened)", by_enter));
    if (!typed) return Went::left;
    std::int64_t ms = offered;
    if (!typed->empty() || offered == 0) {
      const auto time = read_fog_time(*typed, name, {"s"});
      if (!time) {
        tell(time.error());
        continue;
      }
      ms = time->floor_in(unit::millisecond);
    }
    return record(system, name, ms) ? Went::on : Went::left;
  }
}

Walk JobRun::fog(const json& job) {
  say("Motor on first, then open the valve until a fine mist shows. Keys: p pauses and goes on, n ends the "
      "return.",
      true);
  for (const json& system : job.at("plan").at("systems"))
    for (const json& planned : system.at("returns"))
      if (fog_return(system.at("name"), planned) == Went::left) return Went::left;
  if (ask_items(Stage::during_fogging) == Went::left) return Went::left;
  return fog_off();
}

/// Until the book has the low mark, or the technician ends the return.
Went JobRun::fog_return(const std::string& system, const json& planned) {
  const std::string name = planned.at("name");
  for (;;) {
    const auto current = job();
    if (!current) return Went::left;
    const std::int64_t before = fogged_ms(*current, system, name);
    if (before >= planned.at("band_s").at(0).get<std::int64_t>() * 1'000) return Went::on;
    say(fmt::format("{}, {}: {} s ({} to {} s); {}.{} s so far.", system, name,
                    planned.at("seconds").get<std::int64_t>(), planned.at("band_s").at(0).get<std::int64_t>(),
                    planned.at("band_s").at(1).get<std::int64_t>(), before / 1'000, before / 100 % 10),
        true);
    const auto typed = ask("Enter when the valve opens; seconds if it was open already; skip to go on");
    if (!typed) return Went::left;
    if (typed->empty()) return time_return(system, planned, before);
    if (plain_words(*typed) == "skip") return Went::on;
    const auto time = read_fog_time(*typed, name, {"s"});
    if (!time)
      tell(time.error());
    else
      (void)record(system, name, time->floor_in(unit::millisecond));
  }
}

/// Counts up from what was fogged before. The time is the uptime's: no clock that is set can bend it.
Went JobRun::time_return(const std::string& system, const json& planned, std::int64_t before_ms) {
  const std::string name = planned.at("name");
  const auto marks = marks_of(planned);
  std::int64_t recorded = before_ms;
  // The clock counts from the key: the valve is open while the file is written.
  const auto start = [&] {
    const Moment opened = now();
    running_.keep({system, name, recorded, opened});
    return opened.clock.uptime_ms;
  };
  std::int64_t from = start();
  std::size_t next = 0;
  std::int64_t shown = 0;
  while (next < marks.size() && marks[next].ms <= recorded) ++next;
  for (;;) {
    const auto pressed = key(tick_ms);
    const std::int64_t stretch = uptime() - from;
    const std::int64_t total = recorded + stretch;
    while (next < marks.size() && total >= marks[next].ms) {
      end_redraw();
      call_.outside.out << "\a  " << marks[next].ms / 1'000 << " s  " << marks[next].words << '\n';
      ++next;
    }
    redraw(fmt::format("  {}  {} s of {} s", name, total / 1'000, planned.at("seconds").get<std::int64_t>()),
           total / sparse_ms != shown / sparse_ms);
    shown = total;
    const bool overrun = total >= marks.back().ms + overrun_ms;
    if (pressed == 'n' || pressed == 'p' || overrun || closed_) end_redraw();
    if (pressed == 'n') return record(system, name, stretch) ? Went::on : Went::left;
    if (pressed == 'p') {
      if (!record(system, name, stretch)) return Went::left;
      recorded = total;
      say("Paused: shut the valve. p goes on, n ends the return.", true, "  ");
      std::optional<char> again;
      while (again != 'p' && again != 'n' && !closed_) again = key(1'000);
      if (again != 'p') return again == 'n' ? Went::on : Went::left;
      from = start();
      continue;
    }
    if (overrun || closed_) {
      if (ask_stretch(system, name, stretch) == Went::left) return Went::left;
      return fog_return(system, planned);  // short of the low mark it is asked for again
    }
  }
}

Walk JobRun::fog_off() {
  say("Shut the valve first, then the motor.", true);
  for (;;) {
    const auto typed = ask("How much is left in the tank? (Enter: not measured; the time tells the use)");
    if (!typed) return Went::left;
    FogOff off;
    if (!typed->empty()) {
      const auto left = read_liquid_volume(*typed, "left");
      if (!left) {
        tell(left.error());
        continue;
      }
      off.left_ul = left->floor_in(unit::microlitre);
      off.left_typed = *typed;
    }
    if (!write([&](const DeskContext& context) { return end_fog(context, id_, off); })) continue;
    if (!typed->empty()) (void)answer("volume-after", *typed);
    say("Fog-off. The hold runs: leave, shut the door, nobody goes in.", true);
    return Went::on;
  }
}

}  // namespace fogwright
