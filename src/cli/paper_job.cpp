// SPDX-License-Identifier: Apache-2.0
#include "cli/paper_job.hpp"

#include <fmt/format.h>

#include "desk/job_document.hpp"
#include "office/zone_time.hpp"

namespace fogwright {
namespace {

using paper::Form;
using paper::Language;
using press::Source;

using Fill = Result<paper::Paper> (*)(const Source& source, const std::string& job, const Form& form);

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

/// "J1-leave-behind", "J1-leave-behind-es".
std::string name_of(const std::string& job, std::string_view paper, Language language) {
  return fmt::format("{}-{}{}", job, paper, language == Language::es ? "-es" : "");
}

/// The form in a language, in the firm's name and at the job's time; and whom to call, for the source.
struct Dressed {
  Source source;
  Form form;
};
Result<Dressed> dress(const Call& call, const PaperOrder& order, const Source& source, const std::string& id,
                      Language language) {
  const auto job = find_job(source.now, id);
  if (!job) return tl::make_unexpected(job.error());
  const auto firm = firm_for(order, source.now);
  if (!firm) return tl::make_unexpected(firm.error());
  Dressed dressed{source, order.form};
  dressed.source.language = language;
  dressed.source.contacts = press::contacts_of(*firm, language);
  dressed.form.language = language;
  dressed.form.firm = firm->name;
  dressed.form.made = made_at(call, job->at("zone").get<std::string>());
  return dressed;
}

struct JobCall {
  PaperOrder order;
  std::string job;
};
Result<JobCall> read_job_call(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the job");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  auto order = read_paper_order(call);
  if (!order) return tl::make_unexpected(order.error());
  return JobCall{std::move(*order), options.operand()};
}

Outcome print_one(const Call& call, std::string_view name, Fill fill) {
  const auto asked = read_job_call(call);
  if (!asked) return refuse(asked.error());
  const PaperOrder& order = asked->order;
  const std::string& job = asked->job;
  std::vector<NamedPaper> papers;
  const auto made = with_source(call, order.form.language, [&](const Source& source) -> Outcome {
    const auto dressed = dress(call, order, source, job, order.form.language);
    if (!dressed) return refuse(dressed.error());
    auto filled = fill(dressed->source, job, dressed->form);
    if (!filled) return refuse(filled.error());
    papers.push_back({name_of(job, name, order.form.language), std::move(*filled)});
    return {};
  });
  if (!made) return made;
  return write_papers(call, order, papers);
}

/// A part of the full set of a job.
struct Part {
  std::string_view name;
  Fill fill;
  bool for_customer;
};
constexpr Part set_of_a_job[] = {{"record", fill_record, false},
                                 {"leave-behind", fill_leave_behind, true},
                                 {"door", fill_door, true},
                                 {"mixing", fill_mixing, false}};

/// A paper that the job does not have yet, or never has, is no fault of the set.
bool may_be_left_out(ErrorCode code) {
  return code == ErrorCode::wrong_state || code == ErrorCode::label_incomplete;
}

struct Set {
  std::vector<NamedPaper> papers;
  std::vector<std::string> left_out;
};
Outcome add_part(const Call& call, const JobCall& asked, const Source& source, const Part& part,
                 Language language, Set& set) {
  const auto dressed = dress(call, asked.order, source, asked.job, language);
  if (!dressed) return refuse(dressed.error());
  auto filled = part.fill(dressed->source, asked.job, dressed->form);
  if (filled) {
    set.papers.push_back({name_of(asked.job, part.name, language), std::move(*filled)});
    return {};
  }
  if (!may_be_left_out(filled.error().code)) return refuse(filled.error());
  const std::string words = fmt::format("{}: {}", part.name, filled.error().message);
  if (set.left_out.empty() || set.left_out.back() != words) set.left_out.push_back(words);
  return {};
}

/// What a customer reads comes in both languages unless one was asked for.
std::vector<Language> languages_of(const PaperOrder& order, const Part& part) {
  if (order.language_given || !part.for_customer) return {order.form.language};
  return {Language::en, Language::es};
}

}  // namespace

Outcome run_paper_record(const Call& call) { return print_one(call, "record", fill_record); }
Outcome run_paper_leave_behind(const Call& call) { return print_one(call, "leave-behind", fill_leave_behind); }
Outcome run_paper_door(const Call& call) { return print_one(call, "door", fill_door); }

Result<std::string> job_record_pdf(const Source& source, const std::string& id, std::int64_t made_ms) {
  const auto job = find_job(source.now, id);
  if (!job) return tl::make_unexpected(job.error());
  Form form;
  form.firm = firm_of(source.now).value_or(Firm{source.store.origin(), {}}).name;
  form.made = iso_time(job->at("zone").get<std::string>(), made_ms);
  const auto record = fill_record(source, id, form);
  if (!record) return tl::make_unexpected(record.error());
  return paper::pdf_of(*record);
}

Outcome run_paper_all(const Call& call) {
  auto asked = read_job_call(call);
  if (!asked) return refuse(asked.error());
  // A set is several papers: what is named is a folder, whether it is there or not.
  if (!asked->order.out.empty() && !asked->order.out.ends_with('/')) asked->order.out += '/';
  Set set;
  const auto made = with_source(call, asked->order.form.language, [&](const Source& source) -> Outcome {
    for (const Part& part : set_of_a_job)
      for (const Language language : languages_of(asked->order, part))
        if (auto ok = add_part(call, *asked, source, part, language, set); !ok) return ok;
    return {};
  });
  if (!made) return made;
  return write_papers(call, asked->order, set.papers, set.left_out);
}

}  // namespace fogwright
