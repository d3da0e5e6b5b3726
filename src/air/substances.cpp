// SPDX-License-Identifier: Apache-2.0
// The shipped limits, one table. Each value stands with its authority, its citation and the day it was read;
// what was not read at a source says "from memory". Limits change: docs/formulas.md tells users to check the
// current text. ACGIH values are licensed and change yearly; users enter them themselves.
#include <algorithm>

#include "fogwright/air.hpp"

namespace fogwright {

namespace {

using enum LimitKind;

constexpr std::string_view pel = "OSHA PEL";
constexpr std::string_view rel = "NIOSH REL";
constexpr std::string_view idlh = "NIOSH IDLH";

constexpr std::string_view table_z1 = "29 CFR 1910.1000 Table Z-1";
constexpr std::string_view guide = "NIOSH Pocket Guide to Chemical Hazards";
constexpr std::string_view idlh_documents = "NIOSH, Documentation for IDLH Concentrations (1994)";

constexpr std::string_view read_day = "2026-11-25";
constexpr std::string_view memory = "from memory";

constexpr LimitRow chlorine_dioxide[] = {
    {eight_hour, pel, 0.1, 0.3, table_z1, read_day},
    {eight_hour, rel, 0.1, 0.3, guide, read_day},
    {short_term, rel, 0.3, 0.9, guide, read_day},
    {immediately_dangerous, idlh, 5, {}, idlh_documents, read_day},
};
constexpr LimitRow chlorine[] = {
    {ceiling, pel, 1, 3, table_z1, read_day},
    {ceiling, rel, 0.5, 1.45, guide, read_day},
    {immediately_dangerous, idlh, 10, {}, idlh_documents, read_day},
};
constexpr LimitRow hydrogen_peroxide[] = {
    {eight_hour, pel, 1, 1.4, table_z1, read_day},
    {eight_hour, rel, 1, 1.4, guide, read_day},
    {immediately_dangerous, idlh, 75, {}, idlh_documents, read_day},
};
constexpr LimitRow acetic_acid[] = {
    {eight_hour, pel, 10, 25, table_z1, read_day},
    {eight_hour, rel, 10, 25, guide, read_day},
    {short_term, rel, 15, 37, guide, read_day},
    {immediately_dangerous, idlh, 50, {}, idlh_documents, read_day},
};
constexpr LimitRow ozone[] = {
    {eight_hour, pel, 0.1, 0.2, table_z1, read_day},
    {ceiling, rel, 0.1, 0.2, guide, read_day},
    {immediately_dangerous, idlh, 5, {}, idlh_documents, read_day},
};
constexpr LimitRow ethanol[] = {
    {eight_hour, pel, 1000, 1900, table_z1, read_day},
    {eight_hour, rel, 1000, 1900, guide, read_day},
    {immediately_dangerous, idlh, 3300, {}, idlh_documents, read_day},
};
constexpr LimitRow propanol_2[] = {
    {eight_hour, pel, 400, 980, table_z1, read_day},
    {eight_hour, rel, 400, 980, guide, read_day},
    {short_term, rel, 500, 1225, guide, read_day},
    {immediately_dangerous, idlh, 2000, {}, idlh_documents, read_day},
};
// OSHA's 1989 ceiling of 0.2 ppm for glutaraldehyde was vacated; peracetic acid's draft IDLH was never made
// final.
constexpr LimitRow glutaraldehyde[] = {
    {ceiling, rel, 0.2, 0.8, guide, read_day},
};
constexpr LimitRow formaldehyde[] = {
    {eight_hour, pel, 0.75, {}, "29 CFR 1910.1048(c)", read_day},
    {eight_hour, rel, 0.016, {}, guide, read_day},
    {short_term, pel, 2, {}, "29 CFR 1910.1048(c)", read_day},
    {ceiling, rel, 0.1, {}, guide, read_day},
    {immediately_dangerous, idlh, 20, {}, idlh_documents, read_day},
};
constexpr LimitRow ammonia[] = {
    {eight_hour, pel, 50, 35, table_z1, read_day},
    {eight_hour, rel, 25, 18, guide, read_day},
    {short_term, rel, 35, 27, guide, read_day},
    {immediately_dangerous, idlh, 300, {}, guide, read_day},
};

constexpr std::string_view guide_memory = "NIOSH Pocket Guide to Chemical Hazards, from memory";
constexpr auto published = CartridgeAdvice::published;
constexpr auto none_published = CartridgeAdvice::none_published;
constexpr auto supplied_air_only = CartridgeAdvice::supplied_air_only;

// Molar masses from the IUPAC abridged atomic weights (from memory).
constexpr Substance substances[] = {
    {"chlorine dioxide", "10049-04-4", 67.448, {}, published, "chlorine dioxide", guide, chlorine_dioxide},
    {"chlorine", "7782-50-5", 70.90, {}, published, "chlorine", guide, chlorine},
    {"hydrogen peroxide", "7722-84-1", 34.014, {}, supplied_air_only, "", guide_memory, hydrogen_peroxide},
    {"peracetic acid", "79-21-0", 76.051, {}, none_published, "", memory, {}},
    {"acetic acid", "64-19-7", 60.052, {}, published, "organic vapor", guide_memory, acetic_acid},
    {"ozone", "10028-15-6", 47.997, {}, published, "ozone", guide, ozone},
    {"ethanol", "64-17-5", 46.069, 3.3, supplied_air_only, "", guide, ethanol},
    {"2-propanol", "67-63-0", 60.096, 2.0, published, "organic vapor", guide, propanol_2},
    {"glutaraldehyde", "111-30-8", 100.117, {}, none_published, "", guide, glutaraldehyde},
    {"formaldehyde", "50-00-0", 30.026, {}, supplied_air_only, "", guide, formaldehyde},
    {"ammonia", "7664-41-7", 17.031, {}, published, "ammonia", guide, ammonia},
    {"propylene glycol", "57-55-6", 76.095, {}, none_published, "", memory, {}},
    {"triethylene glycol", "112-27-6", 150.174, {}, none_published, "", memory, {}},
    {"sodium hypochlorite", "7681-52-9", 74.439, {}, none_published, "", memory, {}},
    {"hypochlorous acid", "7790-92-3", 52.457, {}, none_published, "", memory, {}},
};

}  // namespace

std::span<const Substance> shipped_substances() { return substances; }

const Substance* find_substance(std::string_view cas) {
  const auto* found = std::find_if(std::begin(substances), std::end(substances),
                                   [cas](const Substance& substance) { return substance.cas == cas; });
  return found == std::end(substances) ? nullptr : found;
}

}  // namespace fogwright
