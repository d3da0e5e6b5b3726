// SPDX-License-Identifier: Apache-2.0
#include "desk/job_gate.hpp"

#include <fmt/format.h>
#include <set>

#include "desk/job_hold.hpp"
#include "desk/job_items.hpp"
#include "desk/vessels.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// When the respirator came off last before fogging: at the end of mixing.
std::int64_t doffed_ms(const GateView& view) {
  const json* mix = met_of(view.job, "mix-time");
  if (!mix) return 0;
  const auto batch = view.documents.get("batch", mix->at("evidence").value("from", std::string()));
  return batch ? batch->at("mixed_ms").get<std::int64_t>() : 0;
}

/// Whether what was met is so no longer. Everything but what holds for the job ends with the day: a house that
/// was empty yesterday is not empty now.
Fault lapse_fault(const GateView& view, const Rule& rule, std::int64_t at_ms) {
  if (at_ms > view.now_ms) return "it was met at a time that is still to come: check the clock";
  const bool before_start = rule.stage == Stage::before_mixing || rule.stage == Stage::before_fogging;
  if (!before_start || rule.lapse == Lapse::never_for_this_job) return std::nullopt;
  if (at_ms < view.today.began_ms) return "it was met on an earlier day";
  if (rule.lapse == Lapse::at_each_donning && rule.stage == Stage::before_fogging && at_ms <= doffed_ms(view))
    return "the respirator came off after mixing";
  if (rule.lapse == Lapse::after_minutes && view.now_ms - at_ms > rule.lapse_minutes * 60'000)
    return fmt::format("it was met more than {} min ago", rule.lapse_minutes);
  return std::nullopt;
}

/// What is told of a house before the part of the hold that nothing shortens was over cannot be so, or the hold
/// began anew since. What was recorded afterwards tells no times.
Fault early_fault(const GateView& view, const Rule& rule, const json& met) {
  if (rule.stage != Stage::before_release || met.value("afterwards", false)) return std::nullopt;
  const auto fog_ended = view.job.find("fog_ended");
  if (fog_ended == view.job.end()) return std::nullopt;
  const std::int64_t since = met.at("at_ms").get<std::int64_t>() - fog_ended->at("ms").get<std::int64_t>();
  if (since >= hold_floor_ms(view.job)) return std::nullopt;
  return "it was met before the part of the hold that nothing shortens was over";
}

Fault open_fault(const GateView& view, const Need& need) {
  if (!need.rule) return "this program does not know the item: use a newer one";
  const json* met = met_of(view.job, need.id);
  if (!met) return "not met yet";
  if (!is_active(view.documents, met->at("by").get<std::string>()))
    return fmt::format("{}, who met it, is not in the active crew", met->at("by").get<std::string>());
  if (auto lapsed = lapse_fault(view, *need.rule, met->at("at_ms").get<std::int64_t>())) return lapsed;
  if (auto early = early_fault(view, *need.rule, *met)) return early;
  return evidence_fault(view, need, met->at("evidence"));
}

void add_open(const GateView& view, Stage stage, std::vector<Missing>& missing) {
  for (const Need& need : needs_of(view.job)) {
    const bool here = need.rule ? need.rule->stage == stage : stage == Stage::before_mixing;
    if (!here || decided_by_facts(need.id)) continue;
    if (stage == Stage::during_fogging && view.job.at("not_done").contains(need.id)) continue;
    if (auto fault = open_fault(view, need)) missing.push_back({need.id, std::move(*fault)});
  }
}

/// The label that the plan was made with must still be the product's.
Fault label_fault(const Documents& documents, const json& job) {
  const auto product = documents.get("product", job.at("product").get<std::string>());
  if (product && product->at("current") == job.at("label_digest")) return std::nullopt;
  return "the product has another label since the plan was made: plan again";
}

std::optional<Label> label_of(const Documents& documents, const std::string& product) {
  const auto known = documents.get("product", product);
  if (!known) return std::nullopt;
  const auto text = documents.get("label", known->at("current").get<std::string>());
  if (!text) return std::nullopt;
  auto label = read_label(text->at("text").get<std::string>(), product);
  return label ? std::optional(std::move(*label)) : std::nullopt;
}

}  // namespace

std::vector<Missing> missing_in(const Documents& documents, const json& job, Stage stage, std::int64_t now_ms,
                                const LocalDay& today) {
  std::vector<Missing> missing;
  add_open({documents, job, now_ms, today}, stage, missing);
  return missing;
}

std::vector<Missing> missing_for_start(const Documents& documents, const json& job, std::int64_t now_ms,
                                       const LocalDay& today) {
  std::vector<Missing> missing;
  const GateView view{documents, job, now_ms, today};
  if (auto fault = label_fault(documents, job)) missing.push_back({"label-read", std::move(*fault)});
  add_open(view, Stage::before_mixing, missing);
  add_open(view, Stage::before_fogging, missing);
  if (!is_active(documents, view.technician()))
    missing.push_back({"label-read", fmt::format("{} is not in the active crew", view.technician())});
  return missing;
}

std::string missing_words(const std::vector<Missing>& missing) {
  std::string words =
      missing.size() == 1 ? "1 item is open: " : fmt::format("{} items are open: ", missing.size());
  for (std::size_t i = 0; i < missing.size(); ++i)
    words += fmt::format("{}{} ({})", i == 0 ? "" : "; ", missing[i].requirement, missing[i].why);
  return words;
}

Error gate_error(const json& job, const std::vector<Missing>& missing) {
  const std::string id = job.at("job");
  return {
      ErrorCode::gate_closed,
      missing_words(missing),
      {},
      fmt::format("meet them with fogwright job check {} ITEM, or go through them with job run {}", id, id)};
}

json missing_json(const std::vector<Missing>& missing) {
  json list = json::array();
  for (const Missing& one : missing) list.push_back({{"requirement", one.requirement}, {"why", one.why}});
  return list;
}

Result<void> products_may_meet(const Documents& documents, const json& job) {
  const std::string own = job.at("product");
  const auto draws = documents.get("job-draws", job.at("job").get<std::string>());
  if (!draws) return {};
  std::set<std::string> products;
  for (const json& draw : draws->at("draws")) products.insert(draw.at("product").get<std::string>());
  const auto label = label_of(documents, own);
  for (const std::string& product : products) {
    const auto other = product == own ? std::nullopt : label_of(documents, product);
    if (!label || !other) continue;
    if (auto ok = may_meet(*label, *other); !ok) return ok;
  }
  return {};
}

}  // namespace fogwright
