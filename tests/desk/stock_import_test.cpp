// SPDX-License-Identifier: Apache-2.0
#include "desk/csv.hpp"
#include "desk/money.hpp"
#include "shop.hpp"

using namespace desk_test;

namespace {

const std::string header = "container,product,lot,size,expires,place,cost\n";

std::vector<std::string> faults(const std::string& text) {
  const auto read = read_deliveries_csv(text, "d.csv");
  REQUIRE_FALSE(read.has_value());
  std::vector<std::string> where;
  for (const Error& fault : read.error()) {
    CHECK(fault.code == ErrorCode::bad_import);
    CHECK_FALSE(fault.hint.empty());
    where.push_back(fault.where);
  }
  return where;
}

std::vector<CsvRecord> csv(const std::string& text) {
  const auto records = read_csv(text, "f");
  REQUIRE(records.has_value());
  return *records;
}

using Fields = std::vector<std::string>;
using Where = std::vector<std::string>;

}  // namespace

// RFC 4180, section 2, rules 1 to 7.
TEST_CASE("CSV by RFC 4180", "[stock][import]") {
  CHECK(csv("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n").size() == 2);
  CHECK(csv("aaa,bbb,ccc\r\nzzz,yyy,xxx")[1].fields == Fields{"zzz", "yyy", "xxx"});
  CHECK(csv("\"aaa\",\"bbb\",ccc\n")[0].fields == Fields{"aaa", "bbb", "ccc"});
  const auto broken = csv("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx");
  CHECK(broken[0].fields == Fields{"aaa", "b\r\nbb", "ccc"});
  CHECK(broken[1].line == 3);
  CHECK(csv("\"aaa\",\"b\"\"bb\",\"ccc\"")[0].fields == Fields{"aaa", "b\"bb", "ccc"});
  CHECK(csv("a,,\n")[0].fields == Fields{"a", "", ""});
  CHECK(csv("a\n\n\nb\n")[1].line == 4);
  CHECK(csv("\xEF\xBB\xBF"
            "a\n")[0]
            .fields == Fields{"a"});
}

TEST_CASE("broken CSV is refused with its line", "[stock][import]") {
  const auto where = [](const std::string& text) {
    const auto records = read_csv(text, "f");
    REQUIRE_FALSE(records.has_value());
    return records.error().front().where;
  };
  CHECK(where("a\n\"b") == "f:2");
  CHECK(where("a\n\"b\"c\n") == "f:2");
  CHECK(where("a\nb\"c\n") == "f:2");
}

TEST_CASE("deliveries are read from CSV with what was typed", "[stock][import]") {
  const auto read = read_deliveries_csv(header +
                                            "C7,fenmist-rtu,A1,1 gal,2027-01-31,heron,$84.50\n"
                                            ",fenmist-rtu,A2,\"1,000 mL\",2027-01-31,shop,\n",
                                        "d.csv");
  REQUIRE(read.has_value());
  REQUIRE(read->size() == 2);
  CHECK(read->at(0).container == "C7");
  CHECK(read->at(0).size_ul == 3'785'411);
  CHECK(read->at(0).size_typed == "1 gal");
  CHECK(read->at(0).cost_cents == 8'450);
  CHECK(read->at(1).size_ul == litre);
  CHECK_FALSE(read->at(1).cost_cents.has_value());
  CHECK(read->at(1).where == "d.csv:3");
}

TEST_CASE("every fault of an import comes with its line", "[stock][import]") {
  CHECK(faults(header + "C1,fenmist-rtu,A1,much,2027-01-31,heron,1\n"
                        "C2,fenmist-rtu,A1,1 gal,2027-02-30,heron,1.5\n"
                        "C3,fenmist-rtu,,1 gal,2027-01-31,heron,\n"
                        "C4,fenmist-rtu\n") == Where{"d.csv:2", "d.csv:3", "d.csv:3", "d.csv:4", "d.csv:5"});
  CHECK(faults("product,lot,colour,lot\nx,y,z,y\n") ==
        Where{"d.csv:1", "d.csv:1", "d.csv:1", "d.csv:1", "d.csv:1"});
  CHECK(faults(header) == Where{"d.csv:1"});
  CHECK(faults("") == Where{"d.csv:1"});
}

TEST_CASE("an import goes in whole or not at all", "[stock][import]") {
  Shop shop = Shop::open();
  const auto read = read_deliveries_csv(header +
                                            "C1,fenmist-rtu,A1,1 gal,2027-01-31,heron,\n"
                                            "C1,fenmist-rtu,A1,1 gal,2027-01-31,moon,\n"
                                            "C2,other,A1,1 gal,2027-01-31,heron,\n",
                                        "d.csv");
  REQUIRE(read.has_value());
  Where where;
  for (const Error& fault : check_deliveries(shop.context(), *read)) where.push_back(fault.where);
  CHECK(where == Where{"d.csv:3", "d.csv:3", "d.csv:4"});
  CHECK(Shop::refused(receive_many(shop.context(), *read)).where == "d.csv:3");
}

TEST_CASE("an import numbers what has no id and never takes a name twice", "[stock][import]") {
  Shop shop = Shop::open();
  const auto read = read_deliveries_csv(header +
                                            ",fenmist-rtu,A1,1 gal,2027-01-31,heron,\n"
                                            "C2,fenmist-rtu,A1,1 gal,2027-01-31,heron,\n"
                                            ",fenmist-rtu,A1,1 gal,2027-01-31,heron,\n",
                                        "d.csv");
  REQUIRE(read.has_value());
  shop.done(receive_many(shop.context(), *read));
  for (const char* id : {"C1", "C2", "C3"}) CHECK(shop.remaining(id) == 3'785'411);
  CHECK(shop.departures().empty());
}

TEST_CASE("money is read and shown in whole cents", "[stock][import]") {
  CHECK(read_cents("84.50", "") == 8'450);
  CHECK(read_cents("$84", "") == 8'400);
  for (const char* text : {"", "$", "84.5", "-1", "1,000", "84.500", ".50", "1e3", "9999999999"})
    CHECK(read_cents(text, "").error().code == ErrorCode::not_understood);
  CHECK(show_cents(8'450) == "$84.50");
  CHECK(show_cents(-5) == "-$0.05");
}
