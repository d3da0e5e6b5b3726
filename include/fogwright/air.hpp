// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the fog does to the air: concentration over time, limits, haze, flammability, moisture.
///
/// One well-mixed zone, closed form over phases of constant ventilation and emission; docs/formulas.md gives
/// the formulas with their sources and where they stop being valid. mg/m3 is the canonical unit; a limit's ppm
/// is defined at 25 °C and 760 mmHg. Everything errs to the safe side: times long, concentrations high.

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/label.hpp"

namespace fogwright {

// --- Concentration over time --------------------------------------------------------------------------------

/// A stretch of time with constant ventilation, loss and emission.
struct Phase {
  double hours = 0;                    ///< may be infinite for the last one
  double removal_per_hour = 0;         ///< air changes / mixing factor + first-order loss
  double emission_mg_per_m3_hour = 0;  ///< emission over the free volume
};

/// Concentration in mg/m3 through consecutive phases, in closed form. Time runs in hours from the start of the
/// first phase.
class ConcentrationCurve {
 public:
  static constexpr std::size_t most_phases = 8;
  /// Precondition: at most `most_phases` phases, nothing negative. Nothing is known of the time after a last
  /// phase that ends: the concentration is held there.
  ConcentrationCurve(double start_mg_per_m3, std::span<const Phase> phases);
  [[nodiscard]] double at(double hours) const;
  [[nodiscard]] double peak() const;
  /// The highest concentration from `hours` on.
  [[nodiscard]] double peak_from(double hours) const;
  /// Earliest time from which the concentration stays at or below the limit for good; 0 when it never exceeds
  /// it; infinity when it never comes down.
  [[nodiscard]] double stays_below_from(double limit_mg_per_m3) const;
  /// Integral from 0 to `hours` (may be infinity), mg/m3 × h.
  [[nodiscard]] double integral(double hours) const;

