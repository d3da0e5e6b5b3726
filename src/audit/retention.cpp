// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "audit/glance.hpp"
#include "audit/retention_rules.hpp"
#include "desk/vessels.hpp"
#include "stock/expiry.hpp"

namespace fogwright {
namespace {

using nlohmann::json;
using Time = std::optional<std::int64_t>;

/// What a book holds, line by line of the table.
class Lines {
 public:
  explicit Lines(std::int64_t now_ms) : now_ms_(now_ms) {
    for (const RetentionRule& rule : retention_rules()) lines_.push_back({&rule, 0, 0, {}, {}, {}});
  }

  /// A record of a day where that is known, to be kept until then; nullopt: no end is known.
  void add(std::string_view id, Time at_ms, Time until_ms) {
    RetentionLine& line = *std::find_if(lines_.begin(), lines_.end(),
                                        [&](const RetentionLine& one) { return one.rule->id == id; });
    ++line.count;
    if (at_ms) line.oldest_ms = std::min(line.oldest_ms.value_or(*at_ms), *at_ms);
    if (at_ms) line.newest_ms = std::max(line.newest_ms.value_or(*at_ms), *at_ms);
    if (until_ms && *until_ms <= now_ms_)
      ++line.over;
    else if (until_ms)
      line.next_over_ms = std::min(line.next_over_ms.value_or(*until_ms), *until_ms);
  }

  [[nodiscard]] std::vector<RetentionLine> take() && { return std::move(lines_); }

 private:
  std::int64_t now_ms_;
  std::vector<RetentionLine> lines_;
};

std::int64_t until_by_years(std::string_view id, std::int64_t at_ms) {
  return kept_until_ms(at_ms, retention_rule(id).years);
}

void add_jobs(const Documents& documents, Lines& lines) {
  documents.each_text("job", false, [&](std::string_view, std::string_view body) {
    const auto fogged = Glance(Glance(body).raw("fog_started")).integer("ms");
    if (!fogged) return;
    for (const std::string_view id : {"exposure", "application"})
      lines.add(id, fogged, until_by_years(id, *fogged));
  });
}

/// The last moment of a day of the calendar.
Time day_ms_of(const json& body, const char* member) {
  const Time end = end_of_day_ms(body.value(member, std::string()));
  return end ? Time(*end - 1) : end;
}

Time issued_ms(const json& paper) { return day_ms_of(paper, "issued"); }

/// The next fit test of the same facepiece, which ends the need for this one.
Time next_fit_test(const json& papers, const json& paper) {
  Time next;
  for (const json& other : papers) {
    const bool same = other.at("what") == "fit-test" &&
                      other.value("facepiece_model", "") == paper.value("facepiece_model", "") &&
                      other.value("facepiece_size", "") == paper.value("facepiece_size", "");
    const Time at = issued_ms(other);
    if (same && at && at > issued_ms(paper)) next = std::min(next.value_or(*at), *at);
  }
  return next;
}

/// Nobody's employment has an end in the book before they are retired in it.
Time end_of_medical(const json& person) {
  if (person.value("active", true) || !person.contains("retired_ms")) return std::nullopt;
  return until_by_years("medical", person["retired_ms"].get<std::int64_t>());
}

void add_crew(const Documents& documents, Lines& lines) {
  documents.each("person", false, [&](const std::string&, const json& person) {
    const json& papers = person.at("credentials");
    for (const json& paper : papers) {
      if (paper.at("what") == "fit-test") lines.add("fit-test", issued_ms(paper), next_fit_test(papers, paper));
      if (paper.at("what") == "medical-clearance")
        lines.add("medical", issued_ms(paper), end_of_medical(person));
    }
  });
}

void add_equipment(const Documents& documents, std::int64_t now_ms, Lines& lines) {
  documents.each("cartridge", false, [&](const std::string&, const json& cartridge) {
    lines.add("cartridge-schedule", {}, cartridge.value("active", true) ? Time() : Time(now_ms));
  });
  documents.each("product", false, [&](const std::string&, const json& product) {
    for (const json& version : product.at("versions")) lines.add("label", day_ms_of(version, "label_date"), {});
  });
}

Result<json> document_of(const Documents& documents, const char* kind, const std::string& key,
                         const char* hint) {
  if (auto found = documents.get(kind, key)) return std::move(*found);
  return fail(ErrorCode::not_found, fmt::format("the book knows no {} \"{}\"", kind, key), {}, hint);
}

void hold_by_years(std::string_view id, std::int64_t at_ms, std::int64_t now_ms, const std::string& what,
                   std::vector<RetentionHold>& holds) {
  const std::int64_t until = until_by_years(id, at_ms);
  if (until > now_ms) holds.push_back({&retention_rule(id), what, until});
}

}  // namespace

std::vector<RetentionLine> retention(const Documents& documents, std::int64_t now_ms) {
  Lines lines(now_ms);
  add_jobs(documents, lines);
  add_crew(documents, lines);
  add_equipment(documents, now_ms, lines);
  return std::move(lines).take();
}

Result<std::vector<RetentionHold>> retention_of_job(const Documents& documents, const std::string& id,
                                                    std::int64_t now_ms) {
  const auto job = document_of(documents, "job", id, "fogwright job list shows the jobs");
  if (!job) return tl::make_unexpected(job.error());
  std::vector<RetentionHold> holds;
  if (!job->contains("fog_started")) {
    if (job->at("state") != "stopped")
      holds.push_back({&retention_rule("application"), fmt::format("{} is still to be done", id), {}});
    return holds;
  }
  const auto fogged = job->at("fog_started").at("ms").get<std::int64_t>();
  hold_by_years("application", fogged, now_ms,
                fmt::format("the application record of {} names the customer and the address", id), holds);
  hold_by_years("exposure", fogged, now_ms,
                fmt::format("{} shows which product people met, where and when", id), holds);
  return holds;
}

Result<std::vector<RetentionHold>> retention_of_person(const Documents& documents, const std::string& handle,
                                                       std::int64_t now_ms) {
  const auto person = document_of(documents, "person", handle, "fogwright crew list shows the crew");
  if (!person) return tl::make_unexpected(person.error());
  std::vector<RetentionHold> holds;
  const json& papers = person->at("credentials");
  for (const json& paper : papers) {
    const std::string issued = paper.value("issued", std::string());
    if (paper.at("what") == "fit-test" && !next_fit_test(papers, paper))
      holds.push_back({&retention_rule("fit-test"),
                       fmt::format("the fit test of {} is the last of its facepiece", issued),
                       {}});
    if (paper.at("what") != "medical-clearance") continue;
    const Time end = end_of_medical(*person);
    if (!end || *end > now_ms)
      holds.push_back({&retention_rule("medical"), fmt::format("the medical clearance of {}", issued), end});
  }
  return holds;
}

}  // namespace fogwright
