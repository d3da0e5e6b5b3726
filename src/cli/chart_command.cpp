// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/paper_call.hpp"
#include "cli/paper_commands.hpp"

namespace fogwright {
namespace {

using paper::Language;
using press::Source;

// --- The air of a job ---------------------------------------------------------------------------------------

/// The curve that was asked for, by its substance; else the one that lasts longest.
Result<paper::ConcentrationCurve> chosen(const std::vector<paper::ConcentrationCurve>& curves,
                                         const std::string& substance) {
  if (substance.empty()) return curves.front();
  std::string known;
  for (const auto& curve : curves) {
    if (curve.substance == substance) return curve;
    known += (known.empty() ? "" : ", ") + curve.substance;
  }
  return fail(ErrorCode::not_found, fmt::format("no \"{}\" goes into the air of this job", substance),
              "--substance", "known: " + known);
}

std::vector<std::string> notes_of(const Documents& now, const std::string& job,
                                  const std::vector<paper::ConcentrationCurve>& curves) {
  std::vector<std::string> notes;
  for (std::size_t i = 1; i < curves.size(); ++i)
    notes.push_back(fmt::format("Also in the air: {0} (--substance '{0}').", curves[i].substance));
  if (const auto again = replan(now, job))
    notes.insert(notes.end(), again->differences.begin(), again->differences.end());
  return notes;
}

Outcome run_job_chart(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the job");
  if (options.fault()) return refuse(*options.fault());
  const std::string job = options.operand();
  return with_source(call, Language::en, [&](const Source& source) -> Outcome {
    const auto curves = press::concentration_curves(source, job);
    if (!curves) return tl::make_unexpected(curves.error());
    const auto curve = chosen(*curves, options.text("substance"));
    if (!curve) return refuse(curve.error());
    return show_chart(call, paper::concentration_chart(*curve, Language::en),
                      notes_of(source.now, job, *curves));
  });
}

// --- Used against planned -----------------------------------------------------------------------------------

std::string used_words(const press::UsedLine& line, UnitSystem units) {
  return fmt::format("{}: {} used, {} planned ({:+.0f} %), {}{}{}", line.job,
                     press::recorded_volume(line.used_ul, units),
                     press::recorded_volume(line.planned_ul, units), line.off_by_percent, line.technician,
                     line.fogger.empty() ? "" : ", fogger ", line.fogger);
}

Outcome run_job_compare(const Call& call) {
  OptionReader options(call);
  options.operands(0, 0, "");
  if (options.fault()) return refuse(*options.fault());
  const press::UsedFilter filter{options.text("technician"), options.text("fogger"), options.text("product")};
  return with_source(call, Language::en, [&](const Source& source) -> Outcome {
    const auto lines = press::used_lines(source, filter);
    std::vector<double> off;
    for (const press::UsedLine& line : lines) off.push_back(line.off_by_percent);
    const auto limits = individuals_chart(off);
    if (!limits)
      return refuse({ErrorCode::not_found,
                     fmt::format("a chart takes two jobs whose use is known; there {} {}",
                                 off.size() == 1 ? "is" : "are", off.size()),
                     {},
                     "measure what is left in the tank: fogwright job fog-off JOB --left VOLUME"});
    std::vector<std::string> notes;
    for (const std::size_t point : limits->outside)
      notes.push_back("Outside the limits: " + used_words(lines[point], call.style.units));
    return show_chart(call, paper::use_chart(off, *limits, Language::en), notes);
  });
}

// --- Stock --------------------------------------------------------------------------------------------------

Outcome run_stock_chart(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the item");
  const double days = options.number("days", 90);
  if (options.fault()) return refuse(*options.fault());
  if (!(days >= 2 && days <= 3650))
    return refuse({ErrorCode::out_of_range, "a chart shows 2 days to ten years", "--days", "write e.g. 90"});
  return with_source(call, Language::en, [&](const Source& source) -> Outcome {
    const auto curve = press::stock_curve(source, options.operand(), static_cast<int>(days));
    if (!curve) return refuse(curve.error());
    return show_chart(call, paper::stock_chart(*curve, Language::en));
  });
}

}  // namespace

std::vector<Command> chart_commands() {
  return {
      {"job", "chart", "JOB", "the air after fog-off as planned, with its limits and the end of the hold",
       with_book_options(
           {{"substance", "NAME", "which of several (default: the one that lasts longest)"}, svg_row()}),
       run_job_chart, "fogwright job chart J1"},
      {"job", "compare", "", "what jobs used against their plans, with control limits",
       with_book_options({{"technician", "HANDLE", "only this person's jobs"},
                          {"fogger", "NAME", "only this fogger's"},
                          {"product", "KEY", "only of this product"},
                          svg_row()}),
       run_job_compare, "fogwright job compare --fogger gust"},
      {"stock", "chart", "ITEM", "stock over time, with its reorder point",
       with_book_options({{"days", "DAYS", "how far back (default 90)"}, svg_row()}), run_stock_chart,
       "fogwright stock chart fenmist-rtu"},
  };
}

}  // namespace fogwright
