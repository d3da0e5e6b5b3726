// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <cmath>
#include <map>

#include "desk/checks.hpp"
#include "trace/facts.hpp"

namespace fogwright {
namespace {

using namespace trace;
using nlohmann::json;

struct Use {
  std::string name, registration;
  std::size_t jobs = 0, unknown = 0;  ///< of them with a volume that nobody knows
  std::int64_t ul = 0;
  std::map<std::string, double> active_mg;  ///< by name and CAS number
};
/// By month, product and label: a product's registration number can change with its label.
using Months = std::map<std::tuple<std::string, std::string, std::string>, Use>;

/// "2026-03" or "2026-03-04".
Result<void> check_bound(const std::string& typed, const char* where) {
  if (typed.empty()) return {};
  const auto date = read_date(typed.size() == 7 ? typed + "-01" : typed, "the bound", where);
  if (date) return {};
  return fail(ErrorCode::not_understood, fmt::format("\"{}\" is neither a month nor a day", typed), where,
              "write 2026-03 or 2026-03-04");
}

bool lies_between(const std::string& day, const std::string& from, const std::string& to) {
  return day.substr(0, from.size()) >= from && (to.empty() || day.substr(0, to.size()) <= to);
}

/// The label tells strength and density of the product as applied, and that is what was fogged.
void add_actives(const Label& label, std::int64_t ul, Use& use) {
  const double product_mg = static_cast<double>(ul) * label.density.value_in(unit::gram_per_millilitre);
  for (const Active& active : label.actives)
    if (active.mass_fraction)
      use.active_mg[fmt::format("{} ({})", active.name, active.cas)] += product_mg * *active.mass_fraction;
}

void add_job(const Asked& asked, Labels& labels, const json& job, const std::string& day, Months& months) {
  const std::string product = job.at("product");
  const Label* label = labels.find(job.at("label_digest").get<std::string>());
  Use& use = months[{day.substr(0, 7), product, label ? label->registration : std::string()}];
  use.name = label ? label->name : product;
  use.registration = label ? label->registration : std::string();
  ++use.jobs;
  const auto ul = used_ul(asked.documents, job);
  if (!ul) ++use.unknown;
  use.ul += ul.value_or(0);
  if (ul && label) add_actives(*label, *ul, use);
}

std::string mass_text(const Asked& asked, double mg) { return show(Mass(mg, unit::milligram), asked.units); }

/// What a sum of volumes leaves out.
std::string left_out(std::size_t unknown) {
  return unknown == 0 ? ""
                      : fmt::format("; without {} whose volume is not known", counted(unknown, "job", "jobs"));
}

/// How much of it in how many jobs, and what was in it.
std::string amount_words(const Asked& asked, const Use& use, const std::vector<std::string>& actives) {
  const std::string jobs = counted(use.jobs, "job", "jobs");
  if (use.unknown == use.jobs) return fmt::format("{}, volume not known", jobs);
  return fmt::format(
      "{} in {}, {}{}", volume_text(asked, use.ul), jobs,
      actives.empty() ? "strength not told by the label" : fmt::format("{}", fmt::join(actives, ", ")),
      left_out(use.unknown));
}

AnswerRow row_of(const Asked& asked, const std::string& month, const std::string& product, const Use& use) {
  std::vector<std::string> words, data;
  std::int64_t total = 0;
  for (const auto& [active, mg] : use.active_mg) {
    words.push_back(fmt::format("{} of {}", mass_text(asked, mg), active));
    data.push_back(fmt::format("{}: {} mg", active, std::llround(mg)));
    total += std::llround(mg);
  }
  AnswerRow row;
  row.label = month;
  row.words =
      fmt::format("{}{}: {}", use.name, use.registration.empty() ? "" : fmt::format(" ({})", use.registration),
                  amount_words(asked, use, words));
  row.data = {{"month", month},
              {"product", product},
              {"name", use.name},
              {"registration", use.registration},
              {"volume_ul", use.ul},
              {"jobs", use.jobs},
              {"jobs_without_volume", use.unknown},
              {"actives", data},
              {"actives_mg", use.active_mg.empty() ? json(nullptr) : json(total)}};
  return row;
}

std::string sentence_of(const Asked& asked, const Months& months) {
  std::set<std::string> names, spans;
  std::size_t jobs = 0, unknown = 0;
  std::int64_t ul = 0;
  for (const auto& [key, use] : months) {
    spans.insert(std::get<0>(key));
    names.insert(use.name);
    jobs += use.jobs;
    unknown += use.unknown;
    ul += use.ul;
  }
  if (months.empty()) return "Nothing was fogged in that time.";
  const std::string when = spans.size() == 1 ? fmt::format(", in {}", *spans.begin()) : span_words(spans);
  if (unknown == jobs)
    return fmt::format("{} in {}{}; volume not known.", joined(names), counted(jobs, "job", "jobs"), when);
  return fmt::format("{} of {} in {}{}{}.", volume_text(asked, ul), joined(names), counted(jobs, "job", "jobs"),
                     when, left_out(unknown));
}

}  // namespace

Result<Answer> ask_use(const Asked& asked, const std::string& from, const std::string& to) {
  if (auto ok = first_error({check_bound(from, "--from"), check_bound(to, "--to")}); !ok)
    return tl::make_unexpected(ok.error());
  Labels labels(asked.documents);
  Months months;
  for (const json& job : jobs_by_day(asked, was_fogged))
    if (const std::string day = day_of_job(asked, job); lies_between(day, from, to))
      add_job(asked, labels, job, day, months);
  Answer answer;
  for (const auto& [key, use] : months)
    answer.rows.push_back(row_of(asked, std::get<0>(key), std::get<1>(key), use));
  answer.sentence = sentence_of(asked, months);
  return answer;
}

}  // namespace fogwright
