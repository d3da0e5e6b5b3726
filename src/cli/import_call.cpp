// SPDX-License-Identifier: Apache-2.0
#include "cli/import_call.hpp"

#include <fmt/format.h>
#include <ostream>

#include "cli/printing.hpp"
#include "desk/rehearsal.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::size_t largest_import = 10'000'000;

/// What an entry is about: the first of these that it has.
std::string subject(const json& body) {
  for (const char* member : {"handle", "container", "job"})
    if (body.contains(member)) return body[member].get<std::string>();
  return {};
}

json rehearsed_json(const Rehearsal& rehearsal) {
  json entries = json::array();
  for (const NewEntry& draft : rehearsal.drafts())
    entries.push_back({{"kind", draft.kind}, {"body", draft.body}});
  return {{"dry_run", true}, {"entries", std::move(entries)}, {"departures", rehearsal.departures()}};
}

Page rehearsed_page(const Call& call, const Rehearsal& rehearsal, const std::string& told) {
  Page page(call.style);
  page.paragraph(fmt::format("Dry run: nothing is written. It would be: {}.", told), "");
  for (const NewEntry& draft : rehearsal.drafts()) page.field(subject(draft.body), draft.kind);
  for (const json& departure : rehearsal.departures())
    page.paragraph(fmt::format("departure ({}): {}", departure.at("severity").get<std::string>(),
                               departure.at("what").get<std::string>()),
                   "  ", Emphasis::alarm);
  return page;
}

Outcome rehearse(const Call& call, Store& store, const Importing& make, const Told& told) {
  Outcome outcome;
  store.read([&](const Documents& now, const Head&) {
    const DeskContext context = make_context(call, now);
    const auto drafts = make(context);
    if (!drafts) {
      outcome = tl::make_unexpected(drafts.error());
      return;
    }
    Rehearsal rehearsal(context);
    rehearsal.take(*drafts);
    print_shown(call, rehearsed_json(rehearsal), rehearsed_page(call, rehearsal, told(*drafts)));
  });
  return outcome;
}

}  // namespace

const OptionRow dry_run_row{"dry-run", nullptr, "write nothing; tell each fault, or what would be written"};

Result<std::string> read_import(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the CSV file");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return read_file(options.operand(), largest_import);
}

Outcome import_to_book(const Call& call, Store& store, const Importing& make, const Told& told) {
  if (call.options.has("dry-run")) return rehearse(call, store, make, told);
  Faults faults;
  auto outcome = write_to_book(
      call, store,
      [&](const DeskContext& context) -> Result<Drafts> {
        auto drafts = make(context);
        if (drafts) return std::move(*drafts);
        faults = drafts.error();
        return tl::make_unexpected(faults.front());
      },
      told);
  if (!faults.empty()) return tl::make_unexpected(std::move(faults));
  return outcome;
}

}  // namespace fogwright
