// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "report/big_digits.hpp"
#include "report/plan_sections.hpp"

namespace fogwright {
namespace {

std::string upper(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return out;
}

std::string span_words(const SecondsBand& band) { return fmt::format("{} to {} s", band.low, band.high); }

std::string minutes_words(std::int64_t minutes) {
  return show(HoldTime{static_cast<double>(minutes), unit::minute});
}

void title(Page& page, const Plan& plan) {
  const Label& label = *plan.label;
  page.line(upper(label.name), Emphasis::strong);
  std::string facts = fmt::format("Reg. {}, {}", label.registration, strength_name(label.strength));
  page.paragraph(facts, "");
  if (label.signal_word != SignalWord::none)
    page.line(signal_word_name(label.signal_word),
              label.signal_word == SignalWord::danger ? Emphasis::alarm : Emphasis::strong);
}

void alarms(Page& page, const Plan& plan) {
  for (const Warning& warning : plan.warnings)
    if (stops_the_job(warning.kind))
      page.paragraph(warning_words(warning, page.style().units), "!! ", Emphasis::alarm);
}

/// More returns than this are listed in plain figures, so that the list fits a screen.
constexpr std::size_t most_big_figures = 6;

void one_return(Page& page, const ReturnDose& dose, bool big) {
  const std::string words = fmt::format("{}  ({})", dose.name, span_words(dose.band));
  if (!big) return page.paragraph(words, fmt::format("{:>5} s   ", dose.seconds), Emphasis::strong);
  const auto figure = big_digits(dose.seconds);
  page.line("    " + figure[0], Emphasis::strong);
  page.paragraph(words, fmt::format("    {}  {} s   ", figure[1], dose.seconds), Emphasis::strong);
  page.line("    " + figure[2], Emphasis::strong);
}

void seconds(Page& page, const Plan& plan) {
  page.heading("FOG, SECONDS AT EACH RETURN");
  std::size_t returns = 0;
  SecondsBand all;
  for (const SystemDose& system : plan.systems) {
    returns += system.returns.size();
    all = {all.low + system.band.low, all.high + system.band.high};
  }
  for (const SystemDose& system : plan.systems) {
    if (plan.systems.size() > 1)
      page.paragraph(fmt::format("{}: {}", system.name, show(system.area, page.style().units)), "  ");
    for (const ReturnDose& dose : system.returns) one_return(page, dose, returns <= most_big_figures);
  }
  page.paragraph(fmt::format("in all  ({})", span_words(all)), fmt::format("{:>5} s   ", plan.total_seconds));
}

void load(Page& page, const Plan& plan) {
  const UnitSystem units = page.style().units;
  page.heading("LOAD");
  page.field("fill",
             fmt::format("{}{}", show(plan.load.needed, units, Rounding::up),
                         plan.load.fills > 1 ? fmt::format(", in {} fills", plan.load.fills) : ""),
             Emphasis::strong);
  page.field("of that", fmt::format("{} fogged at the target, {} at the most, the rest is reserve",
                                    show(plan.volume.target, units, Rounding::up),
                                    show(plan.volume.high, units, Rounding::up)));
  page.field("flow",
             fmt::format("{}, {}", show(plan.calibration.flow, units), basis_name(plan.calibration.basis)));
}

std::string model_words(const Plan& plan) {
  if (plan.hold.model_never_clears) return "never clears by itself";
  if (!plan.hold.model_minutes) return "cannot tell";
  return plan.air.actives.empty() ? "no gas or vapor" : minutes_words(*plan.hold.model_minutes);
}

std::string hold_grounds(const Plan& plan) {
  const Hold& hold = plan.hold;
  return fmt::format("label {}, policy {}, model {}, haze {}",
                     hold.label_minutes ? minutes_words(*hold.label_minutes) : "silent",
                     hold.policy_minutes > 0 ? minutes_words(hold.policy_minutes) : "none", model_words(plan),
                     minutes_words(hold.haze_minutes));
}

void hold(Page& page, const Plan& plan) {
  const Hold& hold = plan.hold;
  page.heading("STAY OUT");
  page.field(
      "for",
      fmt::format("{} after the last second of fog, all people and animals", minutes_words(hold.total_minutes)),
      Emphasis::strong);
  page.field("because of", fmt::format("{} ({})", hold_ground_name(hold.governs), hold_grounds(plan)));
  if (hold.readings_needed)
    page.field("and then", "only on two readings at or below the limit, 15 min apart, fan running");
  else if (hold.floor_minutes < hold.total_minutes)
    page.field("or", fmt::format("{} and then two readings at or below the limit, 15 min apart, fan running",
                                 minutes_words(hold.floor_minutes)));
}

/// Who asked reads the answer here, without the rest of the full text.
void questions(Page& page, const Plan& plan) {
  if (!plan.airing_for_deadline && !plan.volume_for_deadline) return;
  page.heading("YOU ASKED");
  if (plan.airing_for_deadline)
    page.field(
        "airing out",
        *plan.airing_for_deadline
            ? fmt::format("{} or {} at the least", show((*plan.airing_for_deadline)->air_changes, Rounding::up),
                          show((*plan.airing_for_deadline)->airflow, page.style().units, Rounding::up))
            : plan.airing_for_deadline->error().message);
  if (plan.volume_for_deadline)
    page.field("dose", *plan.volume_for_deadline
                           ? fmt::format("{} at the most",
                                         show(**plan.volume_for_deadline, page.style().units, Rounding::down))
                           : plan.volume_for_deadline->error().message);
}

void gear(Page& page, const Plan& plan) {
  page.heading("GEAR OUT OF THE VAN");
  const RespiratorNeed& need = plan.respirator;
  if (need.required) {
    std::string words{facepiece_name(need.facepiece)};
    for (const std::string_view cartridge : need.cartridges) words.append(", ").append(cartridge);
    if (!need.band_colour.empty())
      words += fmt::format(" (band usually {}; the words decide)", need.band_colour);
    words += need.for_mixing && need.for_applying ? "; worn to mix and to fog"
             : need.for_mixing                    ? "; worn to mix"
                                                  : "; worn to fog";
    page.field("respirator", words, Emphasis::strong);
  } else {
    page.field("respirator", "none asked for by the label or the estimate");
  }
  page.list("to mix", plan.label->mixing_gear.items);
  page.list("to fog", plan.label->applying_gear.items);
}

void cautions(Page& page, const Plan& plan) {
  page.heading(fmt::format("LABEL CAUTIONS{}{}", plan.label->signal_word == SignalWord::none ? "" : ": ",
                           signal_word_name(plan.label->signal_word)));
  for (const std::string& words : plan.label->precautions) page.paragraph(words, "  ");
}

void notes(Page& page, const Plan& plan) {
  bool any = false;
  for (const Warning& warning : plan.warnings) {
    if (stops_the_job(warning.kind)) continue;
    if (!any) page.heading("NOTE");
    any = true;
    page.paragraph(warning_words(warning, page.style().units), "  - ");
  }
}

}  // namespace

bool stops_the_job(WarningKind kind) {
  return kind == WarningKind::do_not_enter || kind == WarningKind::flammable_stop ||
         kind == WarningKind::flammable_duct || kind == WarningKind::airflow_unproven;
}

void requirements_section(Page& page, const Plan& plan) {
  page.heading("BEFORE THE FIRST SECOND, AND AFTER");
  for (const Requirement& requirement : requirements_of(plan))
    page.paragraph(requirement_words(requirement), "  [ ] ");
}

void short_plan(Page& page, const Plan& plan) {
  title(page, plan);
  alarms(page, plan);
  seconds(page, plan);
  load(page, plan);
  hold(page, plan);
  questions(page, plan);
  gear(page, plan);
  cautions(page, plan);
  notes(page, plan);
}

std::string plan_text(const Plan& plan, const TextStyle& style) {
  Page page(style);
  short_plan(page, plan);
  page.blank();
  page.paragraph(
      "The label outranks this plan. An estimate is not a permission: follow the label, the data sheet, local "
      "code and "
      "licensed practice.",
      "");
  return std::move(page).take();
}

}  // namespace fogwright
