// SPDX-License-Identifier: Apache-2.0
/// The demo world on paper. Firm, county, crew and products do not exist.
#include "demo_papers.hpp"

#include <fstream>
#include <iterator>

#include "fogwright/label.hpp"

namespace fogwright::test {
namespace {

using namespace paper;

/// From the demonstration label, so that its own long cautions are what is printed.
ProductFacts brackwater() {
  std::ifstream in(FOGWRIGHT_SOURCE_DIR "/product_profiles_demo/brackwater-20.toml");
  const std::string toml{std::istreambuf_iterator<char>(in), {}};
  const auto label = read_label(toml, "brackwater-20.toml").value();
  return {label.name,        label.registration,
          "DANGER",          {"Sodium chlorite (7758-19-2), as chlorine dioxide (10049-04-4)"},
          label.precautions, label.first_aid};
}

const std::vector<Contact> contacts = {{"Quillfen Duct Care, office", "555-0100"},
                                       {"Poison control center, Tarn Vale", "555-0111"},
                                       {"Ambulance", "the local emergency number"}};

ConcentrationCurve demo_curve() {
  ConcentrationCurve curve{"Chlorine dioxide",
                           {},
                           {{"15 min limit", 0.83}, {"8 h limit", 0.28}, {"occupants (policy)", 0.028}},
                           312};
  ChartSeries at_once{"at once", Look::line, {}}, spread{"over 180 min", Look::dashed, {}};
  double once = 6.4, slow = 0;
  for (int minute = 0; minute <= 360; minute += 2) {
    at_once.points.push_back({static_cast<double>(minute), once});
    spread.points.push_back({static_cast<double>(minute), slow});
    const double rate = minute < 240 ? 0.0045 : 0.09;
    slow += (minute < 180 ? 0.07 : 0) - slow * rate;
    once -= once * rate;
  }
  curve.releases = {at_once, spread};
  return curve;
}

}  // namespace

Form demo_form(Language language, PageSize size) {
  return {"Quillfen Duct Care", language, size, "2026-03-04T17:20:00-06:00"};
}

LeaveBehind demo_leave_behind() {
  LeaveBehind facts;
  facts.customer = "Customer of the demonstration";
  facts.address = "7 Heron Row, Tarn Vale";
  facts.job = "J-2026-0107";
  facts.product = brackwater();
  facts.where = {"Main floor air system: 3 returns", "Upper floor air system: 2 returns"};
  facts.fogged = {2026, 3, 4, 10, 42, "CST"};
  facts.allowed_in = LocalTime{2026, 3, 4, 16, 5, "CST"};
  facts.released_by = "wren";
  facts.afterwards = {
      "Leave windows open and the fan running for the rest of the day where the weather allows.",
      "Wipe surfaces on which food is prepared before you use them."};
  facts.contacts = contacts;
  return facts;
}

DoorNotice demo_door_notice() {
  return {"7 Heron Row, Tarn Vale", "J-2026-0107", {2026, 3, 4, 16, 5, "CST"}, brackwater(), contacts};
}

MixingSheet demo_mixing_sheet() {
  MixingSheet facts;
  facts.product = brackwater();
  facts.table = "duct fogging strength";
  facts.makes = "1 gal";
  facts.use_within = "24 h";
  facts.gear = {"chemical splash goggles", "face shield", "nitrile gloves, elbow length", "chemical apron",
                "full facepiece respirator, organic vapor/acid gas cartridges"};
  facts.steps = {{"water", "125 fl oz", "Potable water, 60 to 80 F, into a clean plastic pail.", ""},
                 {"Part A concentrate", "1.5 fl oz", "Into the water, never the other way round.", ""},
                 {"Part B activator (citric acid)", "1.5 fl oz",
                  "Into the diluted Part A, never into the concentrate. Stir, cover, and wait.", "10 min"}};
  facts.disposal = {
      "Mixed product that is not used within its life: dilute with 20 parts of water before disposal under "
      "local rules.",
      "Triple rinse the container. Do not reuse it."};
  return facts;
}

JobRecord demo_job_record() {
  JobRecord facts;
  facts.job = "J-2026-0107";
  facts.state = "released";
  facts.customer = "Customer of the demonstration";
  facts.address = "7 Heron Row, Tarn Vale";
  facts.technician = "wren";
  facts.van = "Heron";
  facts.fogger = "F-2, 182 mL/min (177 to 187), tested 2026-02-20";
  facts.product = brackwater();
  facts.lots = "batch M-0031 of BW-2405 (Part A), BW-2411 (Part B)";
  facts.plan = {{"Area", "2,400 sq ft"},
                {"Fog time", "126 s (108 to 144)"},
                {"Volume", "383 mL (at most 449)"},
                {"Hold", "5 h 12 min, by the model"},
                {"Respirator", "full facepiece, organic vapor/acid gas"}};
  facts.actual = {{"Fog", "10:42:10 to 10:44:31"},
                  {"Volume used", "401 mL, before and after"},
                  {"Released", "16:05, by time"}};
  facts.returns = {{"Main floor", "hall", "42 s", "43.1 s"},
                   {"Main floor", "den", "42 s", "42.4 s"},
                   {"Main floor", "bedroom", "42 s", "44.0 s"}};
  for (int i = 1; i <= 9; ++i)
    facts.gate.push_back(
        {"Safety item " + std::to_string(i) + " in words long enough to need a second line of its cell", "wren",
         "10:" + std::to_string(20 + i), "number 4711-" + std::to_string(i),
         i % 2 != 0 ? "label" : "29 CFR 1910.134(g)(1)(iii)"});
  facts.readings = {{"15:40", "Chlorine dioxide", "0.00 ppm", "running"},
                    {"16:00", "Chlorine dioxide", "0.00 ppm", "running"}};
  facts.departures = {"The bedroom return was fogged 2.0 s longer than planned."};
  facts.curve = demo_curve();
  facts.proof = Proof{
      "book.quillfen.example/heron\n1050\nqhGMTUZ0JTkcHvKPF0SvvqJVUZc7dFkAVkM3mHBQ9hM=",
      "entry 1042 of 1050, leaf 5f0e6c4b9d1f8a7733be20d94c1e0a8f6d2b7c95e3411ab09c8d7e6f5a4b3c2d",
      "book.quillfen.example/heron 1042 5f0e6c4b9d1f8a7733be20d94c1e0a8f6d2b7c95e3411ab09c8d7e6f5a4b3c2d"};
  return facts;
}

InventoryReport demo_inventory() {
  InventoryReport facts;
  facts.as_of = "2026-03-04";
  facts.orders = {{"Fenmist RTU", "3.2 gal", "11 days", "4.0 gal", "2 × 1 gal"},
                  {"Brackwater 20, Part A", "62 fl oz", "40 days", "24 fl oz", "none"}};
  for (int i = 0; i < 22; ++i)
    facts.vessels.push_back(
        {i % 3 != 0 ? "Fenmist RTU" : "Brackwater 20, Part A", "C-" + std::to_string(100 + i),
         "FM-24" + std::to_string(10 + i), i % 2 != 0 ? "Heron" : "shop", i % 4 != 0 ? "" : "2026-01-12",
         "2026-0" + std::to_string(1 + i % 9) + "-28", "0." + std::to_string(i + 10) + " gal", i % 9 > 1});
  StockCurve curve{"Fenmist RTU", "gal", {}, 4.0};
  for (int day = 1; day <= 28; ++day)
    curve.days.emplace_back("2026-02-" + std::string(day < 10 ? "0" : "") + std::to_string(day),
                            9.0 - 0.4 * (day % 15) + (day > 14 ? 1.0 : 0));
  facts.curves = {curve};
  return facts;
}

AuditReport demo_audit() {
  AuditReport facts;
  facts.range = "2026-01-01 to 2026-03-31";
  facts.summary = {{"Jobs looked at", "61"}, {"Entries", "1,050"}, {"Checkpoint", "valid, 1,050 entries"}};
  facts.by_severity = {{"grave", 1}, {"major", 4}, {"minor", 9}, {"note", 12}};
  facts.by_month = {{"2026-01", 11}, {"2026-02", 4}, {"2026-03", 11}};
  for (int i = 0; i < 30; ++i) facts.off_by_percent.push_back(i == 17 ? 31 : 3.0 * ((i * 7) % 5) - 6);
  facts.use_limits = individuals_chart(facts.off_by_percent).value();
  for (int i = 0; i < 26; ++i)
    facts.departures.push_back({i == 0   ? "grave"
                                : i < 5  ? "major"
                                : i < 14 ? "minor"
                                         : "note",
                                i % 2 != 0 ? "Fog started while an item of the gate was open."
                                           : "A return was fogged longer than planned.",
                                "J-2026-01" + std::to_string(10 + i),
                                "2026-02-0" + std::to_string(1 + i % 9) + " 14:05", std::to_string(900 + i),
                                i % 2 != 0 ? "start-without-item" : "time-off-plan",
                                i % 2 != 0 ? "29 CFR 1910.134(g)(1)(iii)" : "company policy",
                                "Ask the person how they are; talk it through before they fog again."});
  return facts;
}

std::vector<ContainerLabel> demo_labels() {
  const auto product = brackwater();
  return {{"C-104", "Brackwater 20, Part A", "BW-2405", "32 fl oz", "2026-01-08", "", "2027-01-08", "shop",
           product, "fogwright:container:C-104"},
          {"M-0031", "Brackwater 20, mixed", "BW-2405", "1 gal", "2026-03-04", "2026-03-04", "2026-03-05 10:10",
           "Heron", product, "fogwright:batch:M-0031"}};
}

std::vector<std::pair<std::string, Paper>> all_papers(Language language, PageSize size) {
  const auto form = demo_form(language, size);
  return {{"leave-behind", leave_behind(demo_leave_behind(), form)},
          {"door-notice", door_notice(demo_door_notice(), form)},
          {"mixing-sheet", mixing_sheet(demo_mixing_sheet(), form)},
          {"job-record", job_record(demo_job_record(), form).value()},
          {"inventory", inventory_report(demo_inventory(), form)},
          {"audit", audit_report(demo_audit(), form)},
          {"container-labels", container_labels(demo_labels(), form).value()}};
}

}  // namespace fogwright::test
