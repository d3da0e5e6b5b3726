// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <ostream>

#include "asking/job_text.hpp"
#include "asking/zone_time.hpp"
#include "cli/desk_call.hpp"
#include "cli/job_run.hpp"
#include "desk/job_items.hpp"

namespace fogwright {

using nlohmann::json;

void JobRun::say(std::string_view text, bool strong, std::string_view indent) {
  Page page(call_.style);
  page.paragraph(text, indent, strong ? Emphasis::strong : Emphasis::plain);
  call_.outside.out << std::move(page).take();
  call_.outside.out.flush();
}

std::optional<std::string> JobRun::ask(std::string_view question) {
  call_.outside.out << "  " << question << " > ";
  call_.outside.out.flush();
  auto line = call_.outside.read_line();
  if (!call_.outside.in_is_terminal || !line) call_.outside.out << '\n';
  if (!line) return std::nullopt;
  const auto parts = line->find_first_not_of(" \t\r");
  if (parts == std::string::npos) return std::string();
  return line->substr(parts, line->find_last_not_of(" \t\r") - parts + 1);
}

void JobRun::tell(const Error& error) {
  Page page(call_.style);
  page.paragraph(error.message, "  ", Emphasis::alarm);
  if (!error.hint.empty()) page.paragraph(error.hint, "  ");
  call_.outside.out << std::move(page).take();
}

bool JobRun::write(const Request& request) {
  const auto receipts = submit(call_, store_, request);
  if (!receipts) tell(receipts.error().front());
  return receipts.has_value();
}

std::vector<Missing> JobRun::open(const json& job, Stage stage) const {
  std::vector<Missing> missing;
  const std::int64_t ms = call_.outside.now_ms();
  store_.read([&](const Documents& documents, const Head&) {
    missing = missing_in(documents, job, stage, ms, local_day(job.at("zone").get<std::string>(), ms));
  });
  return missing;
}

bool JobRun::answer(const std::string& item, const std::string& typed) {
  return write([&](const DeskContext& context) {
    return meet_requirement(context, id_, item, typed, system_calendar());
  });
}

Went JobRun::ask_items(Stage stage) {
  const auto at_first = job();
  if (!at_first) return Went::left;
  const auto items = open(*at_first, stage);
  for (std::size_t i = 0; i < items.size(); ++i) {
    // What was answered before decides what is still open (a fit test goes by the facepiece).
    const auto current = job();
    if (!current) return Went::left;
    if (ask_item(*current, items[i].requirement, fmt::format("[{}/{}]", i + 1, items.size())) == Went::left)
      return Went::left;
  }
  return Went::on;
}

Went JobRun::ask_item(const json& job, const std::string& item, const std::string& place) {
  say(fmt::format("{} {}", place, item_words(job, item)), true);
  say(item_reason(item), false, "  ");
  const std::string_view special = evidence_question(item);
  const bool during = find_rule(item) && find_rule(item)->stage == Stage::during_fogging;
  for (;;) {
    const auto typed = ask(special.empty() ? "Done? yes" : special);
    if (!typed) return Went::left;
    const std::string plain = plain_words(*typed);
    if (during && (plain == "no" || plain == "n")) {
      const auto why = ask("What happened instead");
      if (!why) return Went::left;
      if (write([&](const DeskContext& context) { return lapse_requirement(context, id_, item, *why); }))
        return Went::on;
      continue;
    }
    if (plain.empty() || plain == "no" || plain == "n") {
      say("Left open.", false, "  ");
      return Went::on;
    }
    if (answer(item, *typed)) return Went::on;
  }
}

}  // namespace fogwright
