// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "fogwright/quantity/measured.hpp"
#include "report/page.hpp"

namespace fogwright {
namespace {

std::string_view release_words(Release release) {
  return release == Release::vapour ? "as gas or vapor" : "in the mist";
}

void about_gear(Page& page, std::string_view label, const Gear& gear) {
  std::vector<std::string> items = gear.items;
  if (gear.respirator && *gear.respirator != Facepiece::none) {
    items.push_back(fmt::format("respirator: {}", facepiece_name(*gear.respirator)));
    for (const std::string& cartridge : gear.cartridges) items.back() += ", " + cartridge;
  }
  page.list(label, items);
}

void about_actives(Page& page, const Label& label) {
  page.heading("ACTIVES AS APPLIED");
  for (const Active& active : label.actives) {
    std::string words =
        fmt::format("CAS {}, {}, {}", active.cas,
                    active.mass_fraction ? show_number(*active.mass_fraction * 100, 3) + " % by mass"
                                         : std::string("strength not on the label"),
                    release_words(active.release));
    if (active.released_name) words += fmt::format("; gives off {}", *active.released_name);
    page.paragraph(fmt::format("{}: {}", active.name, words), "  - ");
  }
}

void list(Page& page, std::string_view heading, const std::vector<std::string>& items) {
  if (items.empty()) return;
  page.heading(heading);
  for (const std::string& item : items) page.paragraph(item, "  ");
}

void shelf(Page& page, const Label& label) {
  const auto words = [](const std::optional<ShelfTime>& time) {
    return time ? show(*time) : std::string("label is silent");
  };
  page.heading("KEEPING");
  if (label.storage.low || label.storage.high)
    page.field("store at",
               fmt::format("{} to {}", label.storage.low ? show(*label.storage.low, page.style().units) : "any",
                           label.storage.high ? show(*label.storage.high, page.style().units) : "any"));
  page.field("sealed", words(label.shelf_life.sealed));
  page.field("opened", words(label.shelf_life.opened));
  page.field("mixed", words(label.shelf_life.mixed));
}

}  // namespace

std::string label_text(const Label& label, const TextStyle& style) {
  Page page(style);
  page.line(label.name, Emphasis::strong);
  page.field("maker", label.maker);
  page.field("registration", label.registration);
  page.field("strength", strength_name(label.strength));
  if (label.signal_word != SignalWord::none)
    page.field("signal word", signal_word_name(label.signal_word),
               label.signal_word == SignalWord::danger ? Emphasis::alarm : Emphasis::strong);
  page.field("fog rate", label.rate ? fmt::format("{} to {} s per 1,000 sq ft", label.rate->low_s_per_1000_sqft,
                                                  label.rate->high_s_per_1000_sqft)
                                    : std::string("label is silent: common practice applies"));
  page.field("stay out", label.empty_time
                             ? fmt::format("{} ({})", show(*label.empty_time), label.empty_time_source)
                             : std::string("label is silent"));
  if (!label.ventilation.empty()) page.field("airing out", label.ventilation);
  const auto ducts = may_fog_ducts(label);
  page.field("ducts", ducts ? "may be fogged" : ducts.error().message,
             ducts ? Emphasis::plain : Emphasis::alarm);
  about_actives(page, label);
  page.heading("GEAR");
  about_gear(page, "to mix", label.mixing_gear);
  about_gear(page, "to fog", label.applying_gear);
  shelf(page, label);
  list(page, "CAUTIONS, IN THE LABEL'S ORDER", label.precautions);
  list(page, "FIRST AID", label.first_aid);
  list(page, "DISPOSAL", label.disposal);
  page.heading("DATES");
  page.field("label", label.label_date);
  page.field("data sheet", label.data_sheet_date);
  return std::move(page).take();
}

std::string mixing_sheet_text(const Label& label, const MixingSheet& sheet, const TextStyle& style) {
  Page page(style);
  page.line(fmt::format("MIX {}: {}", label.name, sheet.table), Emphasis::strong);
  if (label.signal_word != SignalWord::none)
    page.line(signal_word_name(label.signal_word),
              label.signal_word == SignalWord::danger ? Emphasis::alarm : Emphasis::strong);
  page.field("makes", show(sheet.makes, style.units));
  if (sheet.batches > 1)
    page.field("batches", fmt::format("{} whole batches of the label's table", sheet.batches));
  page.heading("FIRST PUT ON");
  about_gear(page, "gear", sheet.gear);
  page.heading("THEN, IN THIS ORDER");
  int step = 1;
  for (const MixingSheetLine& line : sheet.lines) {
    page.paragraph(fmt::format("{} of {}", show_measured(line.amount, style.units), line.ingredient),
                   fmt::format("{:>4}. ", step++), Emphasis::strong);
    if (!line.instruction.empty()) page.paragraph(line.instruction, "      ");
    if (line.wait) page.paragraph("then wait " + show(*line.wait), "      ");
  }
  page.blank();
  if (sheet.active_fraction)
    page.field("strength", show_number(*sheet.active_fraction * 100, 3) + " % by mass, worked out");
  if (sheet.life) page.field("use within", show(*sheet.life));
  page.paragraph(
      "The label's own directions for mixing decide. Label the vessel with product, lot, time and life.", "  ");
  return std::move(page).take();
}

std::string calibration_text(const Calibration& calibration, const TextStyle& style) {
  Page page(style);
  page.field("flow", show(calibration.flow, style.units), Emphasis::strong);
  page.field("runs", fmt::format("{}", calibration.runs));
  page.field("mean lies",
             fmt::format("{} to {} (95 %, Student t)", show(calibration.low, style.units, Rounding::down),
                         show(calibration.high, style.units, Rounding::up)));
  page.field("spread",
             fmt::format("{} % between runs", show_number(calibration.relative_spread * 100, 2, Rounding::up)));
  if (calibration.large_spread)
    page.paragraph("Fewer than three runs, or more than 10 % between them: measure again before relying on it.",
                   "!! ", Emphasis::alarm);
  return std::move(page).take();
}

std::string route_text(const Label& label, const RouteLoad& load, std::size_t jobs, const TextStyle& style) {
  Page page(style);
  page.line(fmt::format("LOAD FOR {} {}: {}", jobs, jobs == 1 ? "JOB" : "JOBS", label.name), Emphasis::strong);
  page.field("needed", show(load.needed, style.units, Rounding::up), Emphasis::strong);
  page.field("one fill", show(load.fill, style.units, load.fill_rounding()));
  page.field("fills", fmt::format("{}", load.fills));
  page.field("liquid", show(load.liquid_mass, style.units, Rounding::up) + " a fill");
  if (load.above_usual_fill)
    page.paragraph(
        "More than the usual 1/3 to 1/2 US gal (common practice, no source): needless weight. Fill less, more "
        "often.",
        "  - ");
  return std::move(page).take();
}

}  // namespace fogwright
