// SPDX-License-Identifier: Apache-2.0
#include "label/tables.hpp"

namespace fogwright::profile {
namespace {

void read_format(Reading& reading, const Spot& spot, Label&) {
  if (spot.node->value_exact<std::int64_t>() != 1) reading.fault(spot, "this program reads format 1 only");
}

constexpr Row<Label> label_rows[] = {
    {{"format", Shape::format, required, "1", "The format of this file."}, read_format},
    text<&Label::name>("name", required, "\"Fenmist RTU\"", "The product's name as the label prints it."),
    text<&Label::maker>("maker", required, "\"Mirkholm Preparations\"", "Who makes it."),
    text<&Label::registration>("registration", required, "\"DEMO-1\"",
                               "What stands after \"EPA Reg. No.\" (40 CFR 156.10(e))."),
    word<&Label::signal_word>("signal_word", required, "\"caution\"",
                              "The label's one signal word (40 CFR 156.64)."),
    word<&Label::strength>("strength_class", required, "\"ready-to-use\"", "How strong it is when it is used."),
    value<&Label::oxidiser, read_flag>("oxidiser", Shape::flag, required, "false",
                                       "Whether label or data sheet calls it an oxidiser."),
    words<&Label::chemistry>(
        "chemistry", required, "[\"quaternary-ammonium\"]",
        "Everything in it, or in its mix, that may not meet something else; `none` alone if nothing."),
    words<&Label::use_sites>(
        "use_sites", required, "[\"hvac-ductwork\"]",
        "Where the label allows its use. Without `hvac-ductwork` it can't be planned with."),
    words<&Label::methods>(
        "methods", required, "[\"fogging\"]",
        "How the label allows it to be applied. Without `fogging` it can't be planned with."),
    words<&Label::duct_materials>("duct_materials", optional, "[\"bare-metal\"]",
                                  "Duct surfaces that the label names. Left out: it names none."),
    table<&Label::rate, &rate_table>("rate", optional, "[rate]", "rate", "The directed rate."),
    quantity<&Label::density, read_liquid_density>("density", required, "\"1.00 g/mL\"", "Density as applied."),
    value<&Label::nonvolatile_fraction, read_fraction>(
        "nonvolatile_fraction", Shape::fraction, optional, "\"0.5 %\"",
        "What stays when a droplet has dried, share by volume as applied."),
    quantity<&Label::droplet_diameter, read_length>(
        "droplet_diameter", optional, "\"20 um\"",
        "Median droplet diameter, where label or fogger data give one."),
    tables<&Label::actives, &active_table>("active", required, "[[active]]", "active",
                                           "The active ingredients."),
    tables<&Label::mixing, &mixing_table>("mixing", optional, "[[mixing]]", "mixing",
                                          "The label's mixing table."),
    group<Label, &gear_table>("gear", required, "[gear]", "gear", "What to wear."),
    group<Label, &reentry_table>("reentry", optional, "[reentry]", "reentry",
                                 "Leaving, airing out, coming back."),
    table<&Label::storage, &storage_table>("storage", optional, "[storage]", "storage",
                                           "Temperatures of storage."),
    table<&Label::shelf_life, &shelf_life_table>("shelf_life", optional, "[shelf_life]", "shelf_life",
                                                 "How long it keeps."),
    table<&Label::transport, &transport_table>("transport", optional, "[transport]", "transport",
                                               "How it is classed for transport."),
    statements<&Label::precautions>("precautions", required, "[\"Avoid breathing the mist.\"]",
                                    "Precautionary statements, in the label's words and order."),
    statements<&Label::first_aid>("first_aid", required,
                                  "[\"If in eyes: rinse slowly with water for 15 minutes.\"]",
                                  "First aid statements, in the label's words and order."),
    statements<&Label::disposal>("disposal", required, "[\"Do not reuse the container.\"]",
                                 "Disposal statements, in the label's words and order."),
    group<Label, &dates_table>("dates", required, "[dates]", "dates", "Which papers this was copied from."),
};

}  // namespace

constinit const Table<Label> label_table{"label", "the profile", "The top level, above every header.",
                                         label_rows, check_agreement};

const std::vector<TableFacts>& label_member_table() {
  static const std::vector<TableFacts> all{
      label_table.facts(),   rate_table.facts(),        active_table.facts(),     printed_limit_table.facts(),
      mixing_table.facts(),  mixing_step_table.facts(), gear_table.facts(),       gear_kind_table.facts(),
      reentry_table.facts(), storage_table.facts(),     shelf_life_table.facts(), transport_table.facts(),
      dates_table.facts()};
  return all;
}

}  // namespace fogwright::profile
