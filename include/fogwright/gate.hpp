// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What must be met before, during and after fogging: respirator, hold, requirements.

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/air.hpp"
#include "fogwright/dose.hpp"

namespace fogwright {

// --- Respirator ---------------------------------------------------------------------------------------------

/// A row of 29 CFR 1910.134(d)(3)(i)(A) Table 1.
struct ProtectionFactor {
  std::string_view respirator;  ///< "air-purifying", "PAPR", "SAR continuous flow", ...
  std::string_view facepiece;   ///< "half mask", "full facepiece", ...
  int factor = 0;
};
/// Every cell that holds a factor. Helmet and hood stand with 25: 1,000 needs the manufacturer's test evidence.
[[nodiscard]] std::span<const ProtectionFactor> assigned_protection_factors();

/// The factor this program counts on. `powered` and `supplied_air` mean their forms with a full facepiece
/// (supplied air under pressure demand), `self_contained` means pressure demand; 0 for none.
[[nodiscard]] int protection_factor(Facepiece facepiece) noexcept;
/// What to ask the crew for: "half mask", "powered air-purifying respirator with full facepiece", ...
[[nodiscard]] std::string_view respirator_words(Facepiece facepiece) noexcept;

/// Factor × limit, at most the immediately dangerous level (1910.134(d)(3)(i)(B)).
[[nodiscard]] MassConcentration maximum_use_concentration(
    int factor, MassConcentration limit, std::optional<MassConcentration> immediately_dangerous);

/// Band colour that manufacturers use for a cartridge (ANSI/ISEA 110); a hint only, the words on the cartridge
/// decide.
[[nodiscard]] std::string_view cartridge_colour(std::string_view cartridge_words);

struct RespiratorNeed {
  bool required = false;
  Facepiece facepiece = Facepiece::none;
  int assigned_protection_factor = 0;
  /// Words that must stand on the cartridge; empty for supplied air. The views point into the label, which must
  /// outlive this, and into shipped tables.
  std::vector<std::string_view> cartridges;
  bool gas_cartridges = false;   ///< one of them is for gas or vapour
  std::string_view band_colour;  ///< hint, of the gas and vapour part; empty where unknown or mixed
  bool for_mixing = false, for_applying = false;
  bool do_not_enter = false;  ///< above the immediately dangerous level, or it cannot be estimated
  enum class Ground {
    none,
    label,
    hazard_ratio,
    immediately_dangerous,
    not_estimable,
    common_practice,  ///< a high-strength oxidiser whose label asks for none: at least a half mask
  } ground = Ground::none;
};
/// The stricter of what the label or data sheet demands and what the hazard ratio needs. Cartridges: the
/// label's words; where it gives none for gas or vapour, those of the published recommendation for every vapour
/// active; where one has no such recommendation, supplied air. A particulate filter ("P100") joins every
/// cartridge, since fog is droplets and vapour (inferred from 29 CFR 1910.134(d)(3)(ii)). No cartridge life is
/// ever estimated.
[[nodiscard]] RespiratorNeed respirator_need(const Label& label, const AirResult& air);
/// One sentence: why this respirator.
[[nodiscard]] std::string respirator_reason(const RespiratorNeed& need, const Label& label,
                                            const AirResult& air);

// --- Hold ---------------------------------------------------------------------------------------------------

/// Company policy; the tool ships these defaults and the owner may only raise them.
struct Policy {
  HoldTime least_hold_high_strength{60, unit::minute};  ///< common practice, no source
  HoldTime least_hold_other{};                          ///< none
};

enum class HoldGround { label, policy, model, haze };
[[nodiscard]] std::string_view hold_ground_name(HoldGround ground) noexcept;

/// Whole minutes after fog-off, each rounded up. The longest governs; the model can lengthen a hold, never
/// shorten it.
struct Hold {
  std::optional<std::int64_t> label_minutes;  ///< nullopt: the label is silent
  std::int64_t policy_minutes = 0;
  std::optional<std::int64_t> model_minutes;  ///< nullopt: not estimable, or the air never clears by itself
  bool model_never_clears = false;            ///< then only readings can release the building
  /// The model alone may not release: it never clears, or a high-strength product could not be estimated.
  bool readings_needed = false;
  std::int64_t haze_minutes = 0;
  HoldGround governs = HoldGround::label;
  std::int64_t total_minutes = 0;  ///< longest of those that are known
  /// What must pass in full before readings may stand in for the model: label, policy and haze.
  std::int64_t floor_minutes = 0;
};
[[nodiscard]] Hold hold_for(const Label& label, const AirResult& air, const Policy& policy);

/// What an instrument showed. Times are milliseconds after fog-off.
struct Reading {
  std::int64_t at_ms = 0;
  std::string_view cas;
  MassConcentration value{};
  bool fan_running = false;
  std::int64_t order = 0;  ///< its place in the record: what was recorded later, whatever the clocks said
};
/// The occupant limit of one substance in the air.
struct ReleaseLimit {
  std::string_view cas;
  MassConcentration value{};
};
/// Of everything that goes into the air as vapour; zero where no limit is known, so that only a reading of
/// nothing passes. The views point into the label and the table that `air` points to.
[[nodiscard]] std::vector<ReleaseLimit> release_limits(const AirResult& air);

inline constexpr std::int64_t reading_gap_ms = 15 * 60'000;

/// Whether the building may be released `now_ms` after fog-off. It needs
///  - the floor (label, policy, haze) in full, whatever the readings say;
///  - the last reading of every substance at or below its limit, where there are readings;
///  - and the modelled time in full, or readings that show the air is clear: for every limit two readings at or
///    below it, both taken after the floor with the fan running, at least 15 min apart, the last one not above
///    any since the first; all substances together at or below 1 (29 CFR 1910.1000(d)(2)).
/// Where the model says nothing and no readings are needed (Hold), the floor alone decides. Readings may come
/// in any order; one of a substance without a limit refuses, and so does one from after now. Errors:
/// hold_running (what is missing, and when it ends).
[[nodiscard]] Result<void> release_ready(const Hold& hold, std::span<const ReleaseLimit> limits,
                                         std::int64_t now_ms, std::span<const Reading> readings);

// --- Requirements -------------------------------------------------------------------------------------------

/// What can show that a requirement is met.
enum class Evidence { person, credential, count, time, number, photo, reading };

/// When a met requirement stops being met.
enum class Lapse { never_for_this_job, when_someone_enters, at_each_donning, end_of_day, after_minutes };

enum class Stage { before_mixing, before_fogging, during_fogging, before_release, before_close };

/// One rule of the gate. All of them stand in one table (src/gate/rules.cpp); ids never change once released.
struct Rule {
  std::string_view id;     ///< "everyone-out", "fit-test"
  std::string_view words;  ///< shown to the technician, imperative; may hold one {} for a value
  std::string_view why;    ///< one sentence
  Basis basis{};
  std::string_view citation;  ///< regulation, "label", "company policy", "common practice, no source"
  Evidence evidence{};
  Lapse lapse{};
  Stage stage{};
  std::int64_t lapse_minutes = 0;  ///< with Lapse::after_minutes
};
[[nodiscard]] std::string_view evidence_name(Evidence evidence) noexcept;  ///< "person", ...
[[nodiscard]] std::string_view lapse_name(Lapse lapse) noexcept;           ///< "when someone enters", ...
[[nodiscard]] std::string_view stage_name(Stage stage) noexcept;           ///< "before fogging", ...

/// In the order in which a job meets them; docs/rules.md lists them.
[[nodiscard]] std::span<const Rule> all_rules();
[[nodiscard]] const Rule* find_rule(std::string_view id);

struct Requirement {
  const Rule* rule = nullptr;
  std::string value;  ///< fills the {} of the rule's words
};
[[nodiscard]] std::string requirement_words(const Requirement& requirement);

/// What the site adds.
struct SiteFacts {
  std::int64_t entrances = 1;
  bool animals = false;  ///< animals live here (aquariums too)
  bool sensitive_person = false;
  bool licence_asked =
      true;  ///< the state asks for an applicator's licence; asked for unless someone says it does not
};

/// What the gate is decided by.
struct GateFacts {
  const Label& label;
  const RespiratorNeed& respirator;
  const Hold& hold;
  const AirResult& air;
  const SiteFacts& site;
};
/// The rules that apply, in the order in which a job meets them.
[[nodiscard]] std::vector<const Rule*> rules_for(const GateFacts& facts);
/// A rule of all_rules() with what fills its words.
[[nodiscard]] Requirement requirement(const Rule& rule, const GateFacts& facts);

}  // namespace fogwright
