// SPDX-License-Identifier: Apache-2.0
#include "fogwright/desk/replan.hpp"

#include <fmt/format.h>
#include <algorithm>

#include "desk/job_document.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

Result<json> request_of(const Documents& documents, const std::string& job) {
  auto recorded = documents.get("job-request", job);
  if (recorded && recorded->contains("members")) return std::move(*recorded);
  return fail(ErrorCode::not_found, fmt::format("the book does not hold what job {} was planned from", job), {},
              "what it recorded of the plan stands; plan a new job to see the air");
}

/// The label as it was when the job was planned, whichever is adopted now.
tl::expected<std::shared_ptr<const Label>, Faults> label_of(const Documents& documents, const json& job) {
  const std::string digest = job.at("label_digest");
  const auto text = documents.get("label", digest);
  if (!text)
    return tl::make_unexpected(
        Faults{{ErrorCode::not_found,
                fmt::format("the book does not hold the text of the label that job {} was planned with ({})",
                            job.at("job").get<std::string>(), digest),
                {},
                "what it recorded of the plan stands"}});
  auto label = read_label(text->at("text").get<std::string>(), job.at("product").get<std::string>());
  if (!label) return tl::make_unexpected(std::move(label.error()));
  return std::make_shared<const Label>(std::move(*label));
}

void compare(Replanned& made, std::string_view what, std::int64_t recorded, std::int64_t planned,
             std::string_view unit, std::string_view stands) {
  if (recorded != planned)
    made.differences.push_back(fmt::format("{}: {} {} recorded, {} {} planned again; {}", what, recorded, unit,
                                           planned, unit, stands));
}

std::int64_t recorded_seconds(const json& plan, std::string_view system, std::string_view name) {
  for (const json& one : plan.at("systems"))
    if (one.at("name") == system)
      for (const json& part : one.at("returns"))
        if (part.at("name") == name) return part.at("seconds");
  return 0;
}

void compare_with(const json& recorded, Replanned& made) {
  made.recorded_hold_minutes = recorded.at("hold_minutes").at("total");
  made.hold_minutes = std::max<std::int64_t>(made.recorded_hold_minutes, made.plan.hold.total_minutes);
  compare(made, "hold", made.recorded_hold_minutes, made.plan.hold.total_minutes, "min",
          "the longer hold stands");
  for (const SystemDose& system : made.plan.systems)
    for (const ReturnDose& one : system.returns)
      compare(made, system.name + ", " + one.name, recorded_seconds(recorded, system.name, one.name),
              one.seconds, "s", "what was recorded stands");
}

}  // namespace

tl::expected<Replanned, Faults> replan(const Documents& documents, const std::string& job) {
  const auto known = find_job(documents, job);
  if (!known) return tl::make_unexpected(Faults{known.error()});
  const auto recorded = request_of(documents, job);
  if (!recorded) return tl::make_unexpected(Faults{recorded.error()});
  auto request = read_recorded_request(*recorded);
  if (!request) return tl::make_unexpected(std::move(request.error()));
  auto label = label_of(documents, *known);
  if (!label) return tl::make_unexpected(std::move(label.error()));
  request->label = std::move(*label);
  auto plan = make_plan(*request);
  if (!plan) return tl::make_unexpected(Faults{std::move(plan.error())});
  Replanned made{std::move(*request), std::move(*plan), 0, 0, {}};
  compare_with(known->at("plan"), made);
  return made;
}

}  // namespace fogwright
