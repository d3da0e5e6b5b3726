// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <sstream>

#include "office/exit_status.hpp"
#include "ran.hpp"

using namespace fogwright;
using namespace fogwright::test;
using nlohmann::json;

namespace {

struct Refusal {
  std::vector<std::string> words;
  int status;
  std::string code, where;
};

void check(const Refusal& refusal, const std::string& label = fenmist) {
  CAPTURE(refusal.words);
  auto words = refusal.words;
  words.emplace_back("--json");
  const auto ran = test::plan(words, label);
  CHECK(ran.status == refusal.status);
  CHECK(ran.out.empty());
  const json error = ran.error();
  CHECK(error["code"] == refusal.code);
  CHECK(error["where"].get<std::string>().find(refusal.where) != std::string::npos);
  CHECK_FALSE(error["message"].get<std::string>().empty());
  CHECK_FALSE(error["hint"].get<std::string>().empty());
}

std::string changed(const std::string& file, const std::string& from, const std::string& to) {
  std::string text = *read_file(file);
  const auto at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("what lies outside the model is refused with what to do next") {
  for (const Refusal& refusal : std::vector<Refusal>{
           {{"--returns", "3"}, 2, "not-understood", ""},
           {{"--area", "0", "--returns", "3"}, 2, "out-of-range", ""},
           {{"--area", "-5", "--returns", "3"}, 2, "not-understood", "--area"},
           {{"--area", "2400", "--returns", "3", "--flow", "-5 mL/min"}, 2, "not-understood", "--flow"},
           {{"--area", "2400", "--returns", "3", "-5 C"}, 2, "bad-usage", "plan"},
           {{"--area", "nan", "--returns", "3"}, 2, "not-understood", "--area"},
           {{"--area", "inf", "--returns", "3"}, 2, "not-understood", "--area"},
           {{"--area", "200001", "--returns", "3"}, 2, "out-of-range", ""},
           {{"--area", "2400 cubits", "--returns", "3"}, 2, "not-understood", "--area"},
           {{"--area", "2400", "--returns", "0"}, 2, "not-understood", "--returns"},
           {{"--area", "2400", "--returns", "201"}, 2, "not-understood", "--returns"},
           {{"--area", "2400", "--returns", "three"}, 2, "not-understood", "--returns"},
           {{"--area", "2400", "--returns", "3", "--rate", "44"}, 1, "rate-outside-band", ""},
           {{"--area", "2400", "--returns", "3", "--rate", "61"}, 1, "rate-outside-band", ""},
           {{"--area", "2400", "--returns", "3", "--rate", "fast"}, 2, "not-understood", "--rate"},
           {{"--area", "2400", "--returns", "3", "--flow", "0 mL/min"}, 2, "not-understood", "--flow"},
           {{"--area", "2400", "--returns", "3", "--flow", "180"}, 2, "not-understood", "--flow"},
           {{"--area", "2400", "--return", "hall=20x30 in", "--return", "den", "--split", "face"},
            2,
            "missing-value",
            ""},
           {{"--area", "2400", "--return", "hall", "--return", "hall"}, 2, "not-understood", "--return"},
           {{"--area", "2400", "--return", "return 2", "--returns", "2"}, 2, "not-understood", "--returns"},
           {{"--area", "2400", "--returns", "3", "--temperature", "70 C"}, 2, "out-of-range", ""},
           {{"--area", "2400", "--returns", "3", "--pressure", "30 kPa"}, 2, "out-of-range", ""},
           {{"--area", "2400", "--returns", "3", "--ceiling", "2 ft"}, 2, "out-of-range", "--ceiling"},
           {{"--area", "2400", "--returns", "3", "--material", "lined"}, 1, "label-forbids", ""},
           {{"--area", "2400", "--returns", "3", "--split", "fairly"}, 2, "not-understood", "--split"},
           {{"--area", "2400", "--returns", "3", "--bogus"}, 2, "bad-usage", "plan"},
           {{"--area", "2400", "--area", "2500", "--returns", "3"}, 2, "bad-usage", "--area"},
           {{"--site", "/nowhere/at/all.toml"}, 4, "file-fault", "/nowhere/at/all.toml"},
           {{"--site", "x.toml", "--area", "2400"}, 2, "bad-usage", "--area"}})
    check(refusal);
}

TEST_CASE("a refusal is wrapped on a terminal, and one line in a file") {
  const auto longest_line = [](const std::string& text) {
    std::istringstream lines(text);
    std::size_t longest = 0;
    for (std::string line; std::getline(lines, line);) longest = std::max(longest, line.size());
    return longest;
  };
  Machine machine;
  const std::vector<std::string> words = {"label", "check", "/nowhere/at/all/or/in/any/other/place.toml"};
  const std::string in_file = machine.run(words).err;
  CHECK(longest_line(in_file) > 40);
  machine.err_is_terminal = true;
  machine.terminal_width = 40;
  const std::string on_terminal = machine.run(words).err;
  CHECK(longest_line(on_terminal) <= 40);
  CHECK(std::count(on_terminal.begin(), on_terminal.end(), '\n') >
        std::count(in_file.begin(), in_file.end(), '\n'));
}

TEST_CASE("--large allows more than 200,000 sq ft in one system") {
  CHECK(test::plan({"--area", "200001", "--returns", "40", "--large"}).status == 0);
}

TEST_CASE("a label that names no ductwork, or no fogging, can't be planned with") {
  const TemporaryFile no_ducts(changed(fenmist, "\"hvac-ductwork\", ", ""));
  check({{"--area", "2400", "--returns", "3"}, 1, "label-forbids", ""}, no_ducts.path());
  const TemporaryFile no_fog(changed(fenmist, "\"fogging\", ", ""));
  check({{"--area", "2400", "--returns", "3"}, 1, "label-forbids", ""}, no_fog.path());
}

TEST_CASE("a high-strength label without a re-entry time can't be planned with") {
  std::string text = *read_file(brackwater);
  const auto at = text.find("empty_time");
  REQUIRE(at != std::string::npos);
  text.erase(at, text.find('\n', at) - at + 1);
  const TemporaryFile silent(text);
  const auto ran = test::plan({"--area", "2400", "--returns", "3", "--json"}, silent.path());
  CHECK(ran.status != 0);
  CHECK(ran.out.empty());
}

TEST_CASE("every fault of a site file is told with its line and column, exit status 3") {
  const TemporaryFile site(
      "format = 1\nsplit = \"fair\"\n[[system]]\narea = \"2400 cubits\"\nreturns = 0\nareaa = 3\n");
  const auto ran = run({"plan", "--label", fenmist, "--site", site.path(), "--json"});
  CHECK(ran.status == 3);
  const json faults = json::parse(ran.err)["faults"];
  REQUIRE(faults.size() == 4);
  std::vector<std::string> places;
  for (const json& fault : faults) {
    CHECK(fault["code"] == "bad-site");
    places.push_back(fault["where"].get<std::string>().substr(site.path().size()));
  }
  CHECK(places == std::vector<std::string>{":2:9", ":4:8", ":5:11", ":6:9"});
}

TEST_CASE("a site file that is not TOML is refused with the place") {
  const TemporaryFile site("format = 1\narea = \n");
  const auto ran = run({"plan", "--label", fenmist, "--site", site.path(), "--json"});
  CHECK(ran.status == 3);
  CHECK(ran.error()["code"] == "bad-site");
  CHECK(ran.error()["where"].get<std::string>().find(":2:") != std::string::npos);
}

TEST_CASE("an unknown command, action or folder says what is known") {
  CHECK(run({"frobnicate"}).status == 2);
  CHECK(run({"label", "frobnicate"}).err.find("check, show, list") != std::string::npos);
  CHECK(run({"label", "list", "/nowhere"}).status == 1);
  CHECK(run({}).status == 2);
  CHECK(run({"help"}).status == 0);
}

TEST_CASE("a profile by name is looked for in the label folder") {
  const auto ran = run({"plan", "--label", "Fenmist RTU", "--area", "2400", "--returns", "3"},
                       {{"FOGWRIGHT_LABELS", demo_labels}});
  CHECK(ran.status == 0);
  const auto lost = run({"plan", "--label", "nothing", "--area", "2400", "--returns", "3"},
                        {{"FOGWRIGHT_LABELS", demo_labels}});
  CHECK(lost.status == 1);
  CHECK(lost.err.find("fenmist-rtu") != std::string::npos);
}

TEST_CASE("every error code has one exit status, from 1 to 4") {
  for (ErrorCode code : all_error_codes()) {
    const int status = static_cast<int>(exit_status(code));
    CAPTURE(code_name(code));
    CHECK(status >= 1);
    CHECK(status <= 4);
  }
  CHECK(exit_status(ErrorCode::gate_closed) == ExitStatus::refused);
  CHECK(exit_status(ErrorCode::not_understood) == ExitStatus::usage);
  CHECK(exit_status(ErrorCode::bad_book) == ExitStatus::bad_data);
  CHECK(exit_status(ErrorCode::storage_fault) == ExitStatus::system);
}

TEST_CASE("every command has help that names each of its options") {
  for (const Command& command : commands()) {
    std::vector<std::string> words = {std::string(command.name)};
    if (!command.action.empty()) words.emplace_back(command.action);
    words.emplace_back("--help");
    const auto ran = run(words);
    CHECK(ran.status == 0);
    for (const OptionRow& row : command.options)
      CHECK(ran.out.find(std::string("--") + row.name) != std::string::npos);
  }
}
