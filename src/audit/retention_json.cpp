// SPDX-License-Identifier: Apache-2.0
#include <nlohmann/json.hpp>

#include "fogwright/audit/audit.hpp"
#include "fogwright/audit/retention.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

json time_json(const std::optional<std::int64_t>& ms) { return ms ? json(*ms) : json(nullptr); }

json rule_json(const RetentionRule& rule) {
  return {{"id", rule.id},
          {"what", rule.what},
          {"keep", rule.keep},
          {"kind", rule_kind_name(rule.kind)},
          {"citation", rule.citation},
          {"remark", rule.remark}};
}

}  // namespace

nlohmann::json retention_json(const std::vector<RetentionLine>& lines) {
  json list = json::array();
  for (const RetentionLine& line : lines) {
    json one = rule_json(*line.rule);
    one["count"] = line.count;
    one["over"] = line.over;
    one["oldest_ms"] = time_json(line.oldest_ms);
    one["newest_ms"] = time_json(line.newest_ms);
    one["next_over_ms"] = time_json(line.next_over_ms);
    list.push_back(std::move(one));
  }
  return list;
}

nlohmann::json retention_json(const std::vector<RetentionHold>& holds) {
  json list = json::array();
  for (const RetentionHold& hold : holds)
    list.push_back(
        {{"what", hold.what}, {"until_ms", time_json(hold.until_ms)}, {"rule", rule_json(*hold.rule)}});
  return list;
}

}  // namespace fogwright
