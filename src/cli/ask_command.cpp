// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/desk_call.hpp"
#include "cli/desk_commands.hpp"
#include "cli/job_commands.hpp"
#include "cli/printing.hpp"
#include "fogwright/desk/replan.hpp"
#include "fogwright/trace.hpp"

namespace fogwright {
namespace {

using Question = std::function<Result<Answer>(const Asked& asked)>;

Page answer_page(const TextStyle& style, const Answer& answer) {
  Page page(style);
  page.paragraph(answer.sentence, "", Emphasis::strong);
  if (!answer.rows.empty()) page.blank();
  for (const AnswerRow& row : answer.rows) page.field(row.label, row.words);
  if (!answer.totals.empty()) page.heading("In all");
  for (const AnswerRow& row : answer.totals) page.field(row.label, row.words);
  if (!answer.notes.empty()) page.blank();
  for (const std::string& note : answer.notes) page.paragraph(note, "- ", Emphasis::quiet);
  return page;
}

/// Peaks of a plan made again from what the book recorded.
Modelled modelled_of(const Documents& now, const std::string& job) {
  Modelled out;
  const auto again = replan(now, job);
  if (!again) {
    out.fault = again.error().front().message;
    return out;
  }
  for (const ActiveAir& active : again->plan.air.actives) {
    ModelledPeak peak;
    peak.cas = active.active->released_cas.value_or(active.active->cas);
    peak.name = active.active->released_name.value_or(active.active->name);
    if (active.active->mass_fraction) peak.ug_m3 = active.peak.ceil_in(unit::microgram_per_cubic_metre);
    out.peaks.push_back(std::move(peak));
  }
  return out;
}

Outcome put(const Call& call, const Question& question) {
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  Result<Answer> answer = Answer{};
  (*store)->read([&](const Documents& now, const Head&) {
    const auto kept = [&store](const std::string& hash) { return (*store)->private_bytes(hash); };
    answer = question({now, kept, system_calendar(), call.style.units,
                       [&now](const std::string& job) { return modelled_of(now, job); }});
  });
  if (!answer) return refuse(answer.error());
  print_shown(call, answer_json(*answer), answer_page(call.style, *answer));
  return {};
}

/// The words after the action: an address needs no quotes.
std::string words_of(const Call& call) { return fmt::format("{}", fmt::join(call.options.operands(), " ")); }

Outcome run_address(const Call& call) {
  return put(call, [&](const Asked& asked) { return ask_address(asked, words_of(call)); });
}

Outcome run_lot(const Call& call) {
  return put(call, [&](const Asked& asked) { return ask_lot(asked, words_of(call)); });
}

Outcome run_exposure(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the handle");
  if (options.fault()) return refuse(*options.fault());
  return put(call, [&](const Asked& asked) { return ask_exposure(asked, options.operand()); });
}

Outcome run_fogger(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the fogger");
  if (options.fault()) return refuse(*options.fault());
  return put(call, [&](const Asked& asked) {
    return ask_fogger(asked, options.operand(), options.text("off-since"));
  });
}

Outcome run_use(const Call& call) {
  const OptionReader options(call);
  return put(call,
             [&](const Asked& asked) { return ask_use(asked, options.text("from"), options.text("to")); });
}

}  // namespace

std::vector<Command> ask_commands() {
  return {
      {"ask",
       "address",
       "WORDS",
       "what was used at an address, when, of which lots",
       with_book_options({}),
       run_address,
       "fogwright ask address 12 Mill Lane",
       {"rows",
        {"day", "job", "state", "product", "name", "registration", "lots", "used_ul", "address", "customer"}}},
      {"ask",
       "lot",
       "LOT",
       "where a lot went: containers, batches, jobs",
       with_book_options({}),
       run_lot,
       "fogwright ask lot FR-2601",
       {"rows",
        {"what", "id", "day", "product", "place", "remaining_ul", "drawn_ul", "through", "address",
         "customer"}}},
      {"ask",
       "exposure",
       "HANDLE",
       "what a person was exposed to (29 CFR 1910.1020)",
       with_book_options({}),
       run_exposure,
       "fogwright ask exposure sedge",
       {"rows",
        {"day", "what", "job", "name", "registration", "actives", "roles", "fog_minutes", "facepiece",
         "cartridge", "worn_minutes", "readings", "modelled"}}},
      {"ask",
       "fogger",
       "NAME",
       "which jobs went by a flow that a later test does not bear out",
       with_book_options({{"off-since", "DATE", "since when it was off (default: the test before the last)"}}),
       run_fogger,
       "fogwright ask fogger gust --off-since 2026-03-02",
       {"rows",
        {"day", "job", "name", "fogged_s", "planned_flow_ul_min", "later_flow_ul_min", "planned_ul",
         "recorded_ul", "measured", "really_ul", "least_ul", "most_ul", "against_plan"}}},
      {"ask",
       "use",
       "",
       "use by month and product, for a report to the state",
       with_book_options({{"from", "MONTH", "first month or day, e.g. 2026-01"},
                          {"to", "MONTH", "last month or day, counted in"}}),
       run_use,
       "fogwright ask use --from 2026-01 --to 2026-12 --format csv",
       {"rows",
        {"month", "product", "name", "registration", "volume_ul", "jobs", "jobs_without_volume", "actives",
         "actives_mg"}}},
  };
}

}  // namespace fogwright
