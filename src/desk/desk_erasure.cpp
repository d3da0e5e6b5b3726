// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/erasure.hpp"

#include <fmt/format.h>

#include "desk/checks.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// `kind` and `key` name the document; its `member` is the hash of what is beside the record.
Result<Drafts> erase_beside(const DeskContext& context, const char* kind, const std::string& key,
                            const char* member, const std::string& why) {
  if (auto ok = first_error({may_make(context, "private-erased"), check_words(why, "the reason", "--why")});
      !ok)
    return tl::make_unexpected(ok.error());
  const auto document = find(context.documents, kind, key, {});
  if (!document) return tl::make_unexpected(document.error());
  const std::string hash = document->value(member, std::string());
  if (hash.empty() || document->contains("erased"))
    return fail(ErrorCode::wrong_state,
                fmt::format("of {} {} no name or address is kept beside the record", kind, key), {},
                "there is nothing to erase");
  return Drafts{draft(context, "private-erased", {{"of", kind}, {"key", key}, {"hash", hash}, {"why", why}})};
}

}  // namespace

Result<Drafts> erase_site(const DeskContext& context, const std::string& job, const std::string& why) {
  return erase_beside(context, "job", job, "site", why);
}

Result<Drafts> erase_details(const DeskContext& context, const std::string& handle, const std::string& why) {
  return erase_beside(context, "person", handle, "details", why);
}

}  // namespace fogwright
