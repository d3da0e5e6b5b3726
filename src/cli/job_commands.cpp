// SPDX-License-Identifier: Apache-2.0
#include "cli/job_commands.hpp"

#include "asking/zone_time.hpp"
#include "cli/import_call.hpp"

namespace fogwright {
namespace {

constexpr OptionRow why_row = {"why", "WORDS", "the reason, in a few words"};

std::vector<OptionRow> options(std::vector<OptionRow> rows) { return with_book_options(std::move(rows)); }

/// Before the fog, and the walk through it all.
std::vector<Command> gate_commands() {
  return {
      {"job", "plan", "", "plan a job and write it into the book", job_plan_options(), run_job_plan,
       "fogwright job plan --product fenmist-rtu --area 2400 --returns 3 --technician rowan --fogger f1 --van "
       "heron --zone America/Chicago"},
      {"job", "run", "ID", "go through a job at the terminal, from the gate to its close; goes on where it was",
       options({}), run_job_run, "fogwright job run J1"},
      {"job", "check", "ID ITEM ANSWER", "an item of the gate is met",
       options({{"photo", "FILE", "a photo as evidence; its SHA-256 goes into the book"}}), run_job_check,
       "fogwright job check J1 everyone-out 3"},
      {"job", "lapse", "ID [ITEM...]", "an item is no longer met, or was not kept",
       options({why_row,
                {"entered", nullptr, "someone went in: everything that stood on an empty house"},
                {"doffed", nullptr, "the respirator came off: everything that is done when it goes on"}}),
       run_job_lapse, "fogwright job lapse J1 --entered --why 'the owner fetched a coat'"},
      {"job", "clear", "ID", "every item before fogging is met", options({}), run_job_clear,
       "fogwright job clear J1"},
      {"job", "start", "ID", "start the fog; refused while an item is open", options({}), run_job_start,
       "fogwright job start J1"},
  };
}

std::vector<Command> fog_commands() {
  return {
      {"job", "fogged", "ID RETURN", "a return was fogged; stretches of one return add up",
       options({{"time", "TIME", "how long the valve was open, e.g. '42 s'"},
                {"system", "NAME", "air system, where several have a return of that name"}}),
       run_job_fogged, "fogwright job fogged J1 hall --time '42 s'"},
      {"job", "fog-off", "ID", "valve shut, motor off: the hold starts",
       options({{"left", "VOLUME", "measured in the tank; without it the use is reckoned from the time"},
                {"added", "VOLUME", "filled in since the first measure"}}),
       run_job_fog_off, "fogwright job fog-off J1 --left '7 fl oz'"},
      {"job", "reading", "ID", "what an instrument shows",
       options({{"substance", "CAS", "its CAS number, e.g. 10049-04-4"},
                {"value", "VALUE", "e.g. '0.02 mg/m3' or '0.01 ppm'"},
                {"fan-running", nullptr, "the fan was running"},
                {"instrument", "NAME", "which one"}}),
       run_job_reading, "fogwright job reading J1 --substance 10049-04-4 --value '0.02 mg/m3' --fan-running"},
      {"job", "release", "ID", "people may go in again; refused while the hold runs", options({}),
       run_job_release, "fogwright job release J1"},
      {"job", "close", "ID", "everything is put back: the job is done", options({}), run_job_close,
       "fogwright job close J1"},
      {"job", "stop", "ID", "give the job up; fog that was let out is held all the same", options({why_row}),
       run_job_stop, "fogwright job stop J1 --why 'the fan failed'"},
      {"job", "record", "ID", "a planned job that was done without the tool",
       options({why_row,
                {"started", "TIME", "first fog, at the job's place: '2026-03-04 14:05'"},
                {"ended", "TIME", "last fog"},
                {"released", "TIME", "when people went in again"},
                {"used", "VOLUME", "how much was used"},
                {"return", "NAME=TIME", "how long a return was fogged", true},
                {"met", "ITEM=ANSWER", "an item that was met, with its evidence", true}}),
       run_job_record,
       "fogwright job record J1 --why 'no phone' --started '2026-03-04 14:05' --ended '2026-03-04 14:09' "
       "--return 'hall=42 s' --met everyone-out=3"},
      {"job", "import", "FILE", "jobs done before the book, from a CSV file, all or nothing",
       options({dry_run_row, {"zone", "ZONE", "time zone of jobs that name none (default: FOGWRIGHT_ZONE)"}}),
       run_job_import, "fogwright job import log.csv --dry-run"},
      {"job",
       "show",
       "ID",
       "how a job stands, what is open, how long the hold runs",
       options({}),
       run_job_show,
       "fogwright job show J1",
       {".", {"job", "state", "product", "technician", "planned_utc"}}},
      {"job",
       "list",
       "",
       "the jobs that are open",
       options({{"all", nullptr, "also those that are closed or stopped"}}),
       run_job_list,
       "fogwright job list",
       {"jobs", {"job", "state", "product", "technician", "planned_utc"}}},
  };
}

}  // namespace

std::vector<Command> job_commands() {
  std::vector<Command> rows = gate_commands();
  for (Command& row : fog_commands()) rows.push_back(std::move(row));
  return rows;
}

Calendar system_calendar() { return local_day; }

}  // namespace fogwright
