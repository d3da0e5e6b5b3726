// SPDX-License-Identifier: Apache-2.0
// Erasing what lives beside the record. The entry is written first: what is gone without a word would be a gap,
// while an entry whose bytes are still there is mended by asking again.
#include <fmt/format.h>

#include "asking/zone_time.hpp"
#include "cli/desk_call.hpp"
#include "cli/desk_commands.hpp"
#include "fogwright/audit/retention.hpp"
#include "fogwright/desk/erasure.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// One sort of thing that can be erased.
struct Erasable {
  const char* kind;    ///< of the document
  const char* member;  ///< its hash
  Result<std::vector<RetentionHold>> (*held)(const Documents&, const std::string&, std::int64_t now_ms);
  Result<Drafts> (*erase)(const DeskContext&, const std::string&, const std::string& why);
};
constexpr Erasable of_job = {"job", "site", retention_of_job, erase_site};
constexpr Erasable of_person = {"person", "details", retention_of_person, erase_details};

Error must_be_kept(const std::vector<RetentionHold>& holds) {
  std::string words;
  for (const RetentionHold& hold : holds)
    words += fmt::format("{}{} ({}; {})", words.empty() ? "" : "; ", hold.what,
                         hold.until_ms ? "keep until " + day_text(*hold.until_ms) : "no end is known yet",
                         hold.rule->citation);
  return {ErrorCode::wrong_state,
          "this must still be kept: " + words,
          {},
          "fogwright audit retention lists the periods and where they come from"};
}

/// Already said to be erased, and the bytes may still be there after a crash.
Result<std::string> hash_of(Store& store, const Erasable& what, const std::string& key) {
  std::optional<json> document;
  store.read([&](const Documents& now, const Head&) { document = now.get(what.kind, key); });
  if (document && document->contains("erased")) return document->value(what.member, std::string());
  return std::string();
}

Outcome erase(const Call& call, const Erasable& what) {
  OptionReader options(call);
  options.operands(1, 1, fmt::format("the {}", what.kind));
  const std::string key = options.operand();
  const std::string why = options.needed("why", "'the customer asked for it'");
  if (options.fault()) return refuse(*options.fault());
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  if (const auto left = hash_of(**store, what, key); left && !left->empty() && (*store)->erase_private(*left)) {
    call.outside.out << (call.json ? "{\"entries\": [], \"departures\": []}\n"
                                   : "What an earlier erasure had left is gone now.\n");
    return {};
  }
  std::string hash;
  auto done = write_to_book(
      call, **store,
      [&](const DeskContext& context) -> Result<Drafts> {
        const auto holds = what.held(context.documents, key, context.now_ms);
        if (!holds) return tl::make_unexpected(holds.error());
        if (!holds->empty()) return tl::make_unexpected(must_be_kept(*holds));
        auto drafts = what.erase(context, key, why);
        if (drafts) hash = drafts->front().body.at("hash");
        return drafts;
      },
      [&](const Drafts&) {
        return fmt::format(
            "The name and address beside {} {} are erased; the record keeps their salted hash. "
            "Backups and papers made before still hold them.",
            what.kind, key);
      });
  if (done) (*store)->erase_private(hash);
  return done;
}

Outcome run_erase_job(const Call& call) { return erase(call, of_job); }
Outcome run_erase_person(const Call& call) { return erase(call, of_person); }

}  // namespace

std::vector<Command> erase_commands() {
  const OptionRow why{"why", "WORDS", "the reason, for the record"};
  return {
      {"erase", "job", "ID", "the customer's name and address of a job, once nothing asks for them any more",
       with_book_options({why}), run_erase_job, "fogwright erase job J1 --why 'the customer asked for it'"},
      {"erase", "person", "HANDLE", "the name and contact of somebody who left, once nothing asks for them",
       with_book_options({why}), run_erase_person, "fogwright erase person rowan --why 'left three years ago'"},
  };
}

}  // namespace fogwright
