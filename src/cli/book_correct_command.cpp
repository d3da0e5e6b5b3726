// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/book_command.hpp"
#include "cli/desk_call.hpp"
#include "fogwright/desk/correction.hpp"

namespace fogwright {
namespace {

/// Words change nothing that is reckoned with: how that is put right instead, where there is a way.
std::string elsewhere(const Entry& entry) {
  if (entry.kind != "container-received") return {};
  return fmt::format(
      ". Its lot, last day, supplier and cost, as the book goes by them, are put right with fogwright stock "
      "correct {}",
      entry.body.value("container", std::string("CONTAINER")));
}

Outcome run_correct(const Call& call) {
  OptionReader options(call);
  options.operands(2, 2, "the entry, or what is right instead,");
  if (options.fault()) return refuse(*options.fault());
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const auto seq = entry_named(**store, options.operand());
  if (!seq) return refuse(seq.error());
  const auto entry = (*store)->entry(*seq);
  if (!entry)
    return refuse({ErrorCode::bad_book,
                   fmt::format("entry {} can't be read", *seq),
                   {},
                   "fogwright book verify tells what is wrong"});
  return write_to_book(
      call, **store,
      [&](const DeskContext& context) {
        return correct_entry(context, *entry, options.operand(1), options.text("why"));
      },
      [&](const Drafts&) {
        return fmt::format("entry {} ({}) is put right in words; it stays as it was written{}", entry->seq,
                           entry->kind, elsewhere(*entry));
      });
}

Result<Drafts> make_note(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(2, 2, "what the note is about, or its text,");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return write_note(context, options.operand(), options.operand(1));
}
std::string told_note(const Drafts& drafts) {
  return fmt::format("noted about {}", drafts.front().body.at("about").get<std::string>());
}

}  // namespace

std::vector<Command> book_correct_commands() {
  return {
      {"book", "correct", "ENTRY TEXT", "say what is right instead of what an entry says; both stay",
       with_book_options({{"why", "WORDS", "why it is put right"}}), run_correct,
       "fogwright book correct 41 'the meter read 0.4 ppm' --why 'read off the wrong line'"},
      {"book", "note", "ABOUT TEXT", "a note about a job, a container, a person or another thing of the book",
       with_book_options({}), run_desk<make_note, told_note>,
       "fogwright book note J1 'the cellar door sticks'"},
  };
}

}  // namespace fogwright
