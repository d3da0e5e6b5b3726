// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <catch2/catch.hpp>
#include <regex>

#include "paper/moment.hpp"
#include "paper/text.hpp"
#include "paper/words.hpp"

using namespace fogwright::paper;

namespace {

std::vector<std::string> places_of(std::string_view line) {
  const std::string text(line);
  const std::regex place("\\{[0-9]\\}");
  std::vector<std::string> places;
  for (std::sregex_iterator at(text.begin(), text.end(), place), end; at != end; ++at)
    places.push_back(at->str());
  std::sort(places.begin(), places.end());
  return places;
}

std::size_t words_in(std::string_view line) {
  return static_cast<std::size_t>(std::count(line.begin(), line.end(), ' ')) + 1;
}

}  // namespace

TEST_CASE("both languages have every word, in order, with the same places to fill in") {
  const auto english = words_en(), spanish = words_es();
  REQUIRE(english.size() == spanish.size());
  REQUIRE(english.size() == static_cast<std::size_t>(Word::not_listed) + 1);
  for (std::size_t i = 0; i < english.size(); ++i) {
    INFO(english[i].text);
    CHECK(static_cast<std::size_t>(english[i].word) == i);
    CHECK(spanish[i].word == english[i].word);
    CHECK_FALSE(english[i].text.empty());
    CHECK_FALSE(spanish[i].text.empty());
    CHECK(places_of(english[i].text) == places_of(spanish[i].text));
  }
  for (const auto language : {Language::en, Language::es}) {
    CHECK(words_in(word(language, Word::months)) == 12);
    CHECK(words_in(word(language, Word::weekdays)) == 7);
  }
}

TEST_CASE("no word of ours promises safety or compliance") {
  for (const auto language : {Language::en, Language::es})
    for (const auto& line : words_of(language)) {
      INFO(line.text);
      CHECK_FALSE(
          std::regex_search(std::string(line.text), std::regex("is safe|es segur|complies|cumple con")));
    }
}

TEST_CASE("dates and times read as people of the language write them") {
  const LocalTime time{2026, 3, 4, 16, 5, "CST"};
  CHECK(long_time(time, Language::en) == "Wednesday, March 4, 2026, 4:05 PM CST");
  CHECK(long_time(time, Language::es) == "miércoles, 4 de marzo de 2026, 16:05 CST");
  CHECK(clock_time({2026, 3, 4, 0, 0, ""}, Language::en) == "12:00 AM");
  CHECK(clock_time({2026, 3, 4, 12, 7, ""}, Language::en) == "12:07 PM");
  CHECK(long_date({2026, 2, 30, 0, 0, ""}, Language::en) == "2026-02-30");
  CHECK(day_number("1970-01-02") == 1);
  CHECK(day_number("2000-03-01") == 11017);
  CHECK_FALSE(day_number("2026-02-30"));
  CHECK_FALSE(day_number("March 4"));
}

TEST_CASE("text that is no UTF-8 or holds control characters is made printable") {
  CHECK(clean("a\xFF"
              "b") == "a\uFFFDb");
  CHECK(clean("a\xC0\x80") == "a\uFFFD\uFFFD");          // overlong
  CHECK(clean("\xED\xA0\x80") == "\uFFFD\uFFFD\uFFFD");  // half of a surrogate pair
  CHECK(clean(std::string("a\0b\x1B[1m\tc\nd", 11)) == "ab[1m c\nd");
  CHECK(clean("ñandú 漢 😀") == "ñandú 漢 😀");
  CHECK(escaped("<a href=\"x\">&</a>") == "&lt;a href=&quot;x&quot;&gt;&amp;&lt;/a&gt;");
  CHECK(letters("ñandú") == 5);
  CHECK(first_letters("ñandú", 2) == "ña");
}
