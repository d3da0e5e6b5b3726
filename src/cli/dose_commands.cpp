// SPDX-License-Identifier: Apache-2.0
#include "cli/dose_commands.hpp"

#include <fmt/format.h>
#include <ostream>

#include "asking/mixing_json.hpp"
#include "cli/label_folder.hpp"
#include "cli/plan_command.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

tl::expected<std::shared_ptr<const Label>, Faults> label_option(const Call& call) {
  const auto name = call.options.text("label");
  if (!name)
    return refuse({ErrorCode::missing_value, "no product label is given", "--label",
                   "name a profile, e.g. --label product_profiles_demo/brackwater-20.toml"});
  return load_label(*name, call.outside);
}

/// The high-band volumes of the route's jobs: --area for simple ones, --site for described ones.
tl::expected<std::vector<LiquidVolume>, Faults> route_volumes(const Call& call, const PlanRequest& base) {
  std::vector<LiquidVolume> volumes;
  for (const std::string& typed : call.options.all("area")) {
    const auto area = read_floor_area(typed, "--area", {"sq ft"});
    if (!area) return refuse(area.error());
    PlanRequest request = base;
    request.systems = {
        {fmt::format("job of {}", typed), *area, {{"return 1", {}, {}}}, DuctMaterial::bare_metal}};
    const auto plan = make_plan(request);
    if (!plan) return refuse(plan.error());
    volumes.push_back(plan->volume.high);
  }
  for (const std::string& file : call.options.all("site")) {
    const auto text = read_file(file);
    if (!text) return refuse(text.error());
    auto request = read_site(*text, file);
    if (!request) return tl::make_unexpected(std::move(request.error()));
    request->label = base.label;
    if (base.calibration) request->calibration = base.calibration;
    const auto plan = make_plan(*request);
    if (!plan) return refuse(plan.error());
    volumes.push_back(plan->volume.high);
  }
  return volumes;
}

json route_json(const RouteLoad& load, const std::vector<LiquidVolume>& volumes) {
  json jobs = json::array();
  for (const LiquidVolume& volume : volumes) jobs.push_back(volume.ceil_in(unit::millilitre));
  return {{"jobs_ml", jobs},
          {"needed_ml", load.needed.ceil_in(unit::millilitre)},
          {"fills", load.fills},
          {"fill_ml", load.fill_in(unit::millilitre)},
          {"liquid_kg", load.liquid_mass.value_in(unit::kilogram)},
          {"above_usual_fill", load.above_usual_fill}};
}

}  // namespace

Result<CatchTest> read_catch(const std::string& typed) {
  std::size_t split = typed.find(" in ");
  std::size_t after = split + 4;
  if (split == std::string::npos) {
    split = typed.find(" / ");
    after = split + 3;
  }
  if (split == std::string::npos)
    return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a catch test", typed), "--catch",
                "write what was caught and for how long, e.g. --catch '180 mL in 60 s'");
  const auto caught = read_liquid_volume(typed.substr(0, split), "--catch");
  if (!caught) return tl::make_unexpected(caught.error());
  const auto time = read_fog_time(typed.substr(after), "--catch");
  if (!time) return tl::make_unexpected(time.error());
  return CatchTest{*caught, *time};
}

std::vector<OptionRow> mix_options() {
  return {{"label", "FILE|NAME", "product profile with a mixing table"},
          {"make", "VOLUME", "how much mix is needed"},
          {"table", "NAME", "which mixing table, where the label has several"}};
}

Outcome run_mix(const Call& call) {
  const auto label = label_option(call);
  if (!label) return tl::make_unexpected(label.error());
  const auto typed = call.options.text("make");
  if (!typed)
    return refuse(
        {ErrorCode::missing_value, "how much to mix is not given", "--make", "write e.g. --make '1/2 gal'"});
  const auto make = read_liquid_volume(*typed, "--make");
  if (!make) return refuse(make.error());
  const auto sheet = mixing_sheet(**label, *make, call.options.text("table").value_or(""));
  if (!sheet) return refuse(sheet.error());
  if (call.json)
    call.outside.out << mixing_json(**label, *sheet).dump(2) << '\n';
  else
    call.outside.out << mixing_sheet_text(**label, *sheet, call.style);
  return {};
}

std::vector<OptionRow> route_options() {
  return {{"label", "FILE|NAME", "product profile"},
          {"area", "AREA", "floor area of one job; a bare number is sq ft", true},
          {"site", "FILE", "site file of one job", true},
          {"flow", "FLOW", "measured fogger flow; without it the gallon rule estimates"},
          {"tank", "VOLUME", "tank of the fogger"},
          {"empty-weight", "MASS", "weight of the empty fogger"},
          {"carry-limit", "MASS", "most that a person carries (company policy)"},
          {"reserve", "SHARE", "spare product, 0 to 1 (default 0.10)"}};
}

Outcome run_route(const Call& call) {
  Overlay overlay;
  for (const auto& [option, pointer] : {std::pair{"flow", "/fogger/flow"},
                                        {"tank", "/fogger/tank"},
                                        {"empty-weight", "/fogger/empty_weight"},
                                        {"carry-limit", "/fogger/carry_limit"}})
    if (const auto typed = call.options.text(option)) {
      overlay.members[json::json_pointer(pointer)] = *typed;
      overlay.names[pointer] = fmt::format("--{}", option);
    }
  auto base = read_site("", "", overlay);
  if (!base) return tl::make_unexpected(base.error());
  if (const auto typed = call.options.text("reserve")) {
    const auto reserve = read_number(*typed, "--reserve");
    if (!reserve) return refuse(reserve.error());
    base->reserve = *reserve;
  }
  const auto label = label_option(call);
  if (!label) return tl::make_unexpected(label.error());
  base->label = *label;
  const auto volumes = route_volumes(call, *base);
  if (!volumes) return tl::make_unexpected(volumes.error());
  const auto load = route_load(*volumes, base->reserve, (*label)->density, base->fogger);
  if (!load) return refuse(load.error());
  if (call.json)
    call.outside.out << route_json(*load, *volumes).dump(2) << '\n';
  else
    call.outside.out << route_text(**label, *load, volumes->size(), call.style);
  return {};
}

std::vector<OptionRow> calibrate_options() {
  return {{"catch", "VOLUME in TIME", "one catch test, e.g. '180 mL in 60 s'; three at least", true}};
}

Outcome run_calibrate(const Call& call) {
  std::vector<CatchTest> runs;
  for (const std::string& typed : call.options.all("catch")) {
    const auto run = read_catch(typed);
    if (!run) return refuse(run.error());
    runs.push_back(*run);
  }
  const auto calibration = calibrate(runs);
  if (!calibration) return refuse(calibration.error());
  if (call.json)
    call.outside.out << json{{"ml_per_min", calibration->flow.value_in(unit::millilitre_per_minute)},
                             {"low_ml_per_min", calibration->low.value_in(unit::millilitre_per_minute)},
                             {"high_ml_per_min", calibration->high.value_in(unit::millilitre_per_minute)},
                             {"relative_spread", calibration->relative_spread},
                             {"runs", calibration->runs},
                             {"large_spread", calibration->large_spread}}
                            .dump(2)
                     << '\n';
  else
    call.outside.out << calibration_text(*calibration, call.style);
  return {};
}

}  // namespace fogwright
