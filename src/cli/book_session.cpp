// SPDX-License-Identifier: Apache-2.0
#include "cli/book_session.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <ostream>

#include "cli/progress.hpp"
#include "office/desk_book.hpp"

namespace fogwright {
namespace {

UuidRandom uuid_random(const Outside& outside) {
  UuidRandom random{};
  outside.random(random);
  return random;
}

}  // namespace

const std::vector<OptionRow>& book_options() {
  static const std::vector<OptionRow> rows = {
      {"book", "BOOK",
       "the book: a file, or postgresql://USER@HOST/DATABASE (default: FOGWRIGHT_BOOK, else the user's data "
       "folder)"},
      {"by", "HANDLE", "who does this (default: FOGWRIGHT_BY)"},
  };
  return rows;
}

std::vector<OptionRow> with_book_options(std::vector<OptionRow> rows) {
  rows.insert(rows.end(), book_options().begin(), book_options().end());
  return rows;
}

std::optional<std::string> data_folder(const Call& call) {
  if (const auto data = call.outside.environment("XDG_DATA_HOME"); data && !data->empty())
    return *data + "/fogwright";
  if (const auto home = call.outside.environment("HOME"); home && !home->empty())
    return *home + "/.local/share/fogwright";
  return std::nullopt;
}

Result<std::string> book_path(const Call& call) {
  if (const auto typed = call.options.text("book"); typed && !typed->empty()) return *typed;
  if (const auto set = call.outside.environment("FOGWRIGHT_BOOK"); set && !set->empty()) return *set;
  if (const auto folder = data_folder(call)) return *folder + "/book.db";
  return fail(ErrorCode::missing_value, "no book is named, and there is no home folder to look in", "--book",
              "write --book FILE or set FOGWRIGHT_BOOK");
}

tl::expected<std::unique_ptr<Store>, Faults> open_book(const Call& call, const std::string& address) {
  const auto told = [&] {
    if (!call.json)
      call.outside.err
          << "an earlier version of this program derived the documents of the book: they are derived "
             "anew, the record stays as it is\n";
  };
  auto store =
      open_desk_book(address, call.outside.now_ms, told, progress_line(call.outside, "deriving documents"));
  if (!store) return refuse(store.error());
  return std::move(*store);
}

tl::expected<std::unique_ptr<Store>, Faults> open_book(const Call& call) {
  const auto path = book_path(call);
  if (!path) return refuse(path.error());
  return open_book(call, *path);
}

DeskContext make_context(const Call& call, const Documents& now) {
  const Outside& outside = call.outside;
  const std::string by = call.options.text("by").value_or(outside.environment("FOGWRIGHT_BY").value_or(""));
  return {now,
          by,
          outside.device,
          outside.now_ms(),
          outside.boot_clock(),
          [maker = UuidMaker(outside.now_ms, [&outside] { return uuid_random(outside); })]() mutable {
            return maker.next();
          }};
}

tl::expected<std::vector<Receipt>, Faults> submit(const Call& call, Store& store, const Request& request) {
  auto receipts = store.append([&](const Documents& now, const Head&) -> Result<std::vector<NewEntry>> {
    const DeskContext context = make_context(call, now);
    if (context.actor.empty())
      return fail(ErrorCode::missing_value, "it is not said who does this", "--by",
                  "write --by HANDLE or set FOGWRIGHT_BY");
    return request(context);
  });
  if (!receipts) return refuse(receipts.error());
  return std::move(*receipts);
}

tl::expected<std::vector<Receipt>, Faults> submit_decision(const Call& call, Store& store,
                                                           const Deciding& decide) {
  std::optional<Error> refusal;
  auto receipts = submit(call, store, [&](const DeskContext& context) -> Result<Drafts> {
    auto decision = decide(context);
    if (!decision) return tl::make_unexpected(decision.error());
    refusal = std::move(decision->refusal);
    return std::move(decision->drafts);
  });
  if (receipts && refusal) return refuse(std::move(*refusal));
  return receipts;
}

}  // namespace fogwright
