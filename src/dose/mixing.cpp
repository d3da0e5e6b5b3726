// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "dose/naming.hpp"
#include "fogwright/dose.hpp"

namespace fogwright {
namespace {

constexpr Unit<Dimension::volume> tenth_millilitre{1e-7};
constexpr LiquidVolume least_measurable(1, unit::millilitre);
constexpr LiquidVolume largest_batch(1000, unit::litre);
constexpr LiquidDensity water_density(1, unit::gram_per_millilitre);  // within 0.3 % from 4 to 25 °C

Error no_table(const Label& label, std::string_view problem) {
  return {ErrorCode::label_incomplete, fmt::format("The label of \"{}\" has {}.", label.name, problem),
          "mixing",
          "A product that is ready to use is not mixed; for any other, copy the label's mixing table into the "
          "profile."};
}

std::string table_names(const Label& label) {
  std::string names;
  for (const MixingTable& table : label.mixing)
    names += fmt::format(R"({}"{}")", names.empty() ? "" : ", ", table.name);
  return names;
}

Result<const MixingTable*> table_of(const Label& label, std::string_view name) {
  if (label.mixing.empty()) return tl::make_unexpected(no_table(label, "no mixing table"));
  if (name.empty() && label.mixing.size() > 1)
    return fail(ErrorCode::missing_value,
                fmt::format("The label of \"{}\" has several mixing tables.", label.name), "mixing table",
                fmt::format("Name one of {}.", table_names(label)));
  const auto found = std::find_if(label.mixing.begin(), label.mixing.end(),
                                  [&](const MixingTable& t) { return name.empty() || t.name == name; });
  if (found == label.mixing.end())
    return fail(ErrorCode::not_found,
                fmt::format("The label of \"{}\" has no mixing table \"{}\".", label.name, name),
                "mixing table", fmt::format("Name one of {}.", table_names(label)));
  const bool usable = found->makes >= least_measurable && !found->steps.empty() &&
                      std::all_of(found->steps.begin(), found->steps.end(), [](const MixingStep& s) {
                        return s.amount.si() > 0 && s.amount.is_finite();
                      });
  if (!usable) return tl::make_unexpected(no_table(label, "a mixing table without amounts"));
  return &*found;
}

// Water may be a little more and product a little less, so that the mix is never stronger than the label's.
LiquidVolume measured_out(const MixingStep& step, LiquidVolume amount) {
  const std::int64_t tenths =
      is_water(step.ingredient) ? amount.ceil_in(tenth_millilitre) : amount.floor_in(tenth_millilitre);
  return {static_cast<double>(tenths), tenth_millilitre};
}

std::optional<LiquidDensity> density_of(const MixingStep& step) {
  if (step.density || !is_water(step.ingredient)) return step.density;
  return water_density;
}

// Nothing where no ingredient has a strength, or one of them no density.
std::optional<double> active_fraction(const MixingTable& table, const std::vector<MixingSheetLine>& lines) {
  Mass all, active;
  bool known = false;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto density = density_of(table.steps[i]);
    if (!density) return std::nullopt;
    const Mass mass = lines[i].amount * *density;
    all += mass;
    active += mass * table.steps[i].mass_fraction.value_or(0);
    known = known || table.steps[i].mass_fraction.has_value();
  }
  return known && all.si() > 0 ? std::optional(active / all) : std::nullopt;
}

struct Scale {
  double factor = 1;
  int batches = 1;
  bool whole_batches = false;
};

Scale scale_of(const MixingTable& table, LiquidVolume make) {
  const auto smallest = std::min_element(table.steps.begin(), table.steps.end(),
                                         [](const auto& a, const auto& b) { return a.amount < b.amount; });
  const double factor = make / table.makes;
  if (smallest->amount * factor * (1 + 1e-12) >= least_measurable) return {factor, 1, false};
  const int batches = std::max(1, static_cast<int>(std::ceil(factor * (1 - 1e-12))));
  return {static_cast<double>(batches), batches, true};
}

}  // namespace

bool is_water(std::string_view ingredient) {
  ingredient = ingredient.substr(0, ingredient.find_first_of(",("));
  while (!ingredient.empty() && ingredient.back() == ' ') ingredient.remove_suffix(1);
  ingredient = ingredient.substr(ingredient.rfind(' ') + 1);
  constexpr std::string_view water = "water";
  return std::equal(ingredient.begin(), ingredient.end(), water.begin(), water.end(),
                    [](char a, char b) { return (a >= 'A' && a <= 'Z' ? a - 'A' + 'a' : a) == b; });
}

LiquidVolume label_batch(const Label& label, std::string_view table) {
  for (const MixingTable& one : label.mixing)
    if (table.empty() || one.name == table) return one.makes;
  return LiquidVolume(1, unit::litre);
}

Result<MixingSheet> mixing_sheet(const Label& label, LiquidVolume make, std::string_view table_name) {
  const auto table = table_of(label, table_name);
  if (!table) return tl::make_unexpected(table.error());
  if (!(make.si() > 0 && make <= largest_batch))
    return fail(ErrorCode::out_of_range,
                fmt::format("A batch of {} mL is not above zero and up to 1,000 L.",
                            show_number(make.value_in(unit::millilitre), 6)),
                "volume to make", "Give how much mix the jobs need.");

  const Scale scale = scale_of(**table, make);
  MixingSheet sheet;
  sheet.table = (*table)->name;
  sheet.makes = scale.whole_batches ? (*table)->makes * scale.factor : make;
  sheet.batches = scale.batches;
  for (const MixingStep& step : (*table)->steps) {
    // In whole batches the label's own amounts stand: a tenth of a millilitre can be much of a small one.
    const LiquidVolume amount = step.amount * scale.factor;
    sheet.lines.push_back({step.ingredient, scale.whole_batches ? amount : measured_out(step, amount),
                           step.instruction, step.wait});
  }
  sheet.gear = label.mixing_gear;
  sheet.life = label.shelf_life.mixed;
  sheet.active_fraction = active_fraction(**table, sheet.lines);
  return sheet;
}

}  // namespace fogwright
