// SPDX-License-Identifier: Apache-2.0
#include "plan/request_reader.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <set>

namespace fogwright {
namespace {

constexpr std::pair<std::string_view, SplitRule> split_words[] = {
    {"equal", SplitRule::equal}, {"face", SplitRule::face_area}, {"airflow", SplitRule::airflow}};
constexpr std::pair<std::string_view, DuctMaterial> material_words[] = {
    {"bare-metal", DuctMaterial::bare_metal},
    {"flexible", DuctMaterial::flexible},
    {"duct-board", DuctMaterial::duct_board},
    {"lined", DuctMaterial::lined}};

template <class T>
void take(std::optional<T> value, T& into) {
  if (value) into = *value;
}

class RequestReader {
 public:
  RequestReader(MemberReading& reading, BareNumbers bare) : reading_(reading), bare_(bare) {}

  PlanRequest read(const nlohmann::json& root) {
    TableReader top(root, "", reading_);
    top.whole("format", 1, 1);
    take(top.text("label"), request_.label_name);
    take(top.choice("split", split_words), request_.split);
    read_rate(top);
    take(top.number("reserve", 0, 1), request_.reserve);
    take(top.flag("large"), request_.limits.large);
    if (auto draws = top.whole("spread_draws", 0, 1'000'000)) request_.spread_draws = static_cast<int>(*draws);
    request_.deadline = top.quantity("deadline", read_hold_time);
    request_.fit_dose = top.quantity("fit_dose", read_hold_time);
    section(top, "building", [this](TableReader& t) { read_building(t); });
    section(top, "fogger", [this](TableReader& t) { read_fogger(t); });
    section(top, "site", [this](TableReader& t) { read_site_facts(t); });
    section(top, "policy", [this](TableReader& t) { read_policy(t); });
    top.tables("system", [this](TableReader& t) { read_system(t); });
    top.finish();
    return std::move(request_);
  }

 private:
  template <class Read>
  void section(TableReader& parent, const char* name, Read read) {
    if (auto table = parent.table(name)) {
      read(*table);
      table->finish();
    }
  }

  void read_rate(TableReader& top) {
    const auto word = top.text("rate");
    if (!word) return;
    if (*word == "low")
      request_.rate.point = RateChoice::Point::low;
    else if (*word == "middle")
      request_.rate.point = RateChoice::Point::middle;
    else if (*word == "high")
      request_.rate.point = RateChoice::Point::high;
    else if (auto seconds = read_number(*word, "rate"))
      request_.rate = {RateChoice::Point::exact, *seconds};
    else
      top.fault("rate", fmt::format("\"{}\" is not a rate", *word),
                "write low, middle, high, or seconds per 1,000 sq ft, e.g. \"50\"");
  }

  void read_building(TableReader& t) {
    Zone& zone = request_.zone;
    const auto ceiling = t.quantity("ceiling", read_length, bare("ft"));
    request_.ceiling_given = ceiling.has_value();
    take(ceiling, request_.ceiling);
    request_.gross_volume = t.quantity("volume", read_air_volume);
    const auto closed = t.quantity("closed_air_changes", read_air_changes, "/h");
    request_.closed_air_changes_given = closed.has_value();
    take(closed, zone.closed);
    zone.airing = t.quantity("purge_air_changes", read_air_changes, "/h");
    request_.airing_fan = t.quantity("purge_fan", read_air_flow);
    if (zone.airing && request_.airing_fan)
      t.fault("purge_fan", "airing out is given twice", "give purge_air_changes or purge_fan, not both");
    zone.airing_from = t.quantity("purge_from", read_hold_time);
    take(t.number("mixing_factor", 1, 10), zone.mixing_factor);
    const auto temperature = t.quantity("temperature", read_temperature);
    request_.temperature_given = temperature.has_value();
    take(temperature, zone.temperature);
    take(t.quantity("pressure", read_pressure), zone.pressure);
    if (auto per_cent = t.number("relative_humidity", 0, 100)) request_.relative_humidity = *per_cent / 100;
    request_.coldest_surface = t.quantity("coldest_surface", read_temperature);
    request_.fan = t.quantity("fan", read_air_flow);
    take(t.quantity("plenum", read_air_volume), request_.plenum);
  }

  void read_fogger(TableReader& t) {
    std::vector<CatchTest> runs;
    t.tables("catch", [&runs](TableReader& run) {
      const auto caught = run.quantity("caught", read_liquid_volume);
      const auto time = run.quantity("time", read_fog_time);
      if (caught && time)
        runs.push_back({*caught, *time});
      else if (!run.has("caught") || !run.has("time"))
        run.fault(run.has("caught") ? "time" : "caught", "a catch test needs both caught and time",
                  "write caught = \"190 mL\" and time = \"60 s\"");
    });
    const auto flow = t.quantity("flow", read_liquid_flow);
    if (flow && !runs.empty()) t.fault("flow", "the flow is given twice", "give flow or catch tests, not both");
    if (flow)
      accept(t, "flow", entered_flow(*flow));
    else if (!runs.empty())
      accept(t, "catch", calibrate(runs));
    request_.fogger.tank = t.quantity("tank", read_liquid_volume);
    request_.fogger.empty_mass = t.quantity("empty_weight", read_mass);
    request_.fogger.carry_limit = t.quantity("carry_limit", read_mass);
  }

