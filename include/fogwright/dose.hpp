// SPDX-License-Identifier: Apache-2.0
#pragma once

/// How long to fog at each return, how much product that takes, and how to mix it.

#include <chrono>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "fogwright/label.hpp"

namespace fogwright {

// --- Splitting a whole number of seconds --------------------------------------------------------------------

/// Largest remainder (Hamilton): shares sum to `total`, each is the floor or the ceiling of its exact share,
/// ties go to the earlier weight. A weight of zero gets nothing. Exact in integers; total >= 0, weights >= 0,
/// at least one > 0. Errors: out_of_range.
[[nodiscard]] Result<std::vector<std::int64_t>> apportion(std::int64_t total,
                                                          std::span<const std::int64_t> weights);

enum class SplitRule { equal, face_area, airflow };
[[nodiscard]] std::string_view split_rule_name(SplitRule rule) noexcept;  ///< "equal", "face", "airflow"

struct ReturnIntake {
  std::string name;
  std::optional<FaceArea> face;
  std::optional<AirFlow> airflow;
};

/// One air handler with its returns.
struct AirSystem {
  std::string name;
  FloorArea area{};
  std::vector<ReturnIntake> returns;
  DuctMaterial material = DuctMaterial::bare_metal;
};

/// Seconds per 1,000 sq ft of conditioned floor area.
struct RateBand {
  double low = 45;
  double high = 60;
  Basis basis = Basis::common_practice;
};
/// The label's directed rate, else 45 to 60 s (common practice, no source).
[[nodiscard]] RateBand rate_band(const Label& label);

/// Where in the band to aim; a number is seconds per 1,000 sq ft and must lie inside it.
struct RateChoice {
  enum class Point { low, middle, high, exact } point = Point::middle;
  double exact = 0;
};

struct SecondsBand {
  /// Whole seconds, rounded up; where the band is a single rate, rounded down like `high`.
  std::int64_t low = 0;
  std::int64_t high = 0;  ///< whole seconds, rounded down
  friend bool operator==(const SecondsBand&, const SecondsBand&) = default;
};

struct ReturnDose {
  std::string name;
  std::int64_t seconds = 0;
  /// Its shares of the system's low and high seconds, each within a second of exact, widened by the one second
  /// that a share can lose as the total grows (Alabama paradox): `seconds` always lies inside.
  SecondsBand band;
};

struct SystemDose {
  std::string name;
  FloorArea area{};
  SecondsBand band;
  std::int64_t target_seconds = 0;
  std::vector<ReturnDose> returns;
  bool short_share = false;  ///< a return gets less time than a valve can be worked in
};

struct DoseLimits {
  std::int64_t shortest_share_seconds = 5;  ///< policy: a share too short to work the valve is a warning
  bool large = false;                       ///< allow more than 200,000 sq ft in one system
};

/// Aims at the low or high end of the band, at its middle rounded down, or at an exact rate rounded to the
/// nearest second of the band. Face areas weigh in whole square millimetres, airflows in whole millilitres a
/// second. Errors: out_of_range (area not in (0, 200,000 sq ft], returns not in 1..200, no whole second in the
/// band, a band that is not 0 < low <= high, a face area or airflow that is zero or absurd), rate_outside_band,
/// missing_value (a return without a face area or airflow, when splitting by it).
[[nodiscard]] Result<SystemDose> dose_system(const AirSystem& system, const RateBand& band,
                                             const RateChoice& choice, SplitRule split,
                                             const DoseLimits& limits = {});

// --- The fogger ---------------------------------------------------------------------------------------------

/// One catch test: the fog caught in a measuring vessel over a timed run.
struct CatchTest {
  LiquidVolume caught{};
  FogTime time{};
};

/// What a fogger puts out, with its spread.
struct Calibration {
  LiquidFlow flow{};  ///< ratio of all that was caught to all the time
  /// 95 % bounds of the mean (Student t), none below zero. A single run and a flow that was entered tell
  /// nothing about their spread: both bounds equal the flow.
  LiquidFlow low{}, high{};
  double relative_spread = 0;  ///< standard deviation of the single runs over their mean; 0 with fewer than two
  int runs = 0;                ///< 0 where nobody measured
  Basis basis = Basis::measured;
  bool large_spread = false;  ///< more than 10 % between runs, or fewer than three runs
};

/// Errors: missing_value (no run), out_of_range (a volume or a time that is zero, a flow beyond 20 L/min).
[[nodiscard]] Result<Calibration> calibrate(std::span<const CatchTest> runs);

/// Least squares through the origin: slope, its standard error, residual standard deviation.
struct OriginFit {
  double slope = 0, standard_error = 0, residual_deviation = 0;
};
/// Errors: missing_value with fewer than two points or unequal counts, out_of_range where all x are zero or one
/// is not finite. Checked against NIST StRD NoInt1 and NoInt2.
[[nodiscard]] Result<OriginFit> fit_through_origin(std::span<const double> x, std::span<const double> y);

/// Where nobody measured: a US gallon does 10 to 12 jobs (common practice, no source). A job is taken as 2,400
/// sq ft at the middle of the band (our assumption). The flow is the one of 10 jobs, low is the one of 12.
[[nodiscard]] Calibration gallon_rule();
/// A flow that someone typed. Errors: out_of_range when zero or beyond 20 L/min.
[[nodiscard]] Result<Calibration> entered_flow(LiquidFlow flow);

struct FogVolume {
  LiquidVolume target{};  ///< flow × target time
  LiquidVolume high{};    ///< upper bound of the flow × the high end of the band
  LiquidVolume low{};     ///< lower bound of the flow × target time
};
[[nodiscard]] FogVolume fog_volume(const Calibration& calibration, std::int64_t target_seconds,
                                   std::int64_t high_seconds);

// --- The route ----------------------------------------------------------------------------------------------

struct Fogger {
  std::optional<LiquidVolume> tank;  ///< nullopt: not known
  std::optional<Mass> empty_mass;
  std::optional<Mass> carry_limit;  ///< policy; needs empty_mass
};

struct RouteLoad {
  LiquidVolume needed{};                ///< sum of the high-band volumes and the reserve
  std::int64_t needed_microlitres = 0;  ///< rounded up
  /// What one fill holds at most by tank and by weight carried; `needed` where neither is known.
  LiquidVolume fill{};
  int fills = 1;       ///< how often the tank is filled
  Mass liquid_mass{};  ///< of the largest fill of this load
  /// More than 1/2 US gal in one fill (common practice, no source): needless weight.
  bool above_usual_fill = false;

