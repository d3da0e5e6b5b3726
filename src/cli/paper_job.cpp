// SPDX-License-Identifier: Apache-2.0
#include "cli/paper_job.hpp"

#include <fmt/format.h>

#include "asking/zone_time.hpp"
#include "desk/job_document.hpp"
#include "office/job_papers.hpp"

namespace fogwright {
namespace {

using paper::Language;
using press::Source;

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

Result<DressedPaper> dress(const PaperOrder& order, const Source& source, const std::string& job,
                           Language language) {
  const auto firm = firm_for(order, source.now);
  if (!firm) return tl::make_unexpected(firm.error());
  return dress_job_paper(source, order.form, *firm, job, language);
}

Outcome print_one(const Call& call, std::string_view name) {
  const auto asked = read_job_call(call);
  if (!asked) return refuse(asked.error());
  const PaperOrder& order = asked->order;
  const std::string& job = asked->job;
  std::vector<NamedPaper> papers;
  const auto made = with_source(call, order.form.language, [&](const Source& source) -> Outcome {
    const auto dressed = dress(order, source, job, order.form.language);
    if (!dressed) return refuse(dressed.error());
    auto filled = find_job_paper(name)->fill(dressed->source, job, dressed->form);
    if (!filled) return refuse(filled.error());
    papers.push_back({job_paper_name(job, name, order.form.language), std::move(*filled)});
    return {};
  });
  if (!made) return made;
  return write_papers(call, order, papers);
}

/// A paper that the job does not have yet, or never has, is no fault of the set.
bool may_be_left_out(ErrorCode code) {
  return code == ErrorCode::wrong_state || code == ErrorCode::label_incomplete;
}

struct Set {
  std::vector<NamedPaper> papers;
  std::vector<std::string> left_out;
};
Outcome add_part(const JobCall& asked, const Source& source, const JobPaper& part, Language language,
                 Set& set) {
  const auto dressed = dress(asked.order, source, asked.job, language);
  if (!dressed) return refuse(dressed.error());
  auto filled = part.fill(dressed->source, asked.job, dressed->form);
  if (filled) {
    set.papers.push_back({job_paper_name(asked.job, part.name, language), std::move(*filled)});
    return {};
  }
  if (!may_be_left_out(filled.error().code)) return refuse(filled.error());
  const std::string words = fmt::format("{}: {}", part.name, filled.error().message);
  if (set.left_out.empty() || set.left_out.back() != words) set.left_out.push_back(words);
  return {};
}

/// What a customer reads comes in both languages unless one was asked for.
std::vector<Language> languages_of(const PaperOrder& order, const JobPaper& part) {
  if (order.language_given || !part.for_customer) return {order.form.language};
  return {Language::en, Language::es};
}

}  // namespace

Outcome run_paper_record(const Call& call) { return print_one(call, "record"); }
Outcome run_paper_leave_behind(const Call& call) { return print_one(call, "leave-behind"); }
Outcome run_paper_door(const Call& call) { return print_one(call, "door"); }

Result<std::string> job_record_pdf(const Source& source, const std::string& id, std::int64_t made_ms) {
  const auto job = find_job(source.now, id);
  if (!job) return tl::make_unexpected(job.error());
  paper::Form form;
  form.firm = firm_of(source.now).value_or(Firm{source.store.origin(), {}}).name;
  form.made = iso_time(job->at("zone").get<std::string>(), made_ms);
  const auto record = find_job_paper("record")->fill(source, id, form);
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
    for (const JobPaper& part : job_papers())
      for (const Language language : languages_of(asked->order, part))
        if (auto ok = add_part(*asked, source, part, language, set); !ok) return ok;
    return {};
  });
  if (!made) return made;
  return write_papers(call, asked->order, set.papers, set.left_out);
}

}  // namespace fogwright
