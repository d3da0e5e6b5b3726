// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/label_folder.hpp"
#include "cli/paper_job.hpp"
#include "desk/job_document.hpp"
#include "office/job_papers.hpp"

namespace fogwright {
namespace {

struct MixingCall {
  PaperOrder order;
  std::string job, product, label, table;
  std::optional<LiquidVolume> make;
};
Result<MixingCall> read_mixing_call(const Call& call) {
  OptionReader options(call);
  options.operands(0, 1, "the job");
  MixingCall asked;
  asked.job = options.operand();
  asked.product = options.text("product");
  asked.label = options.text("label");
  asked.table = options.text("table");
  if (options.on("make")) asked.make = options.take(read_liquid_volume(options.text("make"), "--make"));
  if (options.fault()) return tl::make_unexpected(*options.fault());
  const int named = !asked.job.empty() + !asked.product.empty() + !asked.label.empty();
  if (named != 1)
    return fail(ErrorCode::bad_usage, "a mixing sheet is of one job, one adopted product or one profile", {},
                "name a job, or write --product KEY or --label FILE");
  auto order = read_paper_order(call);
  if (!order) return tl::make_unexpected(order.error());
  asked.order = std::move(*order);
  return asked;
}

Result<Label> adopted_label(const Documents& now, const std::string& product) {
  const auto known = now.get("product", product);
  const auto text = known ? now.get("label", known->at("current").get<std::string>()) : std::nullopt;
  if (!text)
    return fail(ErrorCode::not_found, fmt::format("no label of a product \"{}\" is adopted", product),
                "--product", "fogwright product list shows them; product adopt takes a profile in");
  auto label = read_label(text->at("text").get<std::string>(), product);
  if (!label) return tl::make_unexpected(std::move(label.error().front()));
  return std::move(*label);
}

Outcome write_sheet(const Call& call, const MixingCall& asked, const Label& label) {
  const auto facts =
      mixing_facts_for(label, asked.make, asked.table, call.style.units, asked.order.form.language);
  if (!facts) return refuse(facts.error());
  const std::string subject = asked.job.empty() ? label.name : asked.job;
  return write_papers(call, asked.order,
                      {{job_paper_name(subject, "mixing", asked.order.form.language),
                        paper::mixing_sheet(*facts, asked.order.form)}});
}

/// The label of a job or of an adopted product, with the firm of the book.
Outcome sheet_from_book(const Call& call, MixingCall& asked) {
  std::optional<Label> label;
  const auto found = with_source(call, asked.order.form.language, [&](const press::Source& source) -> Outcome {
    const auto firm = firm_for(asked.order, source.now);
    if (!firm) return refuse(firm.error());
    asked.order.form.firm = firm->name;
    asked.order.form.made = made_at(call, source.zone);
    auto read =
        asked.job.empty() ? adopted_label(source.now, asked.product) : press::label_of(source, asked.job);
    if (!read) return refuse(read.error());
    label = std::move(*read);
    if (asked.job.empty() || asked.make) return {};
    const auto job = find_job(source.now, asked.job);
    if (!job) return refuse(job.error());
    asked.make = LiquidVolume(job->at("plan").at("load_ul").get<double>(), unit::microlitre);
    return {};
  });
  if (!found) return found;
  return write_sheet(call, asked, *label);
}

}  // namespace

std::vector<OptionRow> paper_mixing_options() {
  return with_paper_options(
      {{"label", "FILE|NAME", "a profile, without any book"},
       {"product", "KEY", "an adopted product"},
       {"make", "VOLUME", "how much (default: the job's load, else one batch of the label)"},
       {"table", "NAME", "which mixing table of the label, where it has several"}});
}

Outcome run_paper_mixing(const Call& call) {
  auto asked = read_mixing_call(call);
  if (!asked) return refuse(asked.error());
  if (asked->label.empty()) return sheet_from_book(call, *asked);
  const auto label = load_label(asked->label, call.outside);
  if (!label) return tl::make_unexpected(label.error());
  asked->order.form.firm = asked->order.firm;
  return write_sheet(call, *asked, **label);
}

}  // namespace fogwright
