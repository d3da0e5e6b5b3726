// SPDX-License-Identifier: Apache-2.0
#include "trace/facts.hpp"

#include <fmt/format.h>
#include <algorithm>

#include "desk/job_document.hpp"
#include "desk/vessels.hpp"

namespace fogwright::trace {

using nlohmann::json;

const Label* Labels::find(const std::string& digest) {
  const auto known = read_.find(digest);
  if (known != read_.end()) return known->second.get();
  auto& kept = read_[digest];
  if (const auto text = documents_.get("label", digest))
    if (auto label = read_label(text->at("text").get<std::string>(), digest))
      kept = std::make_shared<const Label>(std::move(*label));
  return kept.get();
}

std::string Site::words() const {
  if (kept == Kept::none) return "no address kept";
  if (kept == Kept::erased) return "address erased";
  if (customer.empty() || address.empty()) return customer + address;
  return fmt::format("{} ({})", address, customer);
}

Site site_of(const Asked& asked, const json& job) {
  const std::string hash = job.at("site");
  if (hash.empty()) return {};
  const auto text = asked.kept(hash);
  if (!text) return {Site::Kept::erased, {}, {}};
  const json kept = json::parse(*text, nullptr, false);
  if (!kept.is_object()) return {Site::Kept::erased, {}, {}};
  return {Site::Kept::yes, kept.value("customer", std::string()), kept.value("address", std::string())};
}

bool was_fogged(const json& job) { return job.contains("fog_started"); }

std::string day_of_job(const Asked& asked, const json& job) {
  const json& ms = was_fogged(job) ? job.at("fog_started").at("ms") : job.at("planned_ms");
  return asked.calendar(job.at("zone").get<std::string>(), ms.get<std::int64_t>()).date;
}

std::set<std::string> lots_of_vessel(const Documents& documents, const std::string& id) {
  const auto vessel = vessel_in(documents, id);
  if (!vessel) return {};
  if (!vessel->is_batch()) return {vessel->text("lot")};
  std::set<std::string> lots;
  for (const json& part : vessel->body.at("parts"))
    lots.merge(lots_of_vessel(documents, part.at("container").get<std::string>()));
  return lots;
}

std::set<std::string> vessels_of_job(const Documents& documents, const json& job) {
  std::set<std::string> vessels;
  if (const auto draws = documents.get("job-draws", job.at("job").get<std::string>()))
    for (const json& draw : draws->at("draws")) vessels.insert(draw.at("from").get<std::string>());
  for (std::string& noted : vessels_of(job)) vessels.insert(std::move(noted));
  return vessels;
}

std::set<std::string> lots_of_job(const Documents& documents, const json& job) {
  std::set<std::string> lots;
  for (const std::string& vessel : vessels_of_job(documents, job))
    lots.merge(lots_of_vessel(documents, vessel));
  return lots;
}

std::optional<std::int64_t> used_ul(const Documents& documents, const json& job) {
  if (job.contains("used_ul")) return job["used_ul"].get<std::int64_t>();
  const std::int64_t drawn = drawn_ul(documents, job);
  return drawn > 0 ? std::optional(drawn) : std::nullopt;
}

std::string volume_text(const Asked& asked, std::int64_t ul) {
  return show(LiquidVolume(static_cast<double>(ul), unit::microlitre), asked.units);
}

std::string concentration_text(std::int64_t ug_m3) {
  return show(MassConcentration(static_cast<double>(ug_m3), unit::microgram_per_cubic_metre), Rounding::up);
}

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string joined(const std::set<std::string>& words) { return fmt::format("{}", fmt::join(words, ", ")); }

std::string span_words(const std::set<std::string>& days) {
  if (days.empty()) return {};
  if (days.size() == 1) return fmt::format(", on {}", *days.begin());
  return fmt::format(", from {} to {}", *days.begin(), *days.rbegin());
}

json job_data(const Asked& asked, Labels& labels, const json& job) {
  const std::string product = job.at("product");
  const Label* label = labels.find(job.at("label_digest").get<std::string>());
  return {{"job", job.at("job")},
          {"day", day_of_job(asked, job)},
          {"state", job.at("state")},
          {"product", product},
          {"name", label ? label->name : product},
          {"registration", label ? label->registration : std::string()},
          {"lots", lots_of_job(asked.documents, job)}};
}

std::string product_words(const json& data) {
  const std::string registration = data.at("registration");
  return fmt::format("{}, {}{}", data.at("job").get<std::string>(), data.at("name").get<std::string>(),
                     registration.empty() ? "" : fmt::format(" ({})", registration));
}

std::vector<json> jobs_by_day(const Asked& asked, const std::function<bool(const json& job)>& wanted) {
  std::vector<std::pair<std::int64_t, json>> jobs;
  asked.documents.each("job", false, [&](const std::string&, const json& job) {
    if (!wanted(job)) return;
    const json& ms = was_fogged(job) ? job.at("fog_started").at("ms") : job.at("planned_ms");
    jobs.emplace_back(ms.get<std::int64_t>(), job);
  });
  std::stable_sort(jobs.begin(), jobs.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<json> sorted;
  for (auto& [ms, job] : jobs) sorted.push_back(std::move(job));
  return sorted;
}

}  // namespace fogwright::trace

namespace fogwright {

nlohmann::json answer_json(const Answer& answer) {
  const auto data = [](const std::vector<AnswerRow>& rows) {
    nlohmann::json list = nlohmann::json::array();
    for (const AnswerRow& row : rows) list.push_back(row.data);
    return list;
  };
  return {{"sentence", answer.sentence},
          {"rows", data(answer.rows)},
          {"totals", data(answer.totals)},
          {"notes", answer.notes}};
}

}  // namespace fogwright
