// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "report/plan_sections.hpp"

namespace fogwright {
namespace {

std::string figure(double value, std::string_view unit) {
  return fmt::format("{} {}", show_number(value, 3, Rounding::up), unit);
}

std::string limit_words(const std::optional<GoverningLimit>& limit) {
  return limit ? fmt::format("{} ({}; {})", show(limit->value, Rounding::down), limit->authority, limit->source)
               : "none published";
}

std::string time_words(const std::optional<TimeToLimit>& time) {
  if (!time) return "cannot tell";
  const auto one = [](HoldTime t) { return t.is_finite() ? show(t) : std::string("never"); };
  return fmt::format("{} if released at once, {} if released over the off-gassing time", one(time->at_once),
                     one(time->off_gassing));
}

void about_active(Page& page, const ActiveAir& air) {
  page.blank();
  page.line("  " + air.active->released_name.value_or(air.active->name), Emphasis::strong);
  if (!air.estimable) {
    page.field("estimate", "none: the strength is hidden, it stays in the mist, or no limit is published");
    return;
  }
  page.field("released", show(air.released, UnitSystem::metric, Rounding::up) +
                             ", all of it (volume x density x strength x yield)");
  page.field("peak",
             fmt::format("{}, {} (mass / free volume; ppm at 25 C, 760 mmHg); a meter here would show {}",
                         show(air.peak, Rounding::up), figure(air.peak_ppm, "ppm"),
                         figure(air.peak_meter_ppm, "ppm")));
  page.field("8 h limit", limit_words(air.worker));
  page.field("15 min limit", limit_words(air.short_term));
  page.field("ceiling", limit_words(air.ceiling));
  page.field("dangerous", limit_words(air.immediately_dangerous));
  page.field("occupants", air.occupant ? fmt::format("{} ({})", show(*air.occupant, Rounding::down),
                                                     basis_name(air.occupant_basis))
                                       : std::string("no limit known"));
  page.field("hazard ratio", figure(air.hazard_ratio, "times the strictest worker limit"));
  page.field("to workers'", time_words(air.to_worker));
  page.field("to occupants'", time_words(air.to_occupant));
}

void about_haze(Page& page, const Haze& haze) {
  page.heading("HAZE, TWO BOUNDS");
  page.field("droplets",
             fmt::format("{}, {} to the limit", show(haze.droplets, Rounding::up), show(haze.droplet_time)));
  page.field("dry residue",
             fmt::format("{}, {} to the limit", show(haze.residue, Rounding::up), show(haze.residue_time)));
  page.field("limit", show(haze.limit, Rounding::down) +
                          " (respirable particulates, 29 CFR 1910.1000 Table Z-1, from memory, / "
                          "occupant factor)");
}

void about_fire(Page& page, const Flammable& fire) {
  if (!fire.present) return;
  page.heading("FLAMMABLE VAPOR");
  page.field("in the duct",
             fire.share_duct ? figure(*fire.share_duct * 100, "% of the lower limit") : "airflow not known");
  page.field("in the house",
             figure(fire.share_house * 100, "% of the lower limit (an average that hides the duct)"));
  page.field("fan off", fmt::format("10 % in the plenum after {} s",
                                    show_number(fire.seconds_to_tenth_fan_off, 2, Rounding::down)));
  page.field("least airflow", show(fire.least_airflow, page.style().units, Rounding::up) + " for 10 %");
}

void about_moisture(Page& page, const Moisture& moisture) {
  page.heading("MOISTURE, IF ALL OF IT EVAPORATES");
  page.field("humidity",
             fmt::format("{} % before, {} % after", show_number(moisture.relative_humidity_before * 100, 3),
                         show_number(moisture.relative_humidity_after * 100, 3, Rounding::up)));
  page.field("dew point", show(moisture.dew_point_after, page.style().units));
  if (moisture.wets_coldest_surface)
    page.field("cold ducts", *moisture.wets_coldest_surface ? "would be wetted" : "stay above the dew point");
}

void about_cases(Page& page, const Plan& plan) {
  page.heading("MODEL, FRIENDLY AND HOSTILE INPUTS");
  const auto words = [](HoldTime t) {
    return t.is_finite() ? show(t) : std::string("never clears without airing out");
  };
  page.field("friendly", words(plan.cases.low));
  page.field("hostile", words(plan.cases.high));
  if (plan.spread)
    page.field("dose spread", fmt::format("{} to {} % of the planned dose (95 %, simulated)",
                                          show_number(plan.spread->low * 100, 3, Rounding::down),
                                          show_number(plan.spread->high * 100, 3, Rounding::up)));
}

void about_assumptions(Page& page, const PlanRequest& request, const Plan& plan) {
  page.heading("BEHIND THE FIGURES");
  for (const Assumption& one : assumptions(request, plan, page.style().units))
    page.paragraph(fmt::format("{}: {} [{}; {}]", one.what, one.value, basis_name(one.basis), one.source),
                   "  - ");
}

void about_formulas(Page& page) {
  page.heading("FORMULAS (docs/formulas.md)");
  for (const char* words :
       {"band = rate x area, whole seconds inside it; shares by largest remainder",
        "volume = flow x seconds; load = high volume + reserve, rounded up",
        "C(t) = C0 exp(-a t / K) in each phase; time = ln(C / limit) / (a / K), rounded up to the minute",
        "mg/m3 = ppm x molar mass / 24.45", "hold = longest of label, policy, model and haze"})
    page.paragraph(words, "  - ");
}

void about_reasons(Page& page, const Plan& plan) {
  page.heading("WHY EACH ITEM");
  for (const Requirement& one : requirements_of(plan))
    page.paragraph(fmt::format("{} {} [{}; {}]", requirement_words(one), one.rule->why,
                               basis_name(one.rule->basis), one.rule->citation),
                   "  - ");
}

}  // namespace

std::string plan_full_text(const PlanRequest& request, const Plan& plan, const TextStyle& style) {
  Page page(style);
  short_plan(page, plan);
  requirements_section(page, plan);
  page.heading("AIR");
  page.field("volume", fmt::format("{}, free {}", show(plan.air.gross, style.units),
                                   show(plan.air.free, style.units, Rounding::down)));
  for (const ActiveAir& active : plan.air.actives) about_active(page, active);
  if (plan.respirator.required) {
    page.heading("RESPIRATOR");
    page.paragraph(respirator_reason(plan.respirator, *plan.label, plan.air), "  ");
  }
  about_cases(page, plan);
  about_haze(page, plan.air.haze);
  about_fire(page, plan.air.flammable);
  about_moisture(page, plan.air.moisture);
  about_assumptions(page, request, plan);
  about_formulas(page);
  about_reasons(page, plan);
  page.blank();
  page.paragraph(
      "Regulations change: check the current text. The label outranks this plan. An estimate is not a "
      "permission: follow "
      "the label, the data sheet, local code and licensed practice.",
      "");
  return std::move(page).take();
}

}  // namespace fogwright
