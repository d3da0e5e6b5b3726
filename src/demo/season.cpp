// SPDX-License-Identifier: Apache-2.0
#include "demo/season.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <nlohmann/json.hpp>

namespace fogwright::demo {
namespace {

using nlohmann::json;
constexpr std::int64_t hour_ms = 3'600'000;
constexpr std::int64_t day_ms = 24 * hour_ms;
constexpr std::int64_t season_begins_ms = 1'772'461'800'000;  // 2026-03-02 08:30 in Chicago
constexpr int routine_job_count = 24;

std::string shown(const std::vector<std::string>& words) {
  std::string line = "$ fogwright";
  for (const std::string& word : words)
    line += word.find(' ') == std::string::npos ? " " + word : " '" + word + "'";
  return line;
}

}  // namespace

Season::Season(std::string folder, std::string source)
    : folder_(std::move(folder)),
      source_(std::move(source)),
      machine_(folder_ + "/quillfen.db", source_ + "/product_profiles_demo", season_begins_ms) {}

void Season::say(const std::string& text) { std::cout << text << '\n'; }

void Season::keep(const std::string& file, const std::string& text) {
  std::ofstream(folder_ + "/" + file) << text;
}

Done Season::step(const std::string& by, const std::vector<std::string>& words, bool show, int status) {
  Done done = machine_.run(by, words);
  if (show) say(shown(words) + "\n" + done.out + done.err);
  if (done.status != status) {
    if (!show) say(shown(words) + "\n" + done.out + done.err);
    say(fmt::format("that step ended with {} and not {}", done.status, status));
    if (failed_ == 0) failed_ = done.status != 0 ? done.status : 1;
  }
  return done;
}

void Season::set_up_crew() {
  step("marrow", {"crew", "enrol", "marrow", "--role", "owner"});
  step("marrow", {"crew", "enrol", "teasel", "--role", "safety-officer"});
  for (const char* technician : {"sedge", "bracken"}) {
    step("marrow", {"crew", "enrol", technician, "--role", "technician"});
    step("teasel", {"crew", "credential", technician, "--what", "medical-clearance", "--issued", "2026-01-12",
                    "--expires", "2027-01-11"});
    step("teasel", {"crew", "credential", technician, "--what", "licence", "--issued", "2026-01-05",
                    "--expires", "2026-12-31", "--number", "TV-104"});
    for (const char* facepiece : {"full-facepiece", "half-mask"})
      step("teasel", {"crew", "credential", technician, "--what", "fit-test", "--issued", "2026-02-10",
                      "--facepiece", facepiece, "--model", "Saltwing 40", "--size", "M"});
  }
}

void Season::set_up_gear() {
  step("marrow", {"fogger", "add", "gust", "--tank", "1/2 gal", "--empty-weight", "9 lb"});
  step("sedge", {"fogger", "test", "gust", "--catch", "178 mL in 60 s", "--catch", "182 mL in 60 s", "--catch",
                 "180 mL in 60 s"});
  step("teasel",
       {"cartridge", "register", "y1", "--model", "Saltwing OV/AG", "--words", "organic vapor/acid gas",
        "--words", "P100", "--schedule", "8 h", "--basis", "the maker's table for chlorine dioxide"});
  step("teasel", {"cartridge", "register", "p1", "--model", "Saltwing P", "--words", "P100", "--schedule",
                  "40 h", "--basis", "the maker's table"});
}

void Season::set_up_stock() {
  step("marrow", {"place", "add", "shop", "--type", "shop"});
  for (const char* van : {"heron", "plover"}) step("marrow", {"place", "add", van, "--type", "van"});
  for (const char* label : {"fenmist-rtu", "brackwater-20", "palelight-hp"})
    step("teasel", {"product", "adopt", fmt::format("{}/product_profiles_demo/{}.toml", source_, label)});
  for (const char* place : {"shop", "heron", "plover"}) step("sedge", {"place", "read", place, "68 F"});
  for (const auto& [van, lot] : {std::pair{"heron", "FR-2601"}, {"plover", "FR-2602"}})
    for (int i = 0; i < 2; ++i)
      step("sedge", {"stock", "receive", "fenmist-rtu", "--lot", lot, "--size", "1 gal", "--expires",
                     "2027-01-31", "--place", van, "--cost", "62.40"});
  step("sedge",
       {"stock", "receive", "brackwater-20", "--lot", "BW-0417", "--size", "1 qt", "--expires", "2026-11-30",
        "--place", "heron", "--cost", "118.00", "--part", "Part A concentrate", "--id", "A1"});
  step("sedge",
       {"stock", "receive", "brackwater-20", "--lot", "BW-0418", "--size", "1 qt", "--expires", "2026-11-30",
        "--place", "heron", "--cost", "41.00", "--part", "Part B activator (citric acid)", "--id", "B1"});
}

void Season::set_up() {
  step("marrow", {"book", "create", "--origin", "quillfen.example/tarn-vale"}, true);
  set_up_crew();
  step("marrow", {"firm", "set", "Quillfen Duct Care", "--contact", "Office, day and night=555-0100"});
  set_up_gear();
  set_up_stock();
  step("marrow", {"stock", "list"}, true);
}

std::string Season::plan(const std::string& by, const std::string& product, const std::string& van,
                         std::vector<std::string> more) {
  std::vector<std::string> words = {"job",   "plan",   "--product",       product,    "--technician",
                                    by,      "--zone", "America/Chicago", "--fogger", "gust",
                                    "--van", van,      "--json"};
  words.insert(words.end(), more.begin(), more.end());
  const Done done = step(by, words);
  const json answer = json::parse(done.out, nullptr, false);
  return answer.is_object() ? answer.value(json::json_pointer("/entries/0/body/job"), std::string()) : "";
}

void Season::walk(const std::string& by, const std::string& job, const std::string& container,
                  const std::string& tank, const std::string& left, const std::string& file,
                  bool leave_in_hold) {
  const bool high = container == "mix";
  const std::map<std::string, std::string> answers = {
      {"Copy the registration number", high ? "DEMO-2" : "DEMO-1"},
      {"Ids of the containers", high ? "A1 B1" : container},
      {"Last day on the container", high ? "2026-11-30" : "2027-01-31"},
      {"Id of the batch", "mix-1"},
      {"How much is in the tank", tank},
      {"How much is left in the tank", left},
      {"Kind, model and size", fmt::format("{}, Saltwing 40, M", high ? "full-facepiece" : "half-mask")},
      {"Name of the cartridge", high ? "y1" : "p1"},
      {"How long will it be worn", "30 min"},
      {"How long was it worn", "25 min"},
      {"How many animals", "1"},
      {"How many people", "3"},
      {"How many entrances", "2"},
      {"How many signs", "2"},
      {"Handle of the person outside", by == "sedge" ? "bracken" : "sedge"},
  };
  machine_.leave_in_hold(leave_in_hold);
  const Done done = machine_.run(by, {"job", "run", job}, answers);
  machine_.leave_in_hold(false);
  if (!file.empty()) std::ofstream(folder_ + "/" + file, std::ios::app) << done.out << done.err;
  const json state = json::parse(machine_.run(by, {"job", "show", job, "--json"}).out, nullptr, false);
  const char* const should_be = leave_in_hold ? "holding" : "closed";
  if (state.is_object() && state.value("state", "") == should_be) return;
  say(done.out + done.err + fmt::format("job {} is not {}", job, should_be));
  if (failed_ == 0) failed_ = 1;
}

void Season::routine_jobs() {
  for (int i = 0; i < routine_job_count; ++i) {
    machine_.set_time(season_begins_ms + (1 + i * 2) * day_ms + (i % 3) * hour_ms);
    const bool heron = i % 2 == 0;
    const std::string by = heron ? "sedge" : "bracken";
    const std::string van = heron ? "heron" : "plover";
    const int area = 1'200 + i * 397 % 1'700;
    const std::string job = plan(by, "fenmist-rtu", van,
                                 {"--area", std::to_string(area), "--returns", std::to_string(1 + i % 4),
                                  "--entrances", "2", "--animals"});
    // Two containers a van: the first is used up first.
    const std::string container = heron ? (i < 14 ? "C1" : "C2") : (i < 14 ? "C3" : "C4");
    walk(by, job, container, "20 fl oz", fmt::format("{} mL", 591 - area * 168 / 1000));
  }
}

void Season::walk_ready_to_use() {
  machine_.set_time(season_begins_ms + 60 * day_ms);
  say("A ready-to-use job, walked through at the terminal (whole: ready-to-use.txt)\n");
  const std::string job =
      plan("sedge", "fenmist-rtu", "heron",
           {"--area", "2400", "--returns", "3", "--entrances", "2", "--animals", "--customer",
            "the household at Sallow Row", "--address", "4 Sallow Row, Tarn Vale"});
  walked_.push_back(job);
  walk("sedge", job, "C2", "20 fl oz", "190 mL", "ready-to-use.txt");
  step("sedge", {"job", "show", job}, true);
  step("marrow", {"stock", "cost", job}, true);
}

void Season::walk_high_strength() {
  machine_.set_time(season_begins_ms + 62 * day_ms);
  say("A high-strength oxidiser: the gate refuses to start before every item is met\n");
  const std::string job =
      plan("sedge", "brackwater-20", "heron",
           {"--area", "2400", "--returns", "3", "--entrances", "2", "--animals", "--purge-air-changes", "5",
            "--customer", "the shop at Fenmill", "--address", "1 Fenmill Yard, Tarn Vale"});
  walked_.push_back(job);
  keep("refused-start.txt", step("sedge", {"job", "start", job}, true, 1).err);
  step("sedge",
       {"stock", "mix", "brackwater-20", "--make", "20 fl oz", "--part", "A1", "--part", "B1", "--place",
        "heron", "--respirator-worn", "--id", "mix-1"},
       true);
  const json open = json::parse(machine_.run("sedge", {"job", "show", job, "--json"}).out, nullptr, false);
  say(fmt::format(
      "{} items are open; sedge meets them one by one, fogs, and holds (whole: high-strength.txt)\n",
      open.is_object() ? open.value("missing", json::array()).size() : 0));
  walk("sedge", job, "mix", "20 fl oz", "190 mL", "high-strength.txt", true);
  for (const char* language : {"en", "es"})
    step("sedge", {"paper", "door", job, "--language", language, "--out", folder_ + "/papers/"});
  say("The hold runs; a release before its end is refused, and the refusal stands in the book\n");
  keep("refused-release.txt", step("sedge", {"job", "release", job}, true, 1).err);
  walk("sedge", job, "mix", "20 fl oz", "190 mL", "high-strength.txt");
  step("sedge", {"job", "show", job}, true);
}

void Season::close_the_books() {
  step("marrow", {"stock", "list"}, true);
  step("marrow", {"stock", "order"}, true);
  keep("checkpoint.txt", step("marrow", {"book", "checkpoint"}).out);
  keep("export.jsonl", step("marrow", {"book", "export"}).out);
  step("marrow", {"book", "verify"}, true);
}

/// Every kind of paper; what a customer reads in both languages.
void Season::print_papers() {
  const std::string papers = folder_ + "/papers/";
  for (const std::string& job : walked_) step("sedge", {"paper", "all", job, "--out", papers});
  step("marrow", {"paper", "inventory", "--out", papers});
  step("marrow", {"paper", "labels", "--place", "heron", "--out", papers});
  step("teasel", {"paper", "audit", "--out", papers});
  step("marrow", {"job", "chart", walked_.back()}, true);
  step("marrow", {"job", "chart", walked_.back(), "--svg", papers + walked_.back() + "-air.svg"});
  step("marrow", {"stock", "chart", "fenmist-rtu", "--svg", papers + "fenmist-rtu-stock.svg"});
  step("marrow", {"job", "compare", "--svg", papers + "used-against-planned.svg"});
  say("The papers of the season are in " + papers + "\n");
}

/// What the safety officer and an inspector ask for.
void Season::answer_for_it() {
  step("teasel", {"audit"}, true);
  step("teasel", {"ask", "lot", "BW-0417"}, true);
  step("teasel", {"ask", "address", "Fenmill", "Yard"}, true);
  step("teasel", {"ask", "exposure", "sedge"});
  step("teasel",
       {"book", "bundle", "--job", walked_.back(), "--with-private", "--out",
        folder_ + "/" + walked_.back() + "-evidence.zip"},
       true);
}

int Season::play() {
  std::filesystem::create_directories(folder_);
  say("Quillfen Duct Care, Tarn Vale: an invented firm with invented products. A season in simulated time.\n");
  set_up();
  routine_jobs();
  say(fmt::format("{} routine jobs were planned, gated, timed, held, released and closed.\n",
                  routine_job_count));
  walk_ready_to_use();
  walk_high_strength();
  close_the_books();
  print_papers();
  answer_for_it();
  return failed_;
}

}  // namespace fogwright::demo
