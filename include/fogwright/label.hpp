// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Product labels, as the law of the job.
///
/// A profile is a TOML file that a person copies from the product's label and safety data sheet; docs/labels.md
/// describes every member. Reading reports every fault of the file in one run. What the label leaves open stays
/// open here (std::nullopt): later layers fall back on common practice and say so, or refuse.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/quantity.hpp"

namespace fogwright {

/// 40 CFR 156.64: one word a label.
enum class SignalWord { none, caution, warning, danger };

enum class StrengthClass { ready_to_use, dilutable, high_strength_oxidiser };

enum class UseSite { hvac_ductwork, hard_surface, room_air, other };
enum class Method { fogging, spraying, wiping, other };
enum class DuctMaterial { bare_metal, flexible, duct_board, lined };

/// How an active leaves the fog.
enum class Release {
  vapour,  ///< counts as gas or vapour: exposure is computed from mass released and air volume
  mist,    ///< stays in droplets and their residue: exposure is the haze
};

/// Chemistry that decides what may not meet what. A product can carry several.
enum class Chemistry { hypochlorite, chlorite, acid, peroxide, peracid, quaternary_ammonium, alcohol, none };

/// An exposure limit that the label or data sheet itself prints.
struct PrintedLimit {
  std::optional<double> ppm;  ///< at 25 °C, 760 mmHg
  std::optional<MassConcentration> concentration;
};

struct Active {
  std::string name;                     ///< as the label prints it
  std::string cas;                      ///< "10049-04-4"; the key to the table of limits
  std::optional<double> mass_fraction;  ///< of the product as applied; nullopt: the label hides it
  Release release = Release::vapour;
  /// Gas or vapour that the mixed product can give off per mass of this active, 1 when it is the active itself.
  double yield = 1.0;
  std::optional<std::string> released_cas;  ///< what is given off, where that is another substance
  std::optional<std::string> released_name;
  std::optional<HoldTime> off_gassing;  ///< how long wet surfaces go on releasing it
  std::optional<PrintedLimit> eight_hour, short_term, ceiling, immediately_dangerous, occupant;
  std::optional<double> loss_per_hour;  ///< first-order loss other than ventilation; needs loss_source
  std::string loss_source;
};

/// One thing to measure out, in the order of the label.
struct MixingStep {
  std::string ingredient;  ///< "water", "Part A concentrate", "activator"
  LiquidVolume amount{};   ///< for one batch as printed
  std::string amount_text;
  std::string instruction;              ///< "into the water, never the other way round"
  std::optional<HoldTime> wait;         ///< before the next step
  std::optional<double> mass_fraction;  ///< of the active in this ingredient, for the check by mass
  std::optional<LiquidDensity> density;
};

/// One row of the label's mixing table: what makes one batch.
struct MixingTable {
  std::string name;  ///< "duct fogging strength"
  LiquidVolume makes{};
  std::string makes_text;
  std::vector<MixingStep> steps;
};

enum class Facepiece { none, filtering, half_mask, full_facepiece, powered, supplied_air, self_contained };

/// Gear for one kind of work, as the label or data sheet lists it, in its order.
struct Gear {
  std::vector<std::string> items;       ///< "chemical splash goggles", "nitrile gloves"
  std::optional<Facepiece> respirator;  ///< the least it demands
  std::vector<std::string> cartridges;  ///< label words: "organic vapor/acid gas", "P100"
};

struct StorageRange {
  std::optional<Temperature> low, high;
};

struct ShelfLife {
  std::optional<ShelfTime> sealed, opened, mixed;
};

/// 49 CFR 172.101 hazard class and packing group, from section 14 of the data sheet.
struct Transport {
  std::string hazard_class;   ///< "5.1", "8"; empty: not regulated
  std::string packing_group;  ///< "I", "II", "III"
  std::string un_number;      ///< "UN2984"
  bool poison_by_inhalation = false;
};

struct DirectedRate {
  double low_s_per_1000_sqft = 0;
  double high_s_per_1000_sqft = 0;
};

struct Label {
  std::string name;
  std::string maker;
  std::string registration;  ///< as the label prints it after "EPA Reg. No."
  SignalWord signal_word = SignalWord::none;
  StrengthClass strength = StrengthClass::ready_to_use;
  bool oxidiser = false;
  std::vector<Chemistry> chemistry;
  std::vector<UseSite> use_sites;
  std::vector<Method> methods;
  std::vector<DuctMaterial> duct_materials;               ///< surfaces the label names
  std::optional<DirectedRate> rate;                       ///< nullopt: the label is silent
  LiquidDensity density{1.0, unit::gram_per_millilitre};  ///< as applied
  std::optional<double> nonvolatile_fraction;             ///< by volume, of the product as applied
  std::optional<Length> droplet_diameter;                 ///< median, where the label or fogger data gives one
  std::vector<Active> actives;
  std::vector<MixingTable> mixing;
  Gear mixing_gear;
  Gear applying_gear;
  std::optional<HoldTime> empty_time;  ///< least time the building stays empty; nullopt: the label is silent
  std::string empty_time_source;       ///< "label", "data sheet, section 7"
  bool everyone_out = true;            ///< people and animals out while fogging
  std::optional<AirChanges> ventilation_air_changes;  ///< airing out that the label asks for
  std::string ventilation;                            ///< in the label's words
  StorageRange storage;
  ShelfLife shelf_life;
  Transport transport;
  std::vector<std::string> precautions;  ///< precautionary statements in the label's order
  std::vector<std::string> first_aid;
  std::vector<std::string> disposal;
  std::string label_date;       ///< ISO 8601 date
  std::string data_sheet_date;  ///< ISO 8601 date
};

/// Reads a profile. `file` is only used in Error::where ("file:line:column").
/// Errors: bad_label, every fault of the file, in order of line.
[[nodiscard]] tl::expected<Label, Faults> read_label(std::string_view toml_text, std::string_view file);

/// Whether the label can be planned with at all: ductwork as a use site, fogging as a method, and an empty time
/// for a high-strength oxidiser. Errors: label_forbids, label_incomplete.
[[nodiscard]] Result<void> may_fog_ducts(const Label& label);
/// Whether the label names this duct material. Duct board and lined ducts need to be named (EPA-402-K-97-002
/// knew of no product registered for them); bare metal and flexible duct pass where the label names no
/// material.
[[nodiscard]] Result<void> may_fog_material(const Label& label, DuctMaterial material);

/// Two products (or two ingredients) that must not meet. Errors: incompatible_chemistry.
[[nodiscard]] Result<void> may_meet(const Label& one, const Label& other);

[[nodiscard]] std::string_view signal_word_name(SignalWord word) noexcept;      ///< "DANGER"; empty for none
[[nodiscard]] std::string_view strength_name(StrengthClass strength) noexcept;  ///< "high-strength-oxidiser"
[[nodiscard]] std::string_view duct_material_name(DuctMaterial material) noexcept;
[[nodiscard]] std::string_view facepiece_name(Facepiece facepiece) noexcept;  ///< "half mask"

}  // namespace fogwright
