// SPDX-License-Identifier: Apache-2.0
#include "desk/csv.hpp"
#include "stock_world.hpp"

using namespace fogwright;
using namespace fogwright::test;
using nlohmann::json;

namespace {

/// A job that was fogged before the book, at an address that is kept.
void old_job(BookDesk& desk) {
  desk.set_up();
  const TemporaryFile log(
      "product,technician,started,ended,released,area,fogged,used,customer,address,zone\n"
      "fenmist-rtu,rowan,2025-11-03 09:00,2025-11-03 09:05,2025-11-03 13:30,2400,hall=126 s,12.8 fl oz,A. "
      "Alder,"
      "12 Mill Lane,America/Chicago\n",
      ".csv");
  desk.done({"job", "import", log.path()});
}

std::string first_line(const std::string& text) { return text.substr(0, text.find('\n')); }

}  // namespace

TEST_CASE("a question is answered in its first line", "[cli][ask]") {
  BookDesk desk;
  old_job(desk);
  desk.receive("C1", "2027-01-31");
  CHECK(first_line(desk.done({"ask", "address", "12", "mill", "lane", "--width", "200"}).out) ==
        "1 job at \"12 mill lane\", on 2025-11-03: Fenmist RTU, no lot noted.");
  CHECK(first_line(desk.done({"ask", "use", "--width", "200"}).out) ==
        "12.8 fl oz of Fenmist RTU in 1 job, in 2025-11.");
  CHECK(first_line(desk.done({"ask", "exposure", "rowan", "--width", "200"}).out)
            .starts_with("rowan: 1 exposure, on 2025-11-03"));
  CHECK(first_line(desk.done({"ask", "lot", "A1", "--width", "200"}).out) ==
        "Lot A1 (fenmist-rtu): 1 container and 0 jobs; 128.0 fl oz left in heron.");
}

TEST_CASE("an answer is JSON and CSV as well", "[cli][ask]") {
  BookDesk desk;
  old_job(desk);
  const json answer = desk.done({"ask", "use", "--json"}).json();
  CHECK(answer.at("rows")[0].at("registration") == "DEMO-1");
  const auto csv = read_csv(desk.done({"ask", "use", "--format", "csv"}).out, "out");
  REQUIRE(csv.has_value());
  CHECK(csv->at(0).fields == std::vector<std::string>{"month", "product", "name", "registration", "volume_ul",
                                                      "jobs", "jobs_without_volume", "actives", "actives_mg"});
  CHECK(csv->at(1).fields[0] == "2025-11");
}

TEST_CASE("an answer fits a narrow screen", "[cli][ask]") {
  BookDesk desk;
  old_job(desk);
  for (const char* width : {"40", "80"})
    for (const std::vector<std::string>& words :
         {std::vector<std::string>{"ask", "use"}, {"ask", "exposure", "rowan"}, {"ask", "address", "mill"}}) {
      std::vector<std::string> call = words;
      call.insert(call.end(), {"--width", width});
      std::istringstream out(desk.done(call).out);
      for (std::string line; std::getline(out, line);) CHECK(line.size() <= std::stoul(width));
    }
}

TEST_CASE("what cannot be answered says what to ask instead", "[cli][ask]") {
  BookDesk desk;
  desk.set_up();
  CHECK(desk.run({"ask", "lot", "A17"}).status == 1);
  CHECK(desk.run({"ask", "exposure", "nobody"}).status == 1);
  CHECK(desk.run({"ask", "fogger", "gust"}).status == 1);
  CHECK(desk.run({"ask", "use", "--from", "March"}).status == 2);
  CHECK(desk.run({"ask", "address"}).status == 2);
  CHECK(desk.run({"ask"}).status == 2);
}
