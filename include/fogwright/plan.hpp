// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The plan of one job: everything the engine knows, put together. Pure; used by the command line, the server
/// and the browser alike.

#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "fogwright/gate.hpp"

namespace fogwright {

/// What the technician, the site file or the page hands in. Only the label, and for each system its area and
/// returns, must be given.
struct PlanRequest {
  std::shared_ptr<const Label> label;
  std::string label_name;  ///< as a site file names it; the caller finds and reads it
  std::vector<AirSystem> systems;
  SplitRule split = SplitRule::equal;
  RateChoice rate;
  DoseLimits limits;
  std::optional<Calibration> calibration;  ///< nullopt: the gallon rule, marked estimated
  Length ceiling{8.0, unit::foot};         ///< assumed unless given
  bool ceiling_given = false;
  std::optional<AirVolume> gross_volume;  ///< measured; outranks area × ceiling
  Zone zone;                              ///< `gross` is filled in by make_plan
  bool closed_air_changes_given = false;
  bool temperature_given = false;
  std::optional<AirFlow> airing_fan;  ///< measured; make_plan turns it into air changes
  std::optional<AirFlow> fan;
  AirVolume plenum{1.0, unit::cubic_metre};
  double relative_humidity = 0.5;
  std::optional<Temperature> coldest_surface;
  std::shared_ptr<const std::vector<EnteredLimit>> entered_limits;  ///< nullptr: none
  SiteFacts site;
  Policy policy;
  Fogger fogger;
  double reserve = 0.10;             ///< of the load (company policy)
  std::optional<HoldTime> deadline;  ///< asks: which airing-out makes this deadline?
  std::optional<HoldTime> fit_dose;  ///< asks: which volume fits this deadline?
  int spread_draws = 0;              ///< 0: no simulated spread
};

/// Something a person must know that does not stop the plan. The words are made by warning_words().
enum class WarningKind {
  do_not_enter,  ///< value: peak in ppm; subject: the active
  not_estimable,
  supplied_air,
  never_clears,
  long_model_hold,   ///< value: minutes
  airing_later,      ///< value: minutes after fog-off from which airing counts
  mixture,           ///< value: sum of concentration over limit
  flammable_stop,    ///< value: per cent of the lower flammable limit in the duct
  flammable_duct,    ///< value: likewise
  airflow_unproven,  ///< value: seconds to 10 % of the limit with the fan off
  condensation,      ///< value: relative humidity after fogging in per cent
  label_silent_on_hold,
  short_share,  ///< value: shortest share in seconds; subject: the system
  flow_estimated,
  calibration_spread,  ///< value: spread in per cent
  tank_refills,        ///< value: fills
  heavy_fill,          ///< value: kilograms of liquid
  rate_common_practice,
};
struct Warning {
  WarningKind kind{};
  double value = 0;     ///< meaning by kind
  std::string subject;  ///< a return, a system, an active
};

struct Plan {
  // The figures below point into these two, so the plan keeps them alive.
  std::shared_ptr<const Label> label;
  std::shared_ptr<const std::vector<EnteredLimit>> entered_limits;
  RateBand rate_band;
  SplitRule split{};
  std::vector<SystemDose> systems;
  std::int64_t total_seconds = 0;
  Calibration calibration;
  FogVolume volume;
  RouteLoad load;
  Zone zone;
  AirResult air;
  AirCases cases;
  std::optional<SpreadBand> spread;
  RespiratorNeed respirator;
  Hold hold;
  SiteFacts site;
  std::vector<const Rule*> rules;  ///< of the gate, in the order in which a job meets them
  std::vector<Warning> warnings;
  std::optional<Result<AiringNeed>> airing_for_deadline;
  std::optional<Result<LiquidVolume>> volume_for_deadline;
};

/// Errors: those of the layers below; label_forbids and label_incomplete first, so that nobody reads a dose off
/// a plan that may not be carried out.
[[nodiscard]] Result<Plan> make_plan(const PlanRequest& request);

/// What must be met: the plan's rules with what fills their words.
[[nodiscard]] std::vector<Requirement> requirements_of(const Plan& plan);

[[nodiscard]] std::string warning_words(const Warning& warning, UnitSystem units);
[[nodiscard]] std::string_view warning_name(WarningKind kind) noexcept;  ///< "flow-estimated"

/// One assumption behind the figures: what, its value with unit, its basis, its source.
struct Assumption {
  std::string what, value;
  Basis basis{};
  std::string source;
};
[[nodiscard]] std::vector<Assumption> assumptions(const PlanRequest& request, const Plan& plan,
                                                  UnitSystem units);

/// The JSON object described in docs/plan-json.md.
[[nodiscard]] nlohmann::json plan_json(const PlanRequest& request, const Plan& plan);
/// {"error": the first of them}; where there are several, `faults` holds all. At least one must be given.
[[nodiscard]] nlohmann::json faults_json(const Faults& faults);
/// The same members as a site file, as a JSON object (docs/plan-json.md); used by the browser and the server.
[[nodiscard]] tl::expected<PlanRequest, Faults> read_plan_request(const nlohmann::json& request);

/// Members that outrank a site file: the options of the command line.
struct Overlay {
  nlohmann::json members = nlohmann::json::object();
  std::map<std::string, std::string> names;  ///< JSON pointer to the option, for Error::where
  bool bare_numbers = false;                 ///< a number without a unit is sq ft (area) or ft (ceiling)
};

/// A site file (TOML, docs/site-file.md): several air systems and everything else about the job. An empty text
/// is a site file without members. Errors: bad_site with line and column for what stands in the file;
/// not_understood with the option for what stands in the overlay. Every fault is reported.
[[nodiscard]] tl::expected<PlanRequest, Faults> read_site(std::string_view toml_text, std::string_view file,
                                                          const Overlay& overlay = {});
/// A commented site file that read_site accepts.
[[nodiscard]] std::string_view example_site();

}  // namespace fogwright
