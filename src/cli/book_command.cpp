// SPDX-License-Identifier: Apache-2.0
#include "cli/book_command.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <filesystem>
#include <ostream>

#include "cli/book_keys.hpp"
#include "cli/printing.hpp"
#include "cli/progress.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/desk/correction.hpp"
#include "fogwright/desk/fold.hpp"
#include "report/page.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// A new file has its name free and its folder made; whether a server has the book already it says itself.
Outcome nothing_there(const Call& call, const std::string& book) {
  std::error_code ignored;
  if (is_server_address(book)) {
    const auto there = open_book(book, fold, call.outside.now_ms);
    if (!there && there.error().code == ErrorCode::not_found) return {};
    if (!there) return refuse(there.error());
  } else {
    std::filesystem::create_directories(std::filesystem::path(book).parent_path(), ignored);
    if (!std::filesystem::exists(book, ignored)) return {};
  }
  return refuse({ErrorCode::already_exists, fmt::format("{} is already there", shown_address(book)), "--book",
                 "choose another name"});
}

// --- create -------------------------------------------------------------------------------------------------

Outcome run_create(const Call& call) {
  const auto origin = call.options.text("origin");
  if (!origin)
    return refuse_missing("the book has no name", "--origin",
                          "give it a name that is yours alone, e.g. --origin your-firm.example/shop");
  const auto path = book_path(call);
  if (!path) return refuse(path.error());
  if (auto free = nothing_there(call, *path); !free) return free;
  // The key first: a book without its key could never be signed.
  const auto key = make_key(call, *origin);
  if (!key) return refuse(key.error());
  const auto store = create_book(*path, *origin, fold, call.outside.now_ms, call.options.all("grant-to"));
  if (!store) {
    remove_key(call);
    return refuse(store.error());
  }
  const std::string shown = shown_address(*path);
  if (call.json)
    call.outside.out << json{{"book", shown}, {"origin", *origin}, {"vkey", vkey_text(*key)}}.dump(2) << '\n';
  else
    call.outside.out << fmt::format(
        "book {}\nits public key, for everyone who verifies:\n  {}\nits secret key is {}: keep it apart from "
        "the book and "
        "back it up\n",
        shown, vkey_text(*key), *key_path(call));
  return {};
}

// --- copy ---------------------------------------------------------------------------------------------------

void tell_copy(const Call& call, const Transferred& done, const std::string& target) {
  if (call.json) {
    call.outside.out << json{{"copy", shown_address(target)},
                             {"entries", done.head.size},
                             {"root", to_hex(as_bytes(done.head.root))},
                             {"checkpoints", done.checkpoints},
                             {"private", done.private_bytes}}
                            .dump(2)
                     << '\n';
    return;
  }
  Page page(call.style);
  page.field("copy", shown_address(target));
  page.field("entries", fmt::format("{}", done.head.size));
  page.field("root, of both", to_hex(as_bytes(done.head.root)));
  page.field("checkpoints", fmt::format("{}", done.checkpoints));
  page.field("private", fmt::format("{}", done.private_bytes));
  call.outside.out << std::move(page).take();
  if (const auto keys = keys_of(call, target))
    call.outside.out << fmt::format("the keys are not copied; the copy looks for them at {}.key and {}.vkey\n",
                                    *keys, *keys);
}

Outcome run_copy(const Call& call) {
  if (call.options.operands().size() != 2)
    return refuse_missing("two books are to be named", "book copy", "write fogwright book copy FROM TO");
  const std::string &source = call.options.operands()[0], &target = call.options.operands()[1];
  const auto from = open_book(call, source);
  if (!from) return tl::make_unexpected(from.error());
  const auto done = copy_book(**from, target, fold, call.outside.now_ms, progress_line(call.outside, "copying"),
                              call.options.all("grant-to"));
  if (!done) return tl::make_unexpected(done.error());
  tell_copy(call, *done, target);
  return {};
}

// --- rebuild, backup
// ------------------------------------------------------------------------------------------

