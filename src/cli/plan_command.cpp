// SPDX-License-Identifier: Apache-2.0
#include "cli/plan_command.hpp"

#include <fmt/format.h>
#include <charconv>
#include <ostream>

#include "cli/label_folder.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// Options with a pointer go into the request as they were typed; these pointers take a number, those a switch.
bool takes_number(std::string_view pointer) {
  return pointer == "/system/0/returns" || pointer == "/site/entrances" ||
         pointer == "/building/mixing_factor" || pointer == "/building/relative_humidity" ||
         pointer == "/reserve" || pointer == "/spread_draws";
}

/// A number typed on the command line; a text that is not one goes through as text, and the reader names it.
json number_or_text(const std::string& typed) {
  std::int64_t whole = 0;
  const auto [end, error] = std::from_chars(typed.data(), typed.data() + typed.size(), whole);
  if (error == std::errc{} && end == typed.data() + typed.size()) return whole;
  if (const auto number = read_number(typed, "")) return *number;
  return typed;
}

/// "hall=20x30 in" or "hall=600 cfm".
Result<json> one_return(const std::string& typed) {
  const auto equals = typed.find('=');
  json member = {{"name", typed.substr(0, equals)}};
  if (equals == std::string::npos) return member;
  const std::string measure = typed.substr(equals + 1);
  if (read_air_flow(measure, "--return")) {
    member["airflow"] = measure;
  } else if (auto face = read_face_area(measure, "--return")) {
    member["face"] = measure;
  } else {
    return tl::make_unexpected(face.error());
  }
  return member;
}

Result<Overlay> overlay_from(const Options& options) {
  Overlay overlay;
  overlay.bare_numbers = true;
  // Without a site file what is missing is missing from the options.
  const bool only_options = !options.has("site");
  for (const OptionRow& row : plan_options()) {
    if (!row.pointer) continue;
    const std::string pointer = row.pointer;
    if (only_options || options.has(row.name)) overlay.names[pointer] = fmt::format("--{}", row.name);
    if (!options.has(row.name)) continue;
    json& member = overlay.members[json::json_pointer(pointer)];
    if (!row.value)
      member = true;
    else
      member = takes_number(pointer) ? number_or_text(*options.text(row.name)) : json(*options.text(row.name));
  }
  for (const std::string& typed : options.all("return")) {
    auto member = one_return(typed);
    if (!member) return tl::make_unexpected(member.error());
    json& returns = overlay.members["system"][0]["return"];
    overlay.names[fmt::format("/system/0/return/{}/name", returns.size())] = "--return";
    returns.push_back(std::move(*member));
  }
  return overlay;
}

/// Two ways to describe the air systems of one job.
Result<void> check_options(const Options& options) {
  for (const char* one : {"area", "returns", "return", "material"})
    if (options.has("site") && options.has(one))
      return fail(ErrorCode::bad_usage, fmt::format("--{} and --site both describe air systems", one),
                  fmt::format("--{}", one), "put it into the site file, or leave --site out");
  return {};
}

Result<void> add_files(const Options& options, TypedRequest& typed) {
  typed.places.site_file = options.text("site").value_or("");
  if (!typed.places.site_file.empty()) {
    auto text = read_file(typed.places.site_file);
    if (!text) return tl::make_unexpected(text.error());
    typed.recorded["site_file"] = std::move(*text);
  }
  for (const std::string& file : options.all("limits")) {
    auto text = read_file(file);
    if (!text) return tl::make_unexpected(text.error());
    typed.recorded["limits"].push_back(std::move(*text));
    typed.places.limits_files.push_back(file);
  }
  return {};
}

}  // namespace

