// SPDX-License-Identifier: Apache-2.0
#include "office/job_papers.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "asking/zone_time.hpp"
#include "desk/job_document.hpp"
#include "office/paper_time.hpp"

namespace fogwright {
namespace {

using paper::Form;
using paper::Language;
using press::Source;

Result<paper::Paper> fill_record(const Source& source, const std::string& job, const Form& form) {
  const auto facts = press::job_record(source, job);
  if (!facts) return tl::make_unexpected(facts.error());
  return paper::job_record(*facts, form);
}

Result<paper::Paper> fill_leave_behind(const Source& source, const std::string& job, const Form& form) {
  const auto facts = press::leave_behind(source, job);
  if (!facts) return tl::make_unexpected(facts.error());
  return paper::leave_behind(*facts, form);
}

Result<paper::Paper> fill_door(const Source& source, const std::string& job, const Form& form) {
  const auto facts = press::door_notice(source, job);
  if (!facts) return tl::make_unexpected(facts.error());
  return paper::door_notice(*facts, form);
}

Result<paper::Paper> fill_mixing(const Source& source, const std::string& id, const Form& form) {
  const auto label = press::label_of(source, id);
  if (!label) return tl::make_unexpected(label.error());
  const auto job = find_job(source.now, id);
  if (!job) return tl::make_unexpected(job.error());
  const LiquidVolume load(job->at("plan").at("load_ul").get<double>(), unit::microlitre);
  const auto facts = mixing_facts_for(*label, load, {}, source.units, form.language);
  if (!facts) return tl::make_unexpected(facts.error());
  return paper::mixing_sheet(*facts, form);
}

constexpr JobPaper papers[] = {{"record", fill_record, false},
                               {"leave-behind", fill_leave_behind, true},
                               {"door", fill_door, true},
                               {"mixing", fill_mixing, false}};

}  // namespace

std::span<const JobPaper> job_papers() { return papers; }

const JobPaper* find_job_paper(std::string_view name) {
  const auto* const found = std::find_if(std::begin(papers), std::end(papers),
                                         [name](const JobPaper& one) { return one.name == name; });
  return found == std::end(papers) ? nullptr : found;
}

Result<DressedPaper> dress_job_paper(const Source& source, const Form& form, const Firm& firm,
                                     const std::string& id, Language language) {
  const auto job = find_job(source.now, id);
  if (!job) return tl::make_unexpected(job.error());
  DressedPaper dressed{source, form};
  dressed.source.language = language;
  dressed.source.contacts = press::contacts_of(firm, language);
  dressed.form.language = language;
  dressed.form.firm = firm.name;
  dressed.form.made = iso_time(job->at("zone").get<std::string>(), source.moment.ms);
  return dressed;
}

Result<paper::MixingSheet> mixing_facts_for(const Label& label, std::optional<LiquidVolume> make,
                                            const std::string& table, UnitSystem units, Language language) {
  const auto sheet = mixing_sheet(label, make.value_or(label_batch(label, table)), table);
  if (!sheet) return tl::make_unexpected(sheet.error());
  return press::mixing_facts(label, *sheet, units, language);
}

std::string job_paper_name(const std::string& job, std::string_view paper, Language language) {
  return fmt::format("{}-{}{}", job, paper, language == Language::es ? "-es" : "");
}

}  // namespace fogwright
