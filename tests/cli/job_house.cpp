// SPDX-License-Identifier: Apache-2.0
#include "job_house.hpp"

#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <catch2/catch.hpp>
#include <filesystem>
#include <map>

#include "fogwright/desk/fold.hpp"
#include "fogwright/store.hpp"

namespace fogwright::test {
namespace {

std::string new_path() {
  static std::atomic<int> count{0};
  // In memory where there is a place for it: hundreds of durable writes a test.
  const std::filesystem::path memory = "/dev/shm";
  const auto folder = access(memory.c_str(), W_OK) == 0 ? memory : std::filesystem::temp_directory_path();
  const auto own = folder / ("fogwright-job-" + std::to_string(getpid()) + "-" + std::to_string(count++));
  std::filesystem::create_directory(own);
  return own / "book.db";
}

std::string last_line(const std::string& shown) {
  return shown.substr(shown.find_last_of('\n') == std::string::npos ? 0 : shown.find_last_of('\n') + 1);
}

const std::vector<std::pair<std::string, std::string>>& replies() {
  static const std::vector<std::pair<std::string, std::string>> all = {
      {"Kind, model and size", "full-facepiece, Saltwing 40, M"},
      {"Name of the cartridge", "K1"},
      {"How long will it be worn", "45 min"},
      {"How long was it worn", "40 min"},
      {"Last day on the container", "2027-01-31"},
      {"Id of the batch", "M1"},
      {"How much is in the tank", "20 fl oz"},
      {"How much is left in the tank", "7 fl oz"},
      {"How many animals", "0"},
      {"How many people", "3"},
      {"entrances are posted", "2"},
      {"signs are down", "2"},
      {"Handle of the person outside", "ash"},
      {"Type start", "start"},
      {"Type release", "release"},
      {"Enter when the valve opens", ""},
      {"Seconds that the valve was open", ""},
  };
  return all;
}

}  // namespace

JobHouse::JobHouse(const std::string& product) : product_(product), path_(new_path()) {
  machine.now_ms = 1'772'460'000'000;  // 2 March 2026, 08:00 in Chicago
  machine.environment = {{"FOGWRIGHT_BOOK", path_}, {"FOGWRIGHT_ZONE", "America/Chicago"}};
  REQUIRE(create_sqlite_book(path_, "books.example/test", fold, [this] { return machine.now_ms; }));
  const std::vector<std::vector<std::string>> by_ash = {
      {"crew", "enrol", "ash", "--role", "owner", "--role", "safety-officer"},
      {"crew", "enrol", "rowan", "--role", "technician"},
      {"place", "add", "heron", "--type", "van"},
      {"product", "adopt", demo_labels + product + ".toml"},
      {"crew", "credential", "rowan", "--what", "licence", "--issued", "2026-01-05", "--expires", "2026-12-31"},
      {"crew", "credential", "rowan", "--what", "medical-clearance", "--issued", "2026-01-05", "--expires",
       "2026-12-31"},
      {"crew", "credential", "rowan", "--what", "fit-test", "--issued", "2026-01-05", "--facepiece",
       "full-facepiece", "--model", "Saltwing 40", "--size", "M"},
      {"cartridge", "register", "K1", "--model", "Reedmoor 7", "--words", "organic vapor/acid gas", "--words",
       "P100", "--schedule", "8 h", "--basis", "the maker's table"}};
  for (auto words : by_ash) {
    words.insert(words.end(), {"--by", "ash"});
    done(std::move(words));
  }
  const std::vector<std::string> rest = {"--lot",     "A17",        "--size",  "1 qt",
                                         "--expires", "2027-01-31", "--place", "heron"};
  const auto receive = [&](const std::string& id, const std::string& part) {
    std::vector<std::string> words = {"stock", "receive", product, "--id", id};
    words.insert(words.end(), rest.begin(), rest.end());
    if (!part.empty()) words.insert(words.end(), {"--part", part});
    done(std::move(words));
  };
  if (product == "fenmist-rtu") {
    receive("C1", "");
  } else {
    receive("A1", "Part A concentrate");
    receive("B1", "Part B activator (citric acid)");
    done({"stock", "mix", product, "--make", "1/2 gal", "--part", "A1", "--part", "B1", "--place", "heron",
          "--id", "M1", "--respirator-worn"});
  }
  std::vector<std::string> plan = {"job",        "plan",       "--product",    product, "--area", "2400",
                                   "--returns",  "2",          "--entrances",  "2",     "--van",  "heron",
                                   "--customer", "a customer", "--technician", "rowan"};
  // Without airing out this one's hold would run for a day.
  if (product != "fenmist-rtu") plan.insert(plan.end(), {"--purge-air-changes", "5"});
  done(std::move(plan));
}

JobHouse::JobHouse(const JobHouse& other)
    : machine(other.machine), product_(other.product_), path_(new_path()) {
  std::filesystem::copy_file(other.path_, path_);
  machine.environment["FOGWRIGHT_BOOK"] = path_;
}

JobHouse::~JobHouse() {
  std::error_code ignored;
  std::filesystem::remove_all(std::filesystem::path(path_).parent_path(), ignored);
}

Ran JobHouse::call(std::vector<std::string> words) {
  if (std::find(words.begin(), words.end(), "--by") == words.end())
    words.insert(words.end(), {"--by", "rowan"});
  machine.pass(1'000);
  return machine.run(std::move(words));
}

Ran JobHouse::done(std::vector<std::string> words) {
  const std::string first = words[0] + (words.size() > 1 ? " " + words[1] : "");
  Ran ran = call(std::move(words));
  INFO(first << ": " << ran.err);
  REQUIRE(ran.status == 0);
  return ran;
}

nlohmann::json JobHouse::job() { return done({"job", "show", "J1", "--json"}).json(); }

std::string JobHouse::answer(const std::string& item) const {
  static const std::map<std::string, std::string> special = {
      {"respirator-facepiece", "full-facepiece, Saltwing 40, M"},
      {"cartridge-words", "K1"},
      {"cartridge-hours", "45 min"},
      {"cartridge-hours-added", "40 min"},
      {"product-in-date", "2027-01-31"},
      {"mix-time", "M1"},
      {"volume-before", "20 fl oz"},
      {"volume-after", "7 fl oz"},
      {"animals-out", "0"},
      {"everyone-out", "3"},
      {"entrances-posted", "2"},
      {"signs-down", "2"},
      {"standby-person", "ash"}};
  const bool mixed = product_ != "fenmist-rtu";
  if (item == "product-right") return mixed ? "DEMO-2" : "DEMO-1";
  if (item == "lot-noted") return mixed ? "A1 B1" : "C1";
  const auto found = special.find(item);
  return found == special.end() ? "yes" : found->second;
}

void JobHouse::meet(const std::string& stage) {
  const nlohmann::json shown = job();  // kept: the loop below reads out of it
  for (const auto& one : shown.at("missing"))
    if (one.at("stage") == stage) {
      const std::string item = one.at("requirement");
      done({"job", "check", "J1", item, answer(item)});
    }
}

std::string JobHouse::give_home() {
  const auto data = std::filesystem::path(path_).parent_path() / "data";
  machine.environment["XDG_DATA_HOME"] = data;
  return data / "fogwright" / "running";
}

std::string JobHouse::reply(const std::string& shown) const {
  const std::string question = last_line(shown);
  if (question.find("registration number") != std::string::npos) return answer("product-right");
  if (question.find("Ids of the containers") != std::string::npos) return answer("lot-noted");
  for (const auto& [words, typed] : replies())
    if (question.find(words) != std::string::npos) return typed;
  return "yes";
}

std::optional<char> JobHouse::press(std::int64_t timeout_ms) {
  if (keys_waited++ == power_fails_at) throw PowerLost{};
  // The fog's clock asks every quarter of a second, the hold's every second.
  if (timeout_ms >= 1'000) {
    machine.pass(hold_tick_ms);
    return std::nullopt;
  }
  machine.pass(timeout_ms);
  fogged_ms_ += timeout_ms;
  if (fogged_ms_ < 63'000) return std::nullopt;
  fogged_ms_ = 0;
  return 'n';
}

Ran JobHouse::walk(int answers) {
  fogged_ms_ = 0;
  keys_waited = 0;
  int given = 0;
  machine.on_line = [&, this](const std::string& shown) -> std::optional<std::string> {
    if (answers >= 0 && given++ >= answers) return std::nullopt;
    machine.pass(1'000);
    return reply(shown);
  };
  machine.on_key = [this](std::int64_t timeout_ms) { return press(timeout_ms); };
  return call({"job", "run", "J1"});
}

}  // namespace fogwright::test
