// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "quantity/readers_by_name.hpp"
#include "quantity/text.hpp"
#include "quantity/unit_table.hpp"
#include "table_file.hpp"

using namespace fogwright;
using testing::readers_by_name;
using testing::Row;

namespace {

// The escapes that tests/data/refused_spellings.txt announces.
std::string unescaped(std::string s) {
  const std::pair<std::string_view, std::string_view> escapes[] = {
      {"\\n", "\n"}, {"\\t", "\t"}, {"\\x01", "\x01"}};
  for (const auto& [from, to] : escapes)
    for (std::size_t at = s.find(from); at != std::string::npos; at = s.find(from, at))
      s.replace(at, from.size(), to);
  return s;
}

std::string literal(std::string s) {
  for (std::size_t at = s.find("\\\\"); at != std::string::npos; at = s.find("\\\\", at + 1)) s.erase(at, 1);
  return s;
}

bool refuses_as_not_understood(const Error& e) {
  return e.code == ErrorCode::not_understood && e.where == "--x" && !e.hint.empty();
}

}  // namespace

TEST_CASE("every accepted spelling gives its value") {
  std::set<std::string> seen;
  for (const Row& row : testing::table_rows("accepted_spellings.txt", 3)) {
    CAPTURE(row[0], row[1]);
    REQUIRE(readers_by_name().count(row[0]) == 1);
    const auto value = readers_by_name().at(row[0])(row[1], "--x");
    if (!value) FAIL(value.error().message);
    const double expected = std::stod(row[2]);
    CHECK(std::abs(*value - expected) <= 1e-15 * expected);
    seen.insert(row[0]);
  }
  CHECK(seen.size() == readers_by_name().size());
}

TEST_CASE("every refused text is refused with its reason, the text quoted, the place and a hint") {
  std::set<std::string> seen;
  for (const Row& row : testing::table_rows("refused_spellings.txt", 4)) {
    CAPTURE(row[0], row[1]);
    REQUIRE(readers_by_name().count(row[0]) == 1);
    const auto value = readers_by_name().at(row[0])(unescaped(row[1]), "--x");
    REQUIRE_FALSE(value);
    CHECK_THAT(value.error().message, Catch::Contains(literal(row[2])));
    CHECK_THAT(value.error().message, Catch::Contains(text::quoted(unescaped(row[1]))));
    CHECK_THAT(value.error().hint, Catch::Contains(row[3]));
    CHECK(value.error().where == "--x");
    const bool beyond = row[2] == "is below absolute zero" || row[2] == "is more than the whole";
    CHECK(value.error().code == (beyond ? ErrorCode::out_of_range : ErrorCode::not_understood));
    seen.insert(row[0]);
  }
  CHECK(seen.size() == readers_by_name().size());
}

TEST_CASE("a number without a unit takes the bare unit that the caller names, and only then") {
  CHECK(read_floor_area("2,400", "", {"sq ft"}).value() == FloorArea(2400, unit::square_foot));
  CHECK(read_floor_area("223 m2", "", {"sq ft"}).value() == FloorArea(223, unit::square_metre));
  CHECK(read_temperature("-5", "", {"C"}).value() == Temperature::celsius(-5));
  CHECK(read_face_area("600", "", {"sq in"}).value() == FaceArea(600, unit::square_inch));
  CHECK_FALSE(read_face_area("20x30", "", {"sq in"}));
  CHECK_FALSE(read_floor_area("2,400", ""));
}

TEST_CASE("a bare unit that the reader does not know is a defect of the caller and named as one") {
  const auto area = read_floor_area("2,400", "", {"cubit"});
  REQUIRE_FALSE(area);
  CHECK(area.error().code == ErrorCode::internal_fault);
  CHECK(read_temperature("70", "", {"R"}).error().code == ErrorCode::internal_fault);
}

TEST_CASE("a text of 200 bytes is read and one of 201 is refused") {
  const std::string padded = std::string(195, ' ') + "12 mL";
  CHECK(read_liquid_volume(padded, "").value() == LiquidVolume(12, unit::millilitre));
  const auto longer = read_liquid_volume(" " + padded, "--x");
  REQUIRE_FALSE(longer);
  CHECK(refuses_as_not_understood(longer.error()));
  CHECK_THAT(longer.error().message, Catch::Contains("longer than 200"));
}

TEST_CASE(
    "the refused value is quoted short, and control and invisible characters and broken UTF-8 are escaped") {
  CHECK(text::quoted("2,400 m²") == "\"2,400 m²\"");
  CHECK(text::quoted("a\x1B[31mb\x7F") == "\"a\\x1B[31mb\\x7F\"");
  CHECK(text::quoted("\xFF\xC3") == "\"\\xFF\\xC3\"");
  CHECK(text::quoted("\xED\xA0\x80") == "\"\\xED\\xA0\\x80\"");    // a surrogate
  CHECK(text::quoted("\xC0\xAF") == "\"\\xC0\\xAF\"");             // overlong
  CHECK(text::quoted("\xC2\x85") == "\"\\xC2\\x85\"");             // a C1 control
  CHECK(text::quoted("\xE2\x80\xAE!") == "\"\\xE2\\x80\\xAE!\"");  // turns the direction of the text
  CHECK(text::quoted(std::string(41, 'x')) == "\"" + std::string(40, 'x') + "...\"");
  CHECK(text::quoted(std::string(40, 'x')) == "\"" + std::string(40, 'x') + "\"");
}

TEST_CASE("within one reader no spelling means two units, and every unit goes by its own symbol") {
  for (const text::Form* form : text::all_forms()) {
    CAPTURE(form->noun);
    std::set<std::string> spellings;
    for (const text::UnitRow& row : form->units) {
      CAPTURE(row.symbol);
      CHECK(text::find_unit(*form, row.symbol) == &row);
      CHECK(text::accepted_forms(*form).find(row.symbol) != std::string::npos);
      for (std::string rest(row.spellings); !rest.empty();) {
        const std::string one = rest.substr(0, rest.find(' '));
        CAPTURE(one);
        CHECK(spellings.insert(one).second);
        CHECK(text::canonical_unit(one) == one);
        rest.erase(0, one.size() + 1);
      }
    }
  }
}

TEST_CASE("the examples that a hint gives are read") {
  for (const auto& [name, read] : readers_by_name()) {
    CAPTURE(name);
    const std::string hint = read("?", "").error().hint;
    const std::string start = "write for example ";
    REQUIRE(hint.starts_with(start));
    std::string examples = hint.substr(start.size(), hint.find(';') - start.size());
    if (const auto last = examples.rfind(" or "); last != std::string::npos) examples.replace(last, 4, ", ");
    for (std::size_t end = 0; end != std::string::npos; examples.erase(0, end + 2)) {
      end = examples.find(", ");
      const std::string one = examples.substr(0, end);
      CAPTURE(one);
      CHECK(read(one, ""));
      if (end == std::string::npos) break;
    }
  }
}