  /// How `fill` is told: a limit rounds down, the load itself must suffice and rounds up.
  [[nodiscard]] Rounding fill_rounding() const { return fill == needed ? Rounding::up : Rounding::down; }
  [[nodiscard]] std::int64_t fill_in(Unit<LiquidVolume::dimension> u) const {
    return fill == needed ? fill.ceil_in(u) : fill.floor_in(u);
  }
};

/// `reserve` is a fraction of the sum (0 to 1). Errors: missing_value (no job, a carry limit without the empty
/// mass), out_of_range (a carry limit that leaves nothing above the empty fogger, reserve outside 0..1, a
/// volume, tank or density that is not above zero, more than 1,000 fills).
[[nodiscard]] Result<RouteLoad> route_load(std::span<const LiquidVolume> high_volumes, double reserve,
                                           LiquidDensity density, const Fogger& fogger);

// --- Mixing -------------------------------------------------------------------------------------------------

/// m1 w1 = m2 w2, volumes by density (they do not add).
struct Dilution {
  LiquidVolume concentrate{};
  Mass concentrate_mass{};
  Mass diluent_mass{};
  LiquidVolume naive_concentrate{};  ///< C1·V1 = C2·V2 on mass fractions: shown for reference only
};
/// Errors: out_of_range (fractions outside (0, 1], target above the concentrate, volume or density not
/// positive).
[[nodiscard]] Result<Dilution> dilute(LiquidVolume make, double target_fraction, LiquidDensity target_density,
                                      double concentrate_fraction, LiquidDensity concentrate_density);

/// Largest mass of chlorine dioxide that acid can free from a mass of sodium chlorite:
/// 5 ClO2(-) + 4 H(+) -> 4 ClO2 + Cl(-) + 2 H2O, g per g. An upper bound on gas; no statement on efficacy.
[[nodiscard]] double chlorite_acid_yield() noexcept;

/// Trade per cent of a hypochlorite (g/L available chlorine / 10) to mass fractions.
struct HypochloriteStrength {
  double available_chlorine_fraction = 0;
  double sodium_hypochlorite_fraction = 0;
};
/// Errors: out_of_range (trade per cent not in (0, 30], density not 0.9 to 1.5 g/mL).
[[nodiscard]] Result<HypochloriteStrength> hypochlorite_strength(double trade_percent, LiquidDensity density);

struct MixingSheetLine {
  std::string ingredient;
  /// Scaled to the batch, in tenths of a millilitre: water rounds up, everything else down, so that the mix is
  /// never stronger than the label's. In whole label batches the label's own amounts stand.
  LiquidVolume amount{};
  std::string instruction;
  std::optional<HoldTime> wait;
};

/// What to measure out, in the label's order, in which gear.
struct MixingSheet {
  std::string table;
  LiquidVolume makes{};
  int batches = 1;  ///< 1 where the batch was scaled, else whole label batches
  std::vector<MixingSheetLine> lines;
  Gear gear;
  std::optional<ShelfTime> life;          ///< of the mix, from the label
  std::optional<double> active_fraction;  ///< worked out by mass where the label gives strengths and densities
};
/// Scales the label's own table to exactly `make`; where its smallest amount would fall below 1 mL, to whole
/// label batches of at least `make`. Water without a density counts as 1 g/mL. Errors: label_incomplete (the
/// label has no mixing table, or one without amounts), not_found (no table of that name), missing_value
/// (several tables and no name), out_of_range (`make` not in (0, 1,000 L]).
[[nodiscard]] Result<MixingSheet> mixing_sheet(const Label& label, LiquidVolume make,
                                               std::string_view table = {});

/// What one batch of a table makes, as the label prints it: how much to make where nobody says it. Without such
/// a table a litre, of which mixing_sheet then says what is wrong.
[[nodiscard]] LiquidVolume label_batch(const Label& label, std::string_view table = {});

// --- Spread -------------------------------------------------------------------------------------------------

struct SpreadInput {
  Calibration calibration;
  std::int64_t target_seconds = 0;
  double time_standard_deviation_s = 1.0;   ///< how well a person keeps the time (assumed)
  double active_relative_deviation = 0.05;  ///< of the strength as applied (assumed)
};
/// 95 % interval of a simulated product of factors (JCGM 101). Seeded, so the same input gives the same answer.
struct SpreadBand {
  double mean = 0, deviation = 0, low = 0, high = 0;
};
/// Relative dose (1 = as planned) from the spread of flow, time and strength, each independent. The flow of one
/// job is normal with the scatter of a single run and of the mean where two runs or more were made, else
/// rectangular between the calibration's bounds. Fewer than 1,000 draws count as 1,000. Precondition: a flow
/// and a target time above zero.
[[nodiscard]] SpreadBand dose_spread(const SpreadInput& input, int draws = 10'000, std::uint64_t seed = 1);

}  // namespace fogwright
