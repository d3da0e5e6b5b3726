// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>

#include "cli/desk_commands.hpp"
#include "cli/import_call.hpp"
#include "fogwright/desk/imports.hpp"

namespace fogwright {
namespace {

/// Names and contacts beside the record, as crew enrol keeps them.
void keep_details(const Call& call, Store& store, std::vector<CrewRow>& rows) {
  for (CrewRow& row : rows)
    row.person.details = keep_beside(call, store, {{"name", row.name}, {"contact", row.contact}});
}

void erase_details(Store& store, const std::vector<CrewRow>& rows) {
  for (const CrewRow& row : rows)
    if (!row.person.details.empty()) store.erase_private(row.person.details);
}

std::string told(const Drafts& drafts) {
  const auto people = std::count_if(drafts.begin(), drafts.end(),
                                    [](const NewEntry& draft) { return draft.kind == "person-enrolled"; });
  return fmt::format("people enrolled: {}; credentials added: {}", people,
                     static_cast<std::ptrdiff_t>(drafts.size()) - people);
}

}  // namespace

Outcome run_crew_import(const Call& call) {
  const auto text = read_import(call);
  if (!text) return refuse(text.error());
  auto rows = read_crew_csv(*text, call.options.operands().front());
  if (!rows) return tl::make_unexpected(rows.error());
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const bool writes = !call.options.has("dry-run");
  if (writes) keep_details(call, **store, *rows);
  auto outcome = import_to_book(
      call, **store, [&](const DeskContext& context) { return import_crew(context, *rows); }, told);
  if (writes && !outcome) erase_details(**store, *rows);
  return outcome;
}

}  // namespace fogwright
