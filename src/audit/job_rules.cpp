// SPDX-License-Identifier: Apache-2.0
// Jobs that nobody went on with.
#include <fmt/format.h>

#include "audit/book_rules.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::int64_t day = 24 * 3'600'000LL;

bool is(const json& job, std::string_view state) { return job.at("state") == state; }

Departure departure_of(const json& job) {
  Departure departure;
  departure.job = job.at("job");
  departure.person = job.at("technician");
  departure.product = job.at("product");
  departure.place = job.value("van", std::string());
  departure.at_ms = job.at("last_ms");
  if (job.contains("last_seq")) departure.entries = {job["last_seq"].get<std::int64_t>()};
  return departure;
}

/// Open jobs in one of some states to which nothing happened for longer than so many days.
template <class Which>
void each_idle(const BookView& view, std::int64_t days, std::string_view words, const Found& found,
               Which which) {
  view.documents.each("job", true, [&](const std::string&, const json& job) {
    const std::int64_t idle_ms = view.input.now_ms - job.value("last_ms", view.input.now_ms);
    if (idle_ms <= days * day || !which(job)) return;
    Departure departure = departure_of(job);
    departure.what = fmt::format("{} {} {} days ago", departure.job, words, idle_ms / day);
    found(std::move(departure));
  });
}

}  // namespace

void judge_open_release(const BookView& view, const Found& found) {
  each_idle(view, 1, "was fogged and never released; its last entry was", found, [](const json& job) {
    return is(job, "fogging") || is(job, "holding") || (is(job, "stopped") && job.contains("fog_ended"));
  });
}

void judge_open_job(const BookView& view, const Found& found) {
  each_idle(view, 2, "was released and never closed; its last entry was", found,
            [](const json& job) { return is(job, "released"); });
}

void judge_open_plan(const BookView& view, const Found& found) {
  each_idle(view, 30, "was planned and never begun; its last entry was", found, [&](const json& job) {
    const bool still_to_come = job.value("scheduled_ms", std::int64_t{0}) > view.input.now_ms;
    return (is(job, "planned") || is(job, "cleared")) && !still_to_come;
  });
}

}  // namespace fogwright
