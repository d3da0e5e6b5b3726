// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "desk/csv.hpp"

using namespace fogwright;

namespace {

using Fields = std::vector<std::string>;

Fields read_back(const std::string& text) {
  const auto records = read_csv(text, "f");
  REQUIRE(records.has_value());
  REQUIRE(records->size() == 1);
  return records->front().fields;
}

}  // namespace

// RFC 4180, section 2: the examples of rules 1, 6 and 7, as they stand there (rule 5: quotes are needed only
// there).
TEST_CASE("a line of CSV is written as RFC 4180 shows it", "[exchange]") {
  CHECK(csv_line({"aaa", "bbb", "ccc"}) == "aaa,bbb,ccc\r\n");
  CHECK(csv_line({"aaa", "b\r\nbb", "ccc"}) == "aaa,\"b\r\nbb\",ccc\r\n");
  CHECK(csv_line({"aaa", "b\"bb", "ccc"}) == "aaa,\"b\"\"bb\",ccc\r\n");
}

// Rule 4: spaces are part of a field.
TEST_CASE("every field is read back as it was written", "[exchange]") {
  for (const Fields& fields : {Fields{"", ""}, Fields{" a ", "b,c"}, Fields{"\"", "\"\"", "a\"b"},
                               Fields{"\n", "\r", "a\r\nb"}, Fields{"größe", "5 °C"}})
    CHECK(read_back(csv_line(fields)) == fields);
}

TEST_CASE("a record of one empty field is no empty line", "[exchange]") { CHECK(csv_line({""}) == "\"\"\r\n"); }

// OWASP Application Security Verification Standard 5.0, requirement 1.2.10: a single quote goes before = + - @
// TAB and NUL; CR, LF and the wide forms are from memory of the OWASP page on CSV injection.
TEST_CASE("no text is taken for a formula", "[exchange]") {
  for (const std::string text : {"=1+1", "+1+1", "-1-1", "@SUM(A1)", "\tx", "\rx", "\nx", "=", "-", "--1",
                                 "+-1", "-.", "=cmd|' /C calc'!A0", "-1 fl oz",
                                 "\xEF\xBC\x9D"
                                 "1",
                                 "\xEF\xBC\x8B"
                                 "1",
                                 "\xEF\xBC\x8D"
                                 "1",
                                 "\xEF\xBC\xA0"
                                 "a"})
    CHECK(csv_guarded(text) == "'" + text);
  CHECK(csv_guarded(std::string("\0x", 2)) == std::string("'\0x", 3));
}

TEST_CASE("plain numbers and plain words stand as they are", "[exchange]") {
  for (const std::string text :
       {"-12", "+3.5", "-0.25", "0", "", "a=b", "1-2", " =1", "it's", "'quoted'", "2026-03-04"})
    CHECK(csv_guarded(text) == text);
}

TEST_CASE("a guard is taken off again, and nothing else", "[exchange]") {
  for (const std::string text : {"=1", "'=1", "''=1", "-5", "'-5", "'a", "''", "'", "", "@", "'\t"}) {
    CHECK(csv_unguarded(csv_guarded(text)) == text);
  }
}
