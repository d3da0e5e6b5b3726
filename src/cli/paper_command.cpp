// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/audit_call.hpp"
#include "cli/paper_commands.hpp"
#include "cli/paper_job.hpp"
#include "office/audit_filters.hpp"

namespace fogwright {
namespace {

using press::Source;

/// The name of a paper that belongs to no job, in its language: "inventory-heron-es".
std::string name_of(std::string_view paper, const std::string& of, paper::Language language) {
  return fmt::format("{}{}{}{}", paper, of.empty() ? "" : "-", of,
                     language == paper::Language::es ? "-es" : "");
}

Result<PaperOrder> dressed(const Call& call, PaperOrder order, const Source& source) {
  const auto firm = firm_for(order, source.now);
  if (!firm) return tl::make_unexpected(firm.error());
  order.form.firm = firm->name;
  order.form.made = made_at(call, source.zone);
  return order;
}

Outcome run_inventory(const Call& call) {
  OptionReader options(call);
  options.operands(0, 0, "");
  if (options.fault()) return refuse(*options.fault());
  const auto order = read_paper_order(call);
  if (!order) return refuse(order.error());
  const std::string place = options.text("place");
  std::vector<NamedPaper> papers;
  const auto made = with_source(call, order->form.language, [&](const Source& source) -> Outcome {
    if (!place.empty() && !source.now.get("place", place))
      return refuse({ErrorCode::not_found, fmt::format("there is no place \"{}\"", place), "--place",
                     "fogwright place list shows the places"});
    const auto ready = dressed(call, *order, source);
    if (!ready) return refuse(ready.error());
    papers.push_back({name_of("inventory", place, order->form.language),
                      paper::inventory_report(press::inventory(source, place), ready->form)});
    return {};
  });
  if (!made) return made;
  return write_papers(call, *order, papers);
}

Result<std::vector<paper::ContainerLabel>> labels_asked_for(const Source& source,
                                                            const std::vector<std::string>& ids,
                                                            const std::string& place) {
  if (ids.empty()) return press::container_labels(source, place);
  std::vector<paper::ContainerLabel> labels;
  for (const std::string& id : ids) {
    auto label = press::container_label(source, id);
    if (!label) return tl::make_unexpected(label.error());
    labels.push_back(std::move(*label));
  }
  return labels;
}

Outcome run_labels(const Call& call) {
  const auto& ids = call.options.operands();
  const std::string place = call.options.text("place").value_or("");
  if (ids.empty() == place.empty())
    return refuse({ErrorCode::bad_usage,
                   "labels are of containers by their ids, or of all at one place",
                   {},
                   "write e.g. fogwright paper labels C1 C2, or --place heron"});
  const auto order = read_paper_order(call);
  if (!order) return refuse(order.error());
  std::vector<NamedPaper> papers;
  const auto made = with_source(call, order->form.language, [&](const Source& source) -> Outcome {
    const auto ready = dressed(call, *order, source);
    if (!ready) return refuse(ready.error());
    const auto labels = labels_asked_for(source, ids, place);
    if (!labels) return refuse(labels.error());
    auto sheet = paper::container_labels(*labels, ready->form);
    if (!sheet) return refuse(sheet.error());
    papers.push_back(
        {name_of("labels", ids.size() == 1 ? ids.front() : place, order->form.language), std::move(*sheet)});
    return {};
  });
  if (!made) return made;
  return write_papers(call, *order, papers);
}

Outcome run_paper_audit(const Call& call) {
  const auto order = read_paper_order(call);
  if (!order) return refuse(order.error());
  const auto scope = read_audit_scope(call);
  if (!scope) return tl::make_unexpected(scope.error());
  RecordCheck record;
  std::vector<NamedPaper> papers;
  const auto made = with_source(call, order->form.language, [&](const Source& source) -> Outcome {
    const auto ready = dressed(call, *order, source);
    if (!ready) return refuse(ready.error());
    if (auto known = check_audit_names(source.now, {source.head.size, source.moment.ms, {}}, *scope, "--");
        !known)
      return refuse(known.error());
    auto checked = check_record(call, source.store);
    if (!checked) return tl::make_unexpected(checked.error());
    record = *checked;
    const AuditAnswer answer =
        audit(source.now, {source.head.size, source.moment.ms, std::move(*checked)}, *scope);
    papers.push_back({name_of("audit", "", order->form.language),
                      paper::audit_report(press::audit_report(source, answer), ready->form)});
    return {};
  });
  if (!made) return made;
  if (auto written = write_papers(call, *order, papers); !written) return written;
  return refuse_record(record);
}

constexpr OptionRow place_row = {"place", "NAME", "only one shop or van"};

}  // namespace

std::vector<Command> paper_commands() {
  return {
      {"paper", "record", "JOB", "the whole record of a job, with a proof that anyone can check",
       with_paper_options({}), run_paper_record, "fogwright paper record J1 --out J1.pdf"},
      {"paper", "leave-behind", "JOB", "for the customer: what was applied, when to go in again, whom to call",
       with_paper_options({}), run_paper_leave_behind, "fogwright paper leave-behind J1 --language es"},
      {"paper", "door", "JOB", "for the door while the hold runs: nobody in before this time",
       with_paper_options({}), run_paper_door, "fogwright paper door J1"},
      {"paper", "mixing", "[JOB]", "what to measure out, to tick off at the bench", paper_mixing_options(),
       run_paper_mixing,
       "fogwright paper mixing --label product_profiles_demo/brackwater-20.toml --make '1/2 gal'"},
      {"paper", "labels", "[ID...]", "labels with a code, to stand beside the maker's own",
       with_paper_options({{"place", "NAME", "all that is at a shop or van"}}), run_labels,
       "fogwright paper labels --place heron"},
      {"paper", "inventory", "", "what there is, what expires, what to order, stock over time",
       with_paper_options({place_row}), run_inventory, "fogwright paper inventory"},
      {"paper", "audit", "", "what departs from the rules, with a summary of one page",
       with_paper_options(audit_scope_options()), run_paper_audit,
       "fogwright paper audit --from 2026-03-01 --to 2026-03-31"},
      {"paper", "all", "JOB", "every paper that a job has; the customer's in both languages",
       with_paper_options({}), run_paper_all, "fogwright paper all J1 --out papers"},
  };
}

}  // namespace fogwright