Outcome run_rebuild(const Call& call) {
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  std::vector<std::string> differing;
  const std::int64_t count = (*store)->rebuild(differing, progress_line(call.outside, "rebuilding"));
  if (call.json)
    call.outside.out << json{{"differing", count}, {"documents", differing}}.dump(2) << '\n';
  else if (count == 0)
    call.outside.out << "rebuilt: the documents were as the entries say\n";
  else
    for (const std::string& name : differing) call.outside.out << "was wrong and is mended: " << name << '\n';
  return {};
}

Outcome run_backup(const Call& call) {
  if (call.options.operands().size() != 1)
    return refuse_missing("no file is named to back up to", "book backup", "write fogwright book backup FILE");
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const std::string& target = call.options.operands().front();
  (*store)->backup_to(target, progress_line(call.outside, "backing up"));
  if (call.json)
    call.outside.out << json{{"backup", target}, {"entries", (*store)->head().size}}.dump(2) << '\n';
  else
    call.outside.out << fmt::format("backed up to {}; the signing key is not in it\n", target);
  return {};
}

// --- export, import
// -------------------------------------------------------------------------------------------

Outcome run_export(const Call& call) {
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  std::string all;
  const std::int64_t size = (*store)->head().size;
  const auto target = call.options.text("out");
  const Progress progress = progress_line(call.outside, "exporting");
  (*store)->each_leaf(0, size, [&](std::int64_t seq, std::string_view leaf) {
    if (target)
      all.append(leaf).push_back('\n');
    else
      call.outside.out << leaf << '\n';
    progress(seq + 1, size);
  });
  if (target)
    if (auto written = write_new_file(*target, all); !written) return refuse(written.error());
  return {};
}

Outcome run_import(const Call& call) {
  if (call.options.operands().size() != 1)
    return refuse_missing("no export is named", "book import", "write fogwright book import FILE");
  const std::string& file = call.options.operands().front();
  const auto text = read_file(file, std::size_t{1} << 32U);
  if (!text) return refuse(text.error());
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const auto taken = (*store)->import_lines(*text, file, progress_line(call.outside, "importing"));
  if (!taken) return tl::make_unexpected(taken.error());
  if (call.json)
    call.outside.out << json{{"imported", *taken}, {"entries", (*store)->head().size}}.dump(2) << '\n';
  else
    call.outside.out << fmt::format("imported {} entries; the book holds {}\n", *taken, (*store)->head().size);
  return {};
}

// --- entries
// --------------------------------------------------------------------------------------------------

/// A table has one column for the bodies, which differ from kind to kind: their text.
json entry_json(const Entry& entry, json body) {
  json row = {{"seq", entry.seq},       {"id", uuid_text(entry.id)}, {"happened_ms", entry.happened_ms},
              {"actor", entry.actor},   {"device", entry.device},    {"kind", entry.kind},
              {"body", std::move(body)}};
  if (entry.corrects) row.update({{"corrects", uuid_text(*entry.corrects)}, {"reason", entry.reason}});
  return row;
}

json whole_entry_json(const Entry& entry, const Corrections& corrections) {
  json row = entry_json(entry, entry.body);
  if (const auto by = corrections.find(uuid_text(entry.id)); by != corrections.end())
    row["corrected_by"] = by->second;
  return row;
}

/// What it puts right, and what puts it right: each shows at the other.
std::string correction_words(Store& store, const Entry& entry, const Corrections& corrections) {
  std::string words;
  if (entry.corrects) {
    const auto corrected = store.find(*entry.corrects);
    words += fmt::format("; corrects {}: {}",
                         corrected ? fmt::format("entry {}", *corrected) : "an unknown entry", entry.reason);
  }
  if (const auto by = corrections.find(uuid_text(entry.id)); by != corrections.end())
    words += fmt::format("; corrected by entry {}", fmt::join(by->second, ", "));
  return words;
}