  void accept(TableReader& t, const char* name, Result<Calibration> calibration) {
    if (calibration)
      request_.calibration = *calibration;
    else
      t.fault(name, calibration.error().message, calibration.error().hint);
  }

  void read_site_facts(TableReader& t) {
    take(t.whole("entrances", 1, 200), request_.site.entrances);
    take(t.flag("animals"), request_.site.animals);
    take(t.flag("sensitive_person"), request_.site.sensitive_person);
    if (t.flag("no_licence_asked").value_or(false)) request_.site.licence_asked = false;
  }

  /// Policy may only be stricter than what the tool ships.
  void read_policy(TableReader& t) {
    const Policy least;
    take(t.quantity("least_hold_high_strength", read_hold_time), request_.policy.least_hold_high_strength);
    take(t.quantity("least_hold_other", read_hold_time), request_.policy.least_hold_other);
    if (request_.policy.least_hold_high_strength < least.least_hold_high_strength)
      t.fault("least_hold_high_strength",
              "a policy hold may not be shorter than 60 min for a high-strength oxidiser",
              "write 60 min or more");
    take(t.number("occupant_factor", 10, 1000), request_.zone.occupant_factor);
  }

  void read_system(TableReader& t) {
    AirSystem system;
    system.name = t.text("name").value_or(fmt::format("system {}", request_.systems.size() + 1));
    if (auto area = t.quantity("area", read_floor_area, bare("sq ft")))
      system.area = *area;
    else if (!t.has("area"))
      t.fault("area", fmt::format("{} has no floor area", system.name), "write area = \"2,400 sq ft\"");
    take(t.choice("material", material_words), system.material);
    return_names_.clear();
    t.tables("return",
             [this, &system](TableReader& r) { add_return(r, "name", system, read_return(r, system)); });
    if (const auto count = t.whole("returns", 1, 200)) add_unnamed(t, system, *count);
    if (system.returns.empty() && !t.has("returns") && !t.has("return"))
      t.fault("returns", fmt::format("{} has no returns", system.name),
              "write returns = 3, or one [[system.return]] table a return");
    const auto twin = std::any_of(request_.systems.begin(), request_.systems.end(),
                                  [&](const AirSystem& other) { return other.name == system.name; });
    if (twin)
      t.fault("name", fmt::format("two systems are called \"{}\"", system.name), "give each its own name");
    request_.systems.push_back(std::move(system));
  }

  void add_unnamed(TableReader& t, AirSystem& system, std::int64_t count) {
    const auto named = static_cast<std::int64_t>(system.returns.size());
    if (named > count)
      t.fault("returns", fmt::format("{} returns are described but returns = {}", named, count),
              "make the two agree");
    for (std::int64_t i = named; i < count; ++i)
      add_return(t, "returns", system, {fmt::format("return {}", i + 1), {}, {}});
  }

  /// What is fogged is recorded by the name of its return, so that a second one of a name could never be.
  void add_return(TableReader& t, const char* member, AirSystem& system, ReturnIntake intake) {
    if (!return_names_.insert(intake.name).second)
      t.fault(member, fmt::format("two returns of {} are called \"{}\"", system.name, intake.name),
              "give each its own name; those without one are called \"return 1\", \"return 2\" by their place");
    system.returns.push_back(std::move(intake));
  }

  ReturnIntake read_return(TableReader& r, const AirSystem& system) {
    ReturnIntake intake;
    intake.name = r.text("name").value_or(fmt::format("return {}", system.returns.size() + 1));
    intake.face = r.quantity("face", read_face_area);
    intake.airflow = r.quantity("airflow", read_air_flow);
    return intake;
  }

  [[nodiscard]] std::string_view bare(std::string_view symbol) const {
    return bare_ == BareNumbers::us_customary ? symbol : std::string_view{};
  }

  MemberReading& reading_;
  BareNumbers bare_;
  PlanRequest request_;
  std::set<std::string> return_names_;  ///< of the system that is being read
};

}  // namespace

tl::expected<PlanRequest, Faults> read_request_members(const nlohmann::json& request, BareNumbers bare,
                                                       const std::function<Place(const std::string&)>& place) {
  MemberReading reading{place, {}};
  if (!request.is_object()) {
    reading.fault("", "the request is not an object", "send a JSON object");
    return tl::make_unexpected(std::move(reading.faults));
  }
  PlanRequest result = RequestReader(reading, bare).read(request);
  if (!reading.faults.empty()) return tl::make_unexpected(std::move(reading.faults));
  return result;
}

tl::expected<PlanRequest, Faults> read_plan_request(const nlohmann::json& request) {
  return read_request_members(request, BareNumbers::refused,
                              [](const std::string& pointer) { return Place{pointer}; });
}

}  // namespace fogwright
