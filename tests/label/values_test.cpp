// SPDX-License-Identifier: Apache-2.0
#include <rapidcheck.h>

#include <date/date.h>

#include "files.hpp"
#include "label/nearest.hpp"
#include "label/text.hpp"
#include "label/values.hpp"

using namespace fogwright;
using namespace fogwright::profile;

// CAS numbers as the NIOSH Pocket Guide and OSHA's sampling pages print them; 57-55-6 from a data sheet. The
// rule: CAS, "Check Digit Verification of CAS Registry Numbers", from memory.
TEST_CASE("published CAS numbers pass their check digit") {
  for (const char* cas : {"10049-04-4", "7782-50-5", "7722-84-1", "64-19-7", "10028-15-6", "64-17-5", "67-63-0",
                          "111-30-8", "50-00-0", "7664-41-7", "57-55-6"})
    CHECK(is_cas_number(cas));
}

TEST_CASE("what is not shaped like a CAS number is none") {
  for (const char* text : {"", "-", "7722-84", "7722841", "7722-84-1 ", " 7722-84-1", "7722-8-41", "772a-84-1",
                           "0722-84-1", "1-00-1", "7722-84-x", "123456789-00-1", "7722--84-1"})
    CHECK_FALSE(is_cas_number(text));
}

TEST_CASE("of the ten check digits exactly one fits, and a changed digit is noticed") {
  CHECK(rc::check("check digit", [] {
    const auto digits = std::to_string(*rc::gen::inRange(1000, 1'000'000'000));
    const auto split = digits.size() - 2;
    const auto with = [&](const std::string& d, char check) {
      return d.substr(0, split) + "-" + d.substr(split) + "-" + check;
    };
    std::string fitting;
    for (char c = '0'; c <= '9'; ++c)
      if (is_cas_number(with(digits, c))) fitting += c;
    RC_ASSERT(fitting.size() == 1u);
    // The digit next to the check digit has weight 1, so each change of it shows.
    std::string changed = digits;
    changed.back() = changed.back() == '9' ? '0' : static_cast<char>(changed.back() + 1);
    RC_ASSERT(!is_cas_number(with(changed, fitting[0])));
  }));
}

TEST_CASE("a date is one of the calendar, for every day of a century and for none between", "[date]") {
  for (int y = 1969; y <= 2100; ++y)
    for (unsigned m = 0; m <= 13; ++m)
      for (unsigned d = 0; d <= 32; ++d) {
        char text[32];
        std::snprintf(text, sizeof text, "%04d-%02u-%02u", y, m, d);
        const bool real = (date::year{y} / date::month{m} / date::day{d}).ok() && y >= 1970 && y <= 2099;
        if (is_calendar_date(text) != real) FAIL(text);
      }
  for (const char* text : {"2024-3-01", "24-03-01", "2024/03/01", "2024-03-01T00", "", "2024-0a-01"})
    CHECK_FALSE(is_calendar_date(text));
}

TEST_CASE("invisible characters are found, letters of any script pass") {
  for (const char* text : {"a\tb", "\x7F", "\u0085", "\u2028", "\u202E", "\u2066", "\u200F"})
    CHECK(complaint_about(text, 99));
  for (const char* text : {"a", "µg/m³", "für", "水", "😀"}) CHECK_FALSE(complaint_about(text, 99));
  CHECK(complaint_about("", 99) == "the text is empty");
  CHECK(complaint_about("  ", 99) == "the text is empty");
  CHECK_FALSE(complaint_about("水水", 2));
  CHECK(complaint_about("水水水", 2));
}

TEST_CASE("the nearest word is offered, and none where none is near") {
  const std::vector<std::string_view> known = {"name", "maker", "strength_class", "oxidiser"};
  CHECK(nearest("nmae", known) == "name");
  CHECK(nearest("OXIDIZER", known) == "oxidiser");
  CHECK(nearest("strength-class", known) == "strength_class");
  CHECK_FALSE(nearest("colour", known));
  CHECK_FALSE(nearest("x", known));
  CHECK_FALSE(nearest(std::string(100'000, 'n'), known));
}

TEST_CASE("a quotation for a message is short, clean and still valid UTF-8") {
  CHECK(in_quotes("a\nb") == "\"a b\"");
  std::string longer(59, 'x');
  longer += "水水";
  CHECK(in_quotes(longer) == "\"" + std::string(59, 'x') + "...\"");
}
