// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "fogwright/quantity/measured.hpp"
#include "press/parts.hpp"

namespace fogwright::press {

using paper::Word;

namespace {

std::string active_words(const Active& active, paper::Language language) {
  std::string words = fmt::format("{} ({})", active.name, active.cas);
  if (active.released_name)
    words += fmt::format("{}{} ({})", language == paper::Language::en ? ", as " : ", como ",
                         *active.released_name, active.released_cas.value_or(active.cas));
  return words;
}

/// Gear as the label lists it, with the respirator it demands.
std::vector<std::string> gear_lines(const Gear& gear) {
  std::vector<std::string> lines = gear.items;
  if (!gear.respirator || *gear.respirator == Facepiece::none) return lines;
  lines.push_back(std::string(facepiece_name(*gear.respirator)));
  for (const std::string& cartridge : gear.cartridges) lines.back() += ", " + cartridge;
  return lines;
}

std::string life_words(ShelfTime life, paper::Language language) {
  if (life < ShelfTime(2, unit::day)) return show(life);
  return word(language, Word::days, life.floor_in(unit::day));
}

}  // namespace

paper::ProductFacts product_facts(const Label& label, paper::Language language) {
  paper::ProductFacts facts;
  facts.name = label.name;
  facts.registration = label.registration;
  facts.signal_word = signal_word_name(label.signal_word);
  for (const Active& active : label.actives) facts.actives.push_back(active_words(active, language));
  facts.precautions = label.precautions;
  facts.first_aid = label.first_aid;
  return facts;
}

paper::MixingSheet mixing_facts(const Label& label, const MixingSheet& sheet, UnitSystem units,
                                paper::Language language) {
  paper::MixingSheet facts;
  facts.product = product_facts(label, language);
  facts.table = sheet.table;
  facts.makes = show(sheet.makes, units);
  if (sheet.life) facts.use_within = life_words(*sheet.life, language);
  facts.ventilation = label.ventilation;
  facts.gear = gear_lines(sheet.gear);
  for (const MixingSheetLine& line : sheet.lines)
    facts.steps.push_back({line.ingredient, show_measured(line.amount, units), line.instruction,
                           line.wait ? show(*line.wait) : std::string()});
  facts.disposal = label.disposal;
  return facts;
}

}  // namespace fogwright::press