 private:
  std::array<Phase, most_phases> phases_{};
  std::array<double, most_phases + 1> start_{};   ///< concentration at the start of each phase
  std::array<double, most_phases + 1> begins_{};  ///< hours
  std::size_t count_ = 0;
};

// --- Limits -------------------------------------------------------------------------------------------------

inline constexpr double limit_molar_volume_l = 24.45;  ///< L/mol at 25 °C, 760 mmHg, as US limit tables use it

[[nodiscard]] double mg_per_m3_from_ppm(double ppm, double molar_mass);  ///< ppm × M / 24.45
[[nodiscard]] double ppm_from_mg_per_m3(double mg_per_m3, double molar_mass);
/// What a meter at the site's own temperature and pressure shows. Not for comparing with a limit.
[[nodiscard]] double meter_ppm(double mg_per_m3, double molar_mass, Temperature temperature, Pressure pressure);

enum class LimitKind { eight_hour, short_term, ceiling, immediately_dangerous };

/// One published value. Where both columns are printed ppm controls, and the smaller of the two readings is
/// used.
struct LimitRow {
  LimitKind kind{};
  std::string_view authority;  ///< "OSHA PEL", "NIOSH REL", "NIOSH IDLH"
  std::optional<double> ppm;
  std::optional<double> mg_per_m3;
  std::string_view source;   ///< citation
  std::string_view read_on;  ///< ISO date the value was read; "from memory" where it was not
};

/// What a published recommendation says air-purifying cartridges can do against a substance.
enum class CartridgeAdvice { published, none_published, supplied_air_only };

struct Substance {
  std::string_view name, cas;
  double molar_mass = 0;                          ///< g/mol
  std::optional<double> lower_flammable_percent;  ///< volume % in air at 25 °C
  CartridgeAdvice advice = CartridgeAdvice::none_published;
  std::string_view cartridge;  ///< label words that cover it, e.g. "chlorine dioxide"
  std::string_view cartridge_source;
  std::span<const LimitRow> limits;
};

/// The shipped table: one file, each value with source and date (src/air/substances.cpp).
[[nodiscard]] std::span<const Substance> shipped_substances();

/// A limit that the user entered (ACGIH values are licensed and change yearly, so none is shipped).
struct EnteredLimit {
  std::string cas;
  LimitKind kind{};
  std::optional<double> ppm, mg_per_m3;
  std::string source;
  std::string date;
};
/// Reads a TOML file of [[limit]] tables. Errors: bad_site, all faults with line and column.
[[nodiscard]] tl::expected<std::vector<EnteredLimit>, Faults> read_limits(std::string_view toml_text,
                                                                          std::string_view file);

[[nodiscard]] const Substance* find_substance(std::string_view cas);

/// The limit that governs and where it comes from. The views point into the shipped table or into the entered
/// limits, which must outlive it.
struct GoverningLimit {
  MassConcentration value{};
  std::string_view authority;  ///< as in LimitRow, or "entered", or "label"
  std::string_view source;
};
/// The lowest of the shipped, entered and label-printed values of a kind; nullopt where there is none.
[[nodiscard]] std::optional<GoverningLimit> governing_limit(const Active& active, LimitKind kind,
                                                            std::span<const EnteredLimit> entered);

// --- One building ------------------------------------------------------------------------------------------

/// The building's air. Defaults err to the safe side; docs/formulas.md gives their sources.
struct Zone {
  AirVolume gross{};
  Length ceiling{8, unit::foot};            ///< how far the haze falls
  double free_fraction = 0.89;              ///< furnished rooms, measured 0.89 +/- 0.05
  AirChanges closed{0.18, unit::per_hour};  ///< while fogging and holding: 10th percentile of US homes
  std::optional<AirChanges> airing;         ///< while airing out; nullopt: nobody airs out
  std::optional<HoldTime> airing_from;      ///< after fog-off; nullopt: when the label's empty time ends
  double mixing_factor = 1.0;               ///< K >= 1: ventilation counts as air changes / K
  Temperature temperature = Temperature::celsius(25);
  Pressure pressure{1.0, unit::atmosphere};
  double occupant_factor = 10;                      ///< policy: lowest 8 h limit / factor
  HoldTime default_off_gassing{180, unit::minute};  ///< for acid-activated chlorite whose label gives none
};
/// Errors: out_of_range: volume 1 m3 .. 10 million m3, ceiling 1..100 m, free fraction 0.05..1, air changes
/// 0..100 per hour, mixing factor 1..10 (as published), temperature -10..50 °C, pressure 60..110 kPa, occupant
/// factor 1..1,000, times up to 30 days.
[[nodiscard]] Result<void> check_zone(const Zone& zone);

/// Time after fog-off. Infinite where the model never gets there.
struct TimeToLimit {
  HoldTime at_once{};      ///< all of it in the air at fog-off
  HoldTime off_gassing{};  ///< released evenly over the off-gassing time from fog-off
  [[nodiscard]] HoldTime longer() const { return at_once < off_gassing ? off_gassing : at_once; }
};

struct ActiveAir {
  const Active* active = nullptr;        ///< of the label, which must outlive this
  const Substance* substance = nullptr;  ///< what is in the air; nullptr: not in the table
  bool estimable = false;                ///< false: strength hidden, or no limit known, or not in the table
  Mass released{};
  MassConcentration peak{};   ///< all at once at fog-off, no ventilation before
  double peak_ppm = 0;        ///< at 25 °C, 760 mmHg
  double peak_meter_ppm = 0;  ///< as a meter at the site shows it
  std::optional<GoverningLimit> worker, short_term, ceiling, immediately_dangerous;
  /// The label's own, else the lowest 8 h limit (where there is none: the strictest short-term or ceiling
  /// limit) over the occupant factor.
  std::optional<MassConcentration> occupant;
  Basis occupant_basis = Basis::policy;
  double hazard_ratio = 0;  ///< peak / strictest of worker, short-term and ceiling limit
  bool above_immediately_dangerous = false;
  std::optional<TimeToLimit> to_worker, to_occupant;
};

/// Droplets and dried residue as two bounds on how long the haze stays (stirred settling plus ventilation).
/// Droplets: all the liquid at the droplet's size. Residue: what does not evaporate, at the size it dries to. A
/// small residue settles more slowly, a large one starts higher: where the label hides the non-volatile share,
/// the one that leaves the haze longest is taken, between the sum of the mist actives and 5 %, or that sum if
/// larger.
struct Haze {
  MassConcentration droplets{}, residue{};  ///< at fog-off
  MassConcentration limit{};  ///< particulates not otherwise regulated, respirable, over the occupant factor
  HoldTime droplet_time{}, residue_time{};  ///< to the limit
  Length droplet_diameter{}, residue_diameter{};
  Basis diameter_basis = Basis::assumed;
  double nonvolatile_fraction = 0;  ///< by volume
  Basis nonvolatile_basis = Basis::assumed;
  [[nodiscard]] HoldTime longer() const { return droplet_time < residue_time ? residue_time : droplet_time; }
};

struct Flammable {
  bool present = false;    ///< the product carries a flammable active
  double share_house = 0;  ///< of the lower flammable limit, averaged over the house (hides the hazard)
  std::optional<double> share_duct;     ///< at the fan's airflow; nullopt: airflow not known
  double seconds_to_tenth_fan_off = 0;  ///< to 10 % in the plenum with the fan off
  AirFlow least_airflow{};              ///< for 10 % in the duct
  bool plan_limit_exceeded = false;     ///< more than 10 % in the duct, or airflow not known
  bool stop_limit_exceeded = false;     ///< more than 25 % in the duct
};

struct Moisture {
  double relative_humidity_before = 0, relative_humidity_after = 0;  ///< fractions, after may exceed 1
  Temperature dew_point_after{};
  Mass condensate{};                         ///< what the air cannot hold
  std::optional<bool> wets_coldest_surface;  ///< nullopt: no surface temperature given
};

struct AirInput {
  const Label* label = nullptr;
  LiquidVolume volume{};       ///< the high volume
  FogTime fog_time{};          ///< all returns of the building together
  LiquidFlow flow{};           ///< zero: volume over fog time
  std::optional<AirFlow> fan;  ///< measured airflow of the weakest system
  AirVolume plenum{1.0, unit::cubic_metre};
  double relative_humidity = 0.5;
  std::optional<Temperature> coldest_surface;
  std::span<const EnteredLimit> entered_limits;
};

/// Airing out that the time was reckoned with.
struct PlannedAiring {
  AirChanges changes{};
  HoldTime from{};  ///< after fog-off
};
struct AirResult {
  AirVolume gross{}, free{};
  std::vector<ActiveAir> actives;  ///< what goes into the air as vapour, in the label's order; mist is haze
  double mixture_index = 0;  ///< sum of peak / worker limit (29 CFR 1910.1000(d)(2)); over those that have one
  std::optional<TimeToLimit> to_mixture_occupant;  ///< until the sum of C / occupant limit is at most 1
  bool estimable = true;                           ///< every vapour active could be estimated
  bool above_immediately_dangerous = false;
  Haze haze;
  Flammable flammable;
  Moisture moisture;
  std::optional<PlannedAiring> airing;  ///< nothing where nobody airs out
  /// The time that the model asks for: the longest over actives, the mixture and both releases; infinite where
  /// the air never clears; zero where nothing can be estimated (the caller must look at `estimable`).
  HoldTime model_time{};
};
/// Precondition: input.label. Errors: as check_zone; out_of_range (volume up to 100 m3, humidity 0..1, plenum 1
/// L to 1,000 m3, airflow, flow, coldest surface -100..100 °C, a label whose figures are not finite or
/// negative); missing_value (a flammable product without flow or fog time).
[[nodiscard]] Result<AirResult> air_after_fogging(const Zone& zone, const AirInput& input);

/// The same with the inputs at their friendly and at their hostile ends.
struct AirCases {
  HoldTime low{}, high{};                     ///< model_time
  MassConcentration low_peak{}, high_peak{};  ///< of the active with the highest hazard ratio
};
struct CaseSpread {
  AirChanges closed_high{0.45, unit::per_hour};  ///< median of US homes (from memory)
  double airing_relative = 0.5;                  ///< airing may be this much worse or better (assumed)
  double free_fraction_deviation = 0.05;         ///< of the measured 0.89
  LiquidVolume volume_low{}, volume_high{};      ///< zero: the volume of the input
};
struct AirWithCases {
  AirResult nominal;
  AirCases cases;
};
/// air_after_fogging and both cases of it. The high case is never below the nominal one, nor the low case above
/// it. Errors: as air_after_fogging; out_of_range (a spread outside 0..1, or one that leaves no free volume).
[[nodiscard]] Result<AirWithCases> air_with_cases(const Zone& zone, const AirInput& input,
                                                  const CaseSpread& spread);

// --- The inverse questions ----------------------------------------------------------------------------------

/// The least airing-out (air changes, and as airflow over the gross volume) that brings every active, and their
/// mixture, to the occupant limit by `deadline` after fog-off, both releases. Errors: as air_after_fogging;
/// out_of_range (deadline not after airing starts), label_incomplete (not estimable), not_found where 100 air
/// changes an hour cannot do it.
struct AiringNeed {
  AirChanges air_changes{};
  AirFlow airflow{};
};
[[nodiscard]] Result<AiringNeed> airing_for_deadline(const Zone& zone, const AirInput& input,
                                                     HoldTime deadline);
/// The largest volume of product whose air, mixture included, is at the occupant limits from `deadline` on:
/// exact, since the model is linear in dose; below the exact value where actives with different losses or
/// off-gassing times peak after the deadline. At most 100 m3. Errors: as air_after_fogging; out_of_range (input
/// volume zero, deadline not finite or negative), label_incomplete (not estimable), not_found (no active limits
/// the volume).
[[nodiscard]] Result<LiquidVolume> volume_for_deadline(const Zone& zone, const AirInput& input,
                                                       HoldTime deadline);

// --- Single formulas (docs/formulas.md) ---------------------------------------------------------------------

/// Minutes of ventilation that remove the fraction `efficiency` of an airborne contaminant, without a source.
[[nodiscard]] double purge_minutes(double air_changes_per_hour, double efficiency, double mixing_factor = 1.0);
/// Sum of concentration over limit. Sizes must match; limits above 0.
[[nodiscard]] double mixture_index(std::span<const double> concentrations, std::span<const double> limits);
/// Time-weighted average over eight hours from (concentration, hours) pairs.
[[nodiscard]] double eight_hour_average(std::span<const double> concentrations, std::span<const double> hours);
/// Terminal settling velocity in air at 20 °C, m/s: Stokes with slip, Schiller-Naumann drag above Re 0.1.
[[nodiscard]] double settling_velocity_m_s(Length diameter, double density_kg_m3 = 1000.0);
/// Cunningham slip correction (Hinds eq. 3.20).
[[nodiscard]] double slip_correction(Length diameter);
/// Saturation vapour pressure over water, Pa (Hyland and Wexler; over ice below the triple point).
[[nodiscard]] double saturation_pressure_pa(Temperature t);
/// kg of water vapour per kg of dry air.
[[nodiscard]] double humidity_ratio(double vapour_pressure_pa, Pressure pressure);
/// From the same formula as saturation_pressure_pa; the air temperature at or above saturation, never below
/// -100 °C.
[[nodiscard]] Temperature dew_point(Temperature t, double relative_humidity);
/// Lower flammable limit in g/m3 at 25 °C from volume per cent.
[[nodiscard]] double lower_flammable_g_m3(double volume_percent, double molar_mass);
/// The limit in a warmer or colder room: -0.0721 % of it per K above 25 °C (Zabetakis, from memory).
[[nodiscard]] double lower_flammable_percent_at(double volume_percent_25c, Temperature t);
/// Le Chatelier: sum of C_i / LFL_i, both in the same unit.
[[nodiscard]] double flammable_share(std::span<const double> concentrations,
                                     std::span<const double> lower_limits);
/// Density of aqueous hydrogen peroxide at 18 °C, g/mL, 0 to 100 % by mass (handbook table, from memory, linear
/// between rows).
[[nodiscard]] Result<LiquidDensity> peroxide_density(double mass_fraction);

}  // namespace fogwright