Outcome run_entries(const Call& call) {
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  const std::int64_t size = (*store)->head().size;
  std::int64_t last = 20;
  if (const auto typed = call.options.text("last")) {
    const auto number = read_number(*typed, "--last");
    if (!number) return refuse(number.error());
    last = static_cast<std::int64_t>(*number);
  }
  const std::int64_t from = call.options.has("all") ? 0 : std::max<std::int64_t>(0, size - last);
  Corrections corrections;
  (*store)->read([&](const Documents& now, const Head&) { corrections = corrections_in(now); });
  Page page(call.style);
  json rows = json::array();
  // One value as of every list, but written entry by entry: a whole book is not held in memory.
  const bool one_value = call.format == Format::json;
  if (one_value) call.outside.out << "{\"entries\": [";
  for (std::int64_t seq = from; seq < size; ++seq) {
    const auto entry = (*store)->entry(seq);
    if (!entry) break;
    if (call.format == Format::text)
      page.paragraph(fmt::format("{} by {} on {}{}", entry->kind, entry->actor, entry->device,
                                 correction_words(**store, *entry, corrections)),
                     fmt::format("{:>6}  ", seq));
    else if (call.format == Format::csv)
      rows.push_back(entry_json(*entry, entry->body.dump()));
    else if (one_value)
      call.outside.out << (seq == from ? "\n" : ",\n") << whole_entry_json(*entry, corrections).dump();
    else
      call.outside.out << whole_entry_json(*entry, corrections).dump() << '\n';
  }
  if (one_value) call.outside.out << "\n]}\n";
  if (call.format == Format::csv) print_rows(call, rows);
  call.outside.out << std::move(page).take();
  return {};
}

}  // namespace

const OptionRow key_row{"key", "FILE",
                        "the book's secret signing key (default: FOGWRIGHT_KEY, else beside the book)"};
const OptionRow grant_row{"grant-to", "ROLE", "on a server: a role that may use the book besides its owner",
                          true};
const OptionRow vkey_row{"vkey", "KEY|FILE", "the public key to check by (default: beside the book)"};
const OptionRow out_row{"out", "FILE", "write to a new file instead of the output"};

tl::unexpected<Faults> refuse_missing(std::string message, std::string where, std::string hint) {
  return refuse({ErrorCode::missing_value, std::move(message), std::move(where), std::move(hint)});
}

Result<std::int64_t> entry_named(Store& store, const std::string& typed) {
  const auto number = read_decimal(typed);
  if (number && *number < static_cast<std::uint64_t>(store.head().size))
    return static_cast<std::int64_t>(*number);
  const auto id = read_uuid(typed);
  if (const auto seq = id ? store.find(*id) : std::nullopt) return *seq;
  return fail(ErrorCode::not_found, fmt::format("the book has no entry {}", typed), {},
              "fogwright book entries lists them; take a number or an id");
}

Outcome write_or_print(const Call& call, const std::string& text, std::string_view what) {
  if (const auto target = call.options.text("out")) {
    if (auto written = write_new_file(*target, text); !written) return refuse(written.error());
    if (!call.json) call.outside.out << fmt::format("{} written to {}\n", what, *target);
  }
  if (call.json)
    call.outside.out << json{{std::string(what), text}}.dump(2) << '\n';
  else if (!call.options.has("out"))
    call.outside.out << text;
  return {};
}

std::vector<Command> book_commands() {
  return {
      {"book", "create", "", "make a book and its signing key",
       with_book_options({{"origin", "NAME", "the book's name, yours alone, e.g. your-firm.example/shop"},
                          key_row,
                          grant_row}),
       run_create, "fogwright book create --book shop.db --origin your-firm.example/shop"},
      {"book", "rebuild", "", "derive stock, crew and jobs anew from the entries", with_book_options({}),
       run_rebuild, ""},
      {"book",
       "entries",
       "",
       "list the newest entries",
       with_book_options({{"last", "N", "how many (default 20)"}, {"all", nullptr, "all of them"}}),
       run_entries,
       "",
       {"entries", {"seq", "id", "happened_utc", "actor", "device", "kind", "body", "corrects", "reason"}}},
      {"book", "export", "", "the exact bytes of every entry, one a line", with_book_options({out_row}),
       run_export, ""},
      {"book", "import", "FILE", "take in entries that another copy of this book has more of; all or none",
       with_book_options({}), run_import, ""},
      {"book", "backup", "FILE", "a consistent copy while others write", with_book_options({}), run_backup, ""},
      {"book",
       "copy",
       "FROM TO",
       "copy a book between a file and a server, and prove that it is the same",
       {grant_row},
       run_copy,
       "fogwright book copy shop.db postgresql://owner@db.example/books"},
  };
}

}  // namespace fogwright
