// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "desk/checks.hpp"
#include "fogwright/desk/job.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// An entry has a limit; what was typed and the plan must leave room for the envelope.
constexpr std::size_t largest_body = 56 * 1024;

std::string next_job(const Documents& documents) {
  const auto count = documents.get("numbering", "job");
  std::int64_t number = count ? count->at("last").get<std::int64_t>() : 0;
  std::string id;
  do id = fmt::format("J{}", ++number);
  while (documents.get("job", id));
  return id;
}

Result<void> check_known(const Documents& documents, const char* kind, const std::string& name,
                         std::string_view where) {
  if (name.empty()) return {};
  if (const auto known = find_active(documents, kind, name, where); !known)
    return tl::make_unexpected(known.error());
  return {};
}

Result<void> check_label(const Documents& documents, const NewJob& job) {
  const auto product = find(documents, "product", job.product, "--product");
  if (!product) return tl::make_unexpected(product.error());
  if (product->at("current") == job.label_digest) return {};
  return fail(ErrorCode::label_forbids,
              fmt::format("the plan was not made with the label of {} that holds now", job.product),
              "--product", "plan with the adopted label");
}

Result<void> check_names(const DeskContext& context, const NewJob& job) {
  if (!job.id.empty())
    if (auto ok = first_error(
            {check_name(job.id, "job", "--job"), check_free(context.documents, "job", job.id, "--job")});
        !ok)
      return ok;
  if (job.technician.empty())
    return fail(ErrorCode::missing_value, "it is not said who does the job", "--technician",
                "write --technician HANDLE");
  return first_error({check_known(context.documents, "person", job.technician, "--technician"),
                      check_known(context.documents, "fogger", job.fogger, "--fogger"),
                      check_known(context.documents, "place", job.van, "--van"),
                      check_label(context.documents, job)});
}

json planned_body(const DeskContext& context, const NewJob& job, const Plan& plan) {
  json body = {{"job", job.id.empty() ? next_job(context.documents) : job.id},
               {"zone", job.zone},
               {"site", job.site},
               {"product", job.product},
               {"label_digest", job.label_digest},
               {"technician", job.technician},
               {"request", job.request},
               {"plan", plan_snapshot(plan)}};
  if (!job.fogger.empty()) body["fogger"] = job.fogger;
  if (!job.van.empty()) body["van"] = job.van;
  if (job.scheduled_ms) body["scheduled_ms"] = *job.scheduled_ms;
  return body;
}

}  // namespace

Result<Drafts> plan_job(const DeskContext& context, const NewJob& job, const Plan& plan) {
  if (auto ok = first_error({may_make(context, "job-planned"), check_names(context, job)}); !ok)
    return tl::make_unexpected(ok.error());
  json body = planned_body(context, job, plan);
  if (body.dump().size() > largest_body)
    return fail(ErrorCode::out_of_range, "the plan is too long for one entry", {},
                "split the site into several jobs");
  return Drafts{draft(context, "job-planned", std::move(body))};
}

}  // namespace fogwright
