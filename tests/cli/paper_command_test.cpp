// SPDX-License-Identifier: Apache-2.0
// Papers and charts through the command line.
#include <fmt/format.h>
#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <regex>

#include "fogwright/book/tlog_proof.hpp"
#include "fogwright/desk/fold.hpp"
#include "fogwright/press.hpp"
#include "job_house.hpp"

using namespace fogwright;
using namespace fogwright::test;
using nlohmann::json;
namespace fs = std::filesystem;

namespace {

std::string text_of(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// A job house with a named firm and a folder for its papers.
struct PaperHouse : JobHouse {
  explicit PaperHouse(const std::string& product) : JobHouse(product) {
    folder = fs::path(machine.environment["FOGWRIGHT_BOOK"]).parent_path() / "papers";
    done({"firm", "set", "Quillfen Duct Care", "--contact", "Office, day and night=555-0100", "--by", "ash"});
  }
  /// Everything up to the end of the fog; the hold runs.
  void fog() {
    meet("before mixing or filling");
    meet("before fogging");
    done({"job", "clear", "J1"});
    done({"job", "start", "J1"});
    for (const char* name : {"return 1", "return 2"}) {
      machine.pass(63'000);
      done({"job", "fogged", "J1", name, "--time", "63 s"});
    }
    meet("while fogging");
    done({"job", "fog-off", "J1", "--left", "7 fl oz"});
  }
  void release() {
    machine.pass(job().at("hold").at("total_ms").get<std::int64_t>());
    meet("before release");
    done({"job", "release", "J1"});
  }
  /// A paper as HTML; its text.
  std::string html(std::vector<std::string> words) {
    const fs::path file = folder / ("paper-" + std::to_string(++printed) + ".html");
    words.insert(words.end(), {"--as", "html", "--out", file.string()});
    done(std::move(words));
    return text_of(file);
  }
  /// A signed checkpoint of the book as it is.
  VerifierKey sign() {
    SignerKey key;
    key.name = "books.example/test";
    key.seed.fill(7);
    const TemporaryFile file(skey_text(key) + "\n", ".key");
    done({"book", "checkpoint", "--key", file.path()});
    return key.verifier();
  }

  fs::path folder;
  int printed = 0;
};

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

}  // namespace

TEST_CASE("a paper is a PDF in a new file, and nothing is overwritten") {
  PaperHouse house("fenmist-rtu");
  const std::string file = (house.folder / "record.pdf").string();
  CHECK(house.done({"paper", "record", "J1", "--out", file}).out == file + "\n");
  CHECK(text_of(file).starts_with("%PDF-"));
  const std::string before = text_of(file);
  const Ran again = house.call({"paper", "record", "J1", "--out", file, "--json"});
  CHECK(again.status != 0);
  CHECK(again.error().at("code") == "already-exists");
  CHECK(text_of(file) == before);
  // In a folder a paper has the name of its job.
  house.done({"paper", "record", "J1", "--out", house.folder.string(), "--language", "es"});
  CHECK(fs::exists(house.folder / "J1-record-es.pdf"));
}

TEST_CASE("a paper names the firm and whom to call, and says whose national numbers it adds") {
  PaperHouse house("fenmist-rtu");
  house.fog();
  const std::string door = house.html({"paper", "door", "J1"});
  for (const char* words : {"Quillfen Duct Care", "Office, day and night", "555-0100",
                            "Poison Help, United States", "1-800-222-1222", "911", "Fenmist RTU", "DEMO-1"}) {
    INFO(words);
    CHECK(has(door, words));
  }
  const std::string other =
      house.html({"paper", "door", "J1", "--firm", "Tarn Air", "--contact", "Desk=555-0142"});
  CHECK(has(other, "Tarn Air"));
  CHECK(has(other, "555-0142"));
  CHECK_FALSE(has(other, "555-0100"));
  house.done(
      {"firm", "set", "Quillfen Duct Care", "--contact", "Office=555-0100", "--no-us-numbers", "--by", "ash"});
  CHECK_FALSE(has(house.html({"paper", "door", "J1"}), "1-800-222-1222"));
}

TEST_CASE("the owner names the firm, and nobody else") {
  PaperHouse house("fenmist-rtu");
  CHECK(house.call({"firm", "set", "Rowan's own"}).status == 1);
  CHECK(house.call({"firm", "set", "Quillfen", "--contact", "555-0100", "--by", "ash"}).status == 2);
  CHECK(house.call({"firm", "set", "Quillfen", "--contact", "555-0100=Office", "--by", "ash"}).status == 2);
  CHECK(house.done({"firm", "show", "--json"}).json().at("name") == "Quillfen Duct Care");
}

TEST_CASE(
    "a leave-behind before the release tells people to stay out, and after it since when they may go in") {
  PaperHouse house("fenmist-rtu");
  CHECK(house.call({"paper", "leave-behind", "J1", "--json"}).error().at("code") == "wrong-state");
  house.fog();
  CHECK(has(house.html({"paper", "leave-behind", "J1"}),
            "Not released yet. Stay out until the technician tells you."));
  CHECK(has(house.html({"paper", "leave-behind", "J1", "--language", "es"}), "Todavía no se ha liberado."));
  house.release();
  const std::string released = house.html({"paper", "leave-behind", "J1"});
  CHECK(has(released, "People and animals may go in again from:"));
  CHECK(has(released, "Released by rowan"));
  // 15:00 UTC and later on that day is 9 AM and later at the job's place.
  CHECK(std::regex_search(released, std::regex("Monday, March 2, 2026, [0-9]+:[0-9]{2} [AP]M CST")));
  CHECK(house.call({"paper", "door", "J1", "--json"}).error().at("code") == "wrong-state");
}

TEST_CASE(
    "a door notice never shows an earlier time than the end of the hold, whatever was done to the clock") {
  PaperHouse house("fenmist-rtu");
  house.fog();
  const auto total = house.job().at("hold").at("total_ms").get<std::int64_t>();
  const std::int64_t end = house.machine.now_ms + total;
  const std::int64_t minute = 60'000;
  const paper::LocalTime shown = [&] {
    const std::string door = house.html({"paper", "door", "J1"});
    std::smatch found;
    REQUIRE(std::regex_search(door, found, std::regex("([0-9]+):([0-9]{2}) ([AP])M")));
    const int hour = std::stoi(found[1]) % 12 + (found[3] == "P" ? 12 : 0);
    return paper::LocalTime{2026, 3, 2, hour, std::stoi(found[2]), ""};
  }();
  // The house is six hours behind UTC in March.
  const std::int64_t minutes = (end - 1'772'431'200'000) / minute;  // since 2 March 2026, 00:00 in Chicago
  CHECK(shown.hour * 60 + shown.minute >= minutes);
  CHECK(shown.hour * 60 + shown.minute <= minutes + 1);
}

TEST_CASE("what was erased prints as erased, what was never given as not stated") {
  PaperHouse house("fenmist-rtu");
  CHECK(has(house.html({"paper", "record", "J1"}), "a customer"));
  CHECK(has(house.html({"paper", "record", "J1"}), "not stated"));  // no address was given
  auto store =
      open_sqlite_book(house.machine.environment["FOGWRIGHT_BOOK"], fold, [] { return std::int64_t{0}; });
  REQUIRE(store);
  REQUIRE((*store)->erase_private(house.job().at("site").get<std::string>()));
  const std::string erased = house.html({"paper", "record", "J1"});
  CHECK(has(erased, "erased from the record"));
  CHECK_FALSE(has(erased, "a customer"));
}

TEST_CASE("a record without a checkpoint over it says so; with one it carries a proof that verifies") {
  PaperHouse house("brackwater-20");
  house.fog();
  CHECK(has(house.html({"paper", "record", "J1"}), "No signed checkpoint covers this job yet."));
  const VerifierKey key = house.sign();
  auto store =
      open_sqlite_book(house.machine.environment["FOGWRIGHT_BOOK"], fold, [] { return std::int64_t{0}; });
  REQUIRE(store);
  std::optional<paper::Proof> proof;
  (*store)->read([&](const Documents& now, const Head& head) {
    const press::Source source{**store,
                               now,
                               head,
                               {house.machine.now_ms, {}},
                               [](const std::string&, std::int64_t) { return paper::LocalTime{}; },
                               "UTC"};
    proof = press::job_record(source, "J1").value().proof;
  });
  REQUIRE(proof);
  CHECK(proof->holds_entry);
  const auto read = read_proof(proof->qr);
  REQUIRE(read);
  REQUIRE(read->extra);
  CHECK(verify_proof(*read, *read->extra, key));
  CHECK(has(*read->extra, "\"job\":\"J1\""));
  std::string other = *read->extra;
  other.back() = ' ';
  CHECK_FALSE(verify_proof(*read, other, key));
}

TEST_CASE("a record tells what was planned and done, item by item, with the label's own words") {
  PaperHouse house("brackwater-20");
  house.fog();
  const std::string record = house.html({"paper", "record", "J1"});
  for (const char* words : {"2,400 sq ft", "return 2", "63.0 s", "measured before and after", "A17", "rowan",
                            "29 CFR 1910.134(f)(2)", "in the air after fog-off", "DANGER", "holding"}) {
    INFO(words);
    CHECK(has(record, words));
  }
  const auto label = read_label(text_of(brackwater), "brackwater").value();
  const std::string spanish = house.html({"paper", "record", "J1", "--language", "es"});
  for (const std::string& caution : label.precautions) {
    INFO(caution);
    CHECK(has(record, caution));
    CHECK(has(spanish, caution));
  }
  for (const char* english :
       {"Planned", "Done", "measured", "Released", "Hold", "Volume", "running", "Readings"})
    CHECK_FALSE(has(spanish, fmt::format(">{}<", english)));
}

TEST_CASE("the whole set of a job names what it has not") {
  PaperHouse house("fenmist-rtu");
  const Ran early = house.done({"paper", "all", "J1", "--out", house.folder.string(), "--json"});
  CHECK(early.json().at("papers").size() == 1);
  CHECK(early.json().at("left_out").size() == 3);
  PaperHouse high("brackwater-20");
  high.fog();
  high.done({"paper", "all", "J1", "--out", (high.folder / "set").string()});
  for (const char* name : {"J1-record.pdf", "J1-leave-behind.pdf", "J1-leave-behind-es.pdf", "J1-door.pdf",
                           "J1-door-es.pdf", "J1-mixing.pdf"}) {
    INFO(name);
    CHECK(fs::exists(high.folder / "set" / name));
  }
  // Once a name is taken, none of the set is written.
  fs::remove(high.folder / "set" / "J1-record.pdf");
  CHECK(high.call({"paper", "all", "J1", "--out", (high.folder / "set").string()}).status != 0);
  CHECK_FALSE(fs::exists(high.folder / "set" / "J1-record.pdf"));
}

TEST_CASE("a mixing sheet needs no book") {
  PaperHouse house("fenmist-rtu");
  const std::string file = (house.folder / "mix.html").string();
  const Ran ran =
      run({"paper", "mixing", "--label", brackwater, "--make", "1 gal", "--as", "html", "--out", file});
  INFO(ran.err);
  REQUIRE(ran.status == 0);
  CHECK(has(text_of(file), "Part A concentrate"));
  CHECK(run({"paper", "mixing", "--label", fenmist, "--make", "1 gal", "--out", file + "2"}).status != 0);
  CHECK(run({"paper", "mixing"}).status == 2);
}

TEST_CASE("labels are of named containers or of all at a place") {
  PaperHouse house("brackwater-20");
  const std::string all = house.html({"paper", "labels", "--place", "heron"});
  for (const char* words : {">A1<", ">B1<", ">M1<", "Part A concentrate", "A17"}) {
    INFO(words);
    CHECK(has(all, words));
  }
  CHECK_FALSE(has(house.html({"paper", "labels", "A1"}), ">B1<"));
  CHECK(press::container_code("A1", false) == "fogwright:container:A1");
  CHECK(house.call({"paper", "labels"}).status == 2);
  CHECK(house.call({"paper", "labels", "Z9", "--json"}).error().at("code") == "not-found");
  CHECK(house.call({"paper", "labels", "--place", "nowhere", "--json"}).error().at("code") == "not-found");
}

TEST_CASE("an inventory lists what there is") {
  PaperHouse house("fenmist-rtu");
  const std::string paper = house.html({"paper", "inventory"});
  CHECK(has(paper, ">C1<"));
  CHECK(has(paper, "32.0 fl oz"));
  CHECK(house.call({"paper", "inventory", "--place", "nowhere"}).status != 0);
}

TEST_CASE("a paper says plainly what it cannot be made of") {
  PaperHouse house("fenmist-rtu");
  CHECK(house.call({"paper", "record", "J9", "--json"}).error().at("code") == "not-found");
  CHECK(house.call({"paper", "record", "--json"}).status == 2);
  CHECK(house.call({"paper", "record", "J1", "--language", "fr", "--json"}).error().at("where") ==
        "--language");
  CHECK(house.call({"paper", "record", "J1", "--as", "doc"}).status == 2);
  JobHouse nobody("fenmist-rtu");
  const json error = nobody.call({"paper", "record", "J1", "--json"}).error();
  CHECK(error.at("code") == "missing-value");
  CHECK(has(error.at("hint"), "firm set"));
}

TEST_CASE("the air of a job is drawn on the terminal, plain where it knows no more") {
  PaperHouse house("brackwater-20");
  const std::string plain = house.done({"job", "chart", "J1", "--width", "60"}).out;
  CHECK(has(plain, "hold ends"));
  CHECK(std::all_of(plain.begin(), plain.end(), [](char c) { return (c & 0x80) == 0; }) ==
        !has(plain, "m\u00b3"));  // the unit keeps its letter
  house.machine.environment["LANG"] = "en_US.UTF-8";
  const std::string drawn = house.done({"job", "chart", "J1", "--width", "60"}).out;
  CHECK(drawn != plain);
  house.machine.environment["LC_ALL"] = "C";
  CHECK(house.done({"job", "chart", "J1", "--width", "60"}).out == plain);
  const json chart = house.done({"job", "chart", "J1", "--json"}).json();
  CHECK(chart.at("series").size() >= 1);
  CHECK(house.call({"job", "chart", "J1", "--substance", "Xenon", "--json"}).error().at("code") == "not-found");
}

TEST_CASE("a product without gas or vapor has no curve, and says what its hold stands by") {
  PaperHouse house("fenmist-rtu");
  const json error = house.call({"job", "chart", "J1", "--json"}).error();
  CHECK(error.at("code") == "not-found");
  CHECK(has(error.at("hint"), "haze"));
}

TEST_CASE("charts are well-formed pictures in new files") {
  PaperHouse house("brackwater-20");
  house.fog();
  fs::create_directories(house.folder);
  const std::string air = (house.folder / "air.svg").string(), stock = (house.folder / "stock.svg").string();
  house.done({"job", "chart", "J1", "--svg", air});
  house.done({"stock", "chart", "brackwater-20/Part A concentrate", "--svg", stock});
  CHECK(house.call({"job", "chart", "J1", "--svg", air, "--json"}).error().at("code") == "already-exists");
  for (const std::string& file : {air, stock}) {
    INFO(file);
    CHECK(std::system(
              ("python3 -c 'import sys, xml.dom.minidom as m; m.parse(sys.argv[1])' " + file).c_str()) == 0);
  }
}

TEST_CASE("used against planned takes two jobs") {
  PaperHouse house("fenmist-rtu");
  house.fog();
  const json error = house.call({"job", "compare", "--json"}).error();
  CHECK(error.at("code") == "not-found");
  CHECK(has(error.at("message"), "two jobs"));
}

TEST_CASE("the audit report says how the record fares, counts by severity, and lists with what to do") {
  PaperHouse house("fenmist-rtu");
  house.fog();
  house.done({"stock", "draw", "C1", "--volume", "2 gal"});  // more than it holds: an over-draw
  house.sign();
  const std::string report = house.html({"paper", "audit", "--no-verify"});
  for (const char* words : {"Quillfen Duct Care", "the whole record", "not read again for this report",
                            "over-draw", "Departures by month", "company policy", "Count the vessel"}) {
    INFO(words);
    CHECK(has(report, words));
  }
  CHECK(has(house.html({"paper", "audit", "--no-verify", "--rule", "hold-not-kept"}), "hold-not-kept"));
  CHECK_FALSE(
      has(house.html({"paper", "audit", "--no-verify", "--rule", "hold-not-kept"}), "Count the vessel"));
  CHECK(has(house.html({"paper", "audit", "--no-verify", "--language", "es"}), "todo el registro"));
}

TEST_CASE("audit --charts draws the departures by month below the list, in text only") {
  PaperHouse house("fenmist-rtu");
  house.done({"stock", "draw", "C1", "--volume", "2 gal"});
  CHECK(has(house.done({"audit", "--charts"}).out, "Departures by month"));
  CHECK_FALSE(has(house.done({"audit"}).out, "Departures by month"));
  CHECK(json::accept(house.done({"audit", "--charts", "--json"}).out));
}

TEST_CASE("an exposure tells the peak of the plan made again, marked as modelled") {
  PaperHouse house("brackwater-20");
  house.fog();
  const json rows = json::parse(house.done({"ask", "exposure", "rowan", "--json"}).out).at("rows");
  bool told = false;
  for (const json& row : rows)
    for (const json& peak : row.value("modelled", json::array()))
      told = told || (peak.value("cas", "") == "10049-04-4" && peak.value("modelled_peak_ug_m3", 0) > 0);
  INFO(rows.dump(1));
  CHECK(told);
}
