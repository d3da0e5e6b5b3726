// SPDX-License-Identifier: Apache-2.0
#include "asking/paging.hpp"

#include <algorithm>

#include "fogwright/book/document_range.hpp"
#include "fogwright/book/encoding.hpp"

namespace fogwright {

using nlohmann::json;

namespace {

using Visit = std::function<bool(const std::string& key, const json& body)>;

/// Those of a store are read from the cursor on; others, all in memory, are gone through.
void each_after(const Documents& documents, std::string_view kind, bool live_only, const std::string& after,
                const Visit& visit) {
  if (const auto* range = dynamic_cast<const DocumentRange*>(&documents))
    return range->each_after(kind, live_only, after, visit);
  bool going = true;
  documents.each(kind, live_only, [&](const std::string& key, const json& body) {
    if (going && key > after) going = visit(key, body);
  });
}

}  // namespace

Result<std::int64_t> page_limit(const View& view) {
  const auto typed = view.query.find("limit");
  if (typed == view.query.end()) return page_size;
  const auto number = read_decimal(typed->second);
  if (number && *number >= 1 && *number <= static_cast<std::uint64_t>(largest_page))
    return static_cast<std::int64_t>(*number);
  return fail(ErrorCode::out_of_range, "a page has 1 to 500 items", "limit", "follow `next` for more");
}

Result<json> page_of(const View& view, std::string_view kind, bool live_only, const MakeRow& make_row) {
  const auto limit = page_limit(view);
  if (!limit) return tl::make_unexpected(limit.error());
  const auto after = view.query.find("after");
  json items = json::array();
  std::string last;
  bool more = false;
  each_after(view.now, kind, live_only, after == view.query.end() ? std::string() : after->second,
             [&](const std::string& key, const json& body) {
               json row = make_row(key, body);
               if (row.is_null()) return true;
               more = items.size() == static_cast<std::size_t>(*limit);
               if (more) return false;
               items.push_back(std::move(row));
               last = key;
               return true;
             });
  json page = {{"items", std::move(items)}};
  if (more) page["next"] = last;
  return page;
}

Result<json> page_of_rows(const View& view, const std::vector<json>& rows, const char* named_by) {
  const auto limit = page_limit(view);
  if (!limit) return tl::make_unexpected(limit.error());
  auto row = rows.begin();
  if (const auto after = view.query.find("after"); after != view.query.end()) {
    row = std::find_if(rows.begin(), rows.end(),
                       [&](const json& one) { return one.at(named_by) == after->second; });
    if (row == rows.end())
      return fail(ErrorCode::not_found, "the list no longer has the row that this page follows", "after",
                  "read the list from its start again");
    ++row;
  }
  json items = json::array();
  for (; row != rows.end() && items.size() < static_cast<std::size_t>(*limit); ++row) items.push_back(*row);
  const bool more = row != rows.end();
  json page = {{"items", std::move(items)}};
  if (more) page["next"] = std::prev(row)->at(named_by);
  return page;
}

}  // namespace fogwright