std::vector<OptionRow> plan_options() {
  return {
      {"label", "FILE|NAME", "product profile: a file, or a name from the label folder", false, nullptr},
      {"area", "AREA", "conditioned floor area; a bare number is sq ft", false, "/system/0/area"},
      {"returns", "N", "number of returns, 1 to 200", false, "/system/0/returns"},
      {"return", "NAME[=SIZE|FLOW]", "a return with its face (20x30 in) or airflow (600 cfm)", true, nullptr},
      {"split", "equal|face|airflow", "how the seconds are split over the returns (default equal)", false,
       "/split"},
      {"rate", "low|middle|high|SECONDS",
       "where in the band to aim; seconds are per 1,000 sq ft (default middle)", false, "/rate"},
      {"flow", "FLOW", "measured fogger flow, e.g. '180 mL/min'; without it the gallon rule estimates", false,
       "/fogger/flow"},
      {"material", "MATERIAL", "bare-metal, flexible, duct-board or lined (default bare-metal)", false,
       "/system/0/material"},
      {"ceiling", "LENGTH", "average ceiling height; a bare number is ft (default 8 ft)", false,
       "/building/ceiling"},
      {"volume", "VOLUME", "measured air volume of the building; outranks area and ceiling", false,
       "/building/volume"},
      {"air-changes", "PER_HOUR", "ventilation while fogging and holding (default 0.18, a tight home)", false,
       "/building/closed_air_changes"},
      {"purge-air-changes", "PER_HOUR", "ventilation while airing out; without it nobody airs out", false,
       "/building/purge_air_changes"},
      {"purge-fan", "FLOW", "the same as the measured airflow of the exhaust fan", false,
       "/building/purge_fan"},
      {"purge-from", "TIME",
       "when airing out starts after fog-off (default and earliest: when label, policy and haze let people in)",
       false, "/building/purge_from"},
      {"mixing-factor", "K", "1 is perfect mixing, up to 10 for very poor (default 1)", false,
       "/building/mixing_factor"},
      {"temperature", "T", "of the air inside (default 25 C)", false, "/building/temperature"},
      {"pressure", "P", "of the air (default 1 atm)", false, "/building/pressure"},
      {"humidity", "PERCENT", "relative humidity inside (default 50)", false, "/building/relative_humidity"},
      {"coldest", "T", "temperature of the coldest duct or coil", false, "/building/coldest_surface"},
      {"fan", "FLOW", "measured airflow of the air handler, for flammable products", false, "/building/fan"},
      {"plenum", "VOLUME", "air volume of the plenum (default 1 m3)", false, "/building/plenum"},
      {"tank", "VOLUME", "tank of the fogger", false, "/fogger/tank"},
      {"empty-weight", "MASS", "weight of the empty fogger", false, "/fogger/empty_weight"},
      {"carry-limit", "MASS", "most that a person carries (company policy)", false, "/fogger/carry_limit"},
      {"reserve", "SHARE", "spare product in the load, 0 to 1 (default 0.10)", false, "/reserve"},
      {"entrances", "N", "doors to post (default 1)", false, "/site/entrances"},
      {"animals", nullptr, "animals live here, aquariums included", false, "/site/animals"},
      {"sensitive", nullptr, "someone here is sensitive (asthma, infant, pregnancy)", false,
       "/site/sensitive_person"},
      {"no-licence", nullptr, "the state asks for no applicator licence for this work", false,
       "/site/no_licence_asked"},
      {"limits", "FILE", "exposure limits of your own, e.g. licensed ones", true, nullptr},
      {"deadline", "TIME", "ask: how much airing out makes this time after fog-off?", false, "/deadline"},
      {"fit-dose", "TIME", "ask: how much product fits this time after fog-off?", false, "/fit_dose"},
      {"spread", "DRAWS", "simulate the spread of the dose with so many draws, e.g. 10000", false,
       "/spread_draws"},
      {"large", nullptr, "allow more than 200,000 sq ft in one system", false, "/large"},
      {"site", "FILE", "site file for several systems; the other options outrank it", false, nullptr},
      {"example", nullptr, "print a commented site file and stop", false, nullptr},
      {"full", nullptr, "also print formulas, inputs, sources and assumptions", false, nullptr},
  };
}

Result<TypedRequest> typed_request(const Call& call) {
  TypedRequest typed;
  if (auto ok = check_options(call.options); !ok) return tl::make_unexpected(std::move(ok.error()));
  if (auto ok = add_files(call.options, typed); !ok) return tl::make_unexpected(std::move(ok.error()));
  auto overlay = overlay_from(call.options);
  if (!overlay) return tl::make_unexpected(std::move(overlay.error()));
  typed.recorded["members"] = std::move(overlay->members);
  typed.recorded["bare_numbers"] = overlay->bare_numbers;
  typed.places.options = std::move(overlay->names);
  return typed;
}

tl::expected<PlanRequest, Faults> plan_request_from(const Call& call) {
  const auto typed = typed_request(call);
  if (!typed) return refuse(typed.error());
  auto request = read_recorded_request(typed->recorded, typed->places);
  if (!request) return request;
  const std::string label_name = call.options.text("label").value_or(request->label_name);
  if (label_name.empty()) return request;  // make_plan says what is missing
  auto label = load_label(label_name, call.outside);
  if (!label) return tl::make_unexpected(std::move(label.error()));
  request->label = *label;
  return request;
}

Outcome run_plan(const Call& call) {
  if (call.options.has("example")) {
    call.outside.out << example_site();
    return {};
  }
  const auto request = plan_request_from(call);
  if (!request) return tl::make_unexpected(request.error());
  const auto plan = make_plan(*request);
  if (!plan) return refuse(plan.error());
  if (call.json)
    call.outside.out << plan_json(*request, *plan).dump(2) << '\n';
  else
    call.outside.out << (call.options.has("full") ? plan_full_text(*request, *plan, call.style)
                                                  : plan_text(*plan, call.style));
  return {};
}

}  // namespace fogwright
