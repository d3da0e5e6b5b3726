// SPDX-License-Identifier: Apache-2.0
#include <cmath>

#include "label/tables.hpp"

namespace fogwright::profile {
namespace {

template <auto Amount, auto Text>
constexpr Row<detail::Owner<Amount>> amount(std::string_view name, std::string_view example,
                                            std::string_view doc) {
  return {{name, Shape::quantity, required, example, doc},
          [](Reading& r, const Spot& s, detail::Owner<Amount>& owner) {
            detail::store<Amount>(owner, read_quantity<LiquidVolume>(r, s, read_liquid_volume));
            if (const auto* typed = s.node->as_string()) owner.*Text = typed->get();
          }};
}

constexpr Row<MixingStep> step_rows[] = {
    text<&MixingStep::ingredient>("ingredient", required, "\"water\"", "What is added, in the label's words."),
    amount<&MixingStep::amount, &MixingStep::amount_text>("amount", "\"125 fl oz\"",
                                                          "How much of it for one batch."),
    statement<&MixingStep::instruction>("instruction", optional,
                                        "\"into the water, never the other way round\"",
                                        "What the label says about this step."),
    quantity<&MixingStep::wait, read_hold_time>(
        "wait", optional, "\"10 min\"", "How long to wait after it, before the next step or before use."),
    value<&MixingStep::mass_fraction, read_fraction>(
        "mass_fraction", Shape::fraction, optional, "\"20 %\"",
        "Share by mass of the active in this ingredient, for the check by mass."),
    quantity<&MixingStep::density, read_liquid_density>("density", optional, "\"1.17 g/mL\"",
                                                        "Density of this ingredient."),
};

constexpr Row<MixingTable> mixing_rows[] = {
    text<&MixingTable::name>("name", required, "\"duct fogging strength\"",
                             "What the label calls this strength."),
    amount<&MixingTable::makes, &MixingTable::makes_text>("makes", "\"1 gal\"",
                                                          "The batch that the steps make."),
    tables<&MixingTable::steps, &mixing_step_table>("step", required, "[[mixing.step]]", "mixing step",
                                                    "What to measure out, in the label's order."),
};

/// Volumes of watery liquids add up within a few per cent; more than a tenth is a slipped digit or unit.
void check_mixing(Reading& reading, const toml::table& node, const MixingTable& mixing) {
  LiquidVolume sum;
  for (const MixingStep& step : mixing.steps) {
    if (step.amount.si() <= 0) return;  // that step has a fault of its own
    sum += step.amount;
  }
  if (mixing.makes.si() <= 0 || mixing.steps.empty() || std::abs(sum / mixing.makes - 1) <= 0.1) return;
  reading.fault(place_of(node, "makes"),
                fmt::format("makes: the steps add up to {:.4g} mL, not to {}", sum.value_in(unit::millilitre),
                            in_quotes(mixing.makes_text)),
                "compare each amount and its unit with the label");
}

}  // namespace

constinit const Table<MixingStep> mixing_step_table{"mixing step", "[[mixing.step]]",
                                                    "One step of a mixing table, in order.", step_rows};
constinit const Table<MixingTable> mixing_table{"mixing", "[[mixing]]",
                                                "One row of the label's mixing table: what makes one batch.",
                                                mixing_rows, check_mixing};

}  // namespace fogwright::profile
