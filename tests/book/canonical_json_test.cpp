// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/canonical_json.hpp"

#include <fmt/format.h>
#include <rapidcheck.h>

#include <catch2/catch.hpp>
#include <clocale>

#include "book/es_number_file.hpp"
#include "book/json_generator.hpp"
#include "book/reference.hpp"

using namespace fogwright;
using nlohmann::json;

TEST_CASE("The published files become their published canonical forms", "[json]") {
  for (const char* name : {"arrays", "french", "sorting", "structures", "unicode", "values", "weird"}) {
    CAPTURE(name);
    const std::string wanted = reference::file(fmt::format("jcs/{}.output.json", name));
    const json value = read_strict_json(reference::file(fmt::format("jcs/{}.input.json", name))).value();
    CHECK(canonical_json(value) == wanted);
    CHECK(canonical_json(read_strict_json(wanted).value()) == wanted);
  }
}

TEST_CASE("Numbers are printed as in the table of RFC 8785", "[json]") {
  std::size_t rows = 0;
  for (const auto& row : reference::word_rows("es_numbers.txt")) {
    CAPTURE(row);
    const auto text =
        canonical_number(std::bit_cast<double>(std::uint64_t{std::stoull(row.at(0), nullptr, 16)}));
    if (row.at(1) == "error") {
      CHECK(text.error().code == ErrorCode::bad_entry);
    } else {
      CHECK(text == row.at(1));
    }
    ++rows;
  }
  CHECK(rows == 29);
}

TEST_CASE("The published number file comes out with its published checksums", "[json]") {
  EsNumberFile numbers;
  std::string text;
  std::size_t lines = 0;
  int compared = 0;
  for (const auto& row : reference::word_rows("es_number_file.txt")) {
    if (row[0] != "lines" || std::stoull(row[1]) > 100'000) continue;  // the longer ones take seconds
    for (; lines < std::stoull(row[1]); ++lines) {
      const double value = numbers.next();
      text += fmt::format("{:x},{}\n", std::bit_cast<std::uint64_t>(value), canonical_number(value).value());
    }
    CHECK(text.size() == std::stoull(row[3]));
    CHECK(reference::hex(sha256(text)) == row[2]);
    ++compared;
  }
  CHECK(compared == 3);
}

TEST_CASE("Numbers do not follow the locale", "[json]") {
  if (std::setlocale(LC_NUMERIC, "de_DE.UTF-8") == nullptr) WARN("no locale with a decimal comma here");
  CHECK(canonical_number(0.5) == "0.5");
  CHECK(canonical_json(read_strict_json("[2.50]").value()) == "[2.5]");
  std::setlocale(LC_NUMERIC, "C");
}

TEST_CASE("Integers at the edge of what a double holds", "[json]") {
  CHECK(canonical_json(9007199254740991) == "9007199254740991");
  CHECK(canonical_json(-9007199254740991) == "-9007199254740991");
  CHECK(canonical_json(9007199254740993) == "9007199254740992");  // the nearest double, as JSON.parse takes it
  CHECK(canonical_json(std::uint64_t{18446744073709551615U}) == "18446744073709552000");
  CHECK(canonical_json(std::int64_t{-9223372036854775807} - 1) == "-9223372036854776000");
}

TEST_CASE("Strings are escaped as RFC 8785 says and no more", "[json]") {
  CHECK(canonical_json(std::string("\0\x1f\b\t\n\f\r\"\\/\x7f<\xC3\xA9", 14)) ==
        "\"\\u0000\\u001f\\b\\t\\n\\f\\r\\\"\\\\/\x7f<\xC3\xA9\"");
  CHECK(canonical_json("\xC3").error().code == ErrorCode::bad_entry);
  CHECK(canonical_json("\xED\xA0\x80").error().code == ErrorCode::bad_entry);  // a surrogate
  CHECK(canonical_json({{"\xFF", 1}}).error().code == ErrorCode::bad_entry);
  CHECK(canonical_json(json::binary({1, 2})).error().code == ErrorCode::bad_entry);
}

TEST_CASE("Text that readers disagree on is refused", "[json]") {
  for (const std::string& wrong : {
           std::string(),
           std::string("{\"a\":1,\"a\":1}"),
           std::string("{\"a\":1,\"\\u0061\":2}"),
           std::string("{\"x\":{\"a\":1,\"b\":2,\"a\":3}}"),
           std::string("\"\\ud800\""),
           std::string("\"\\udc00\\ud800\""),
           std::string("\"\\ud800x\""),
           std::string("\"\xFF\""),
           std::string("\"\xC0\x80\""),
           std::string("\"\xED\xA0\x80\""),
           std::string("\"\xF4\x90\x80\x80\""),
           std::string("\"a\nb\""),
           std::string("1 2"),
           std::string("{} x"),
           std::string("NaN"),
           std::string("Infinity"),
           std::string("1e400"),
           std::string("-1e400"),
           std::string("01"),
           std::string("+1"),
           std::string("1."),
           std::string(".5"),
           std::string("'a'"),
           std::string("[1,]"),
           std::string("{\"a\":1,}"),
           std::string("/**/1"),
           std::string("\xEF\xBB\xBF{}"),
           std::string("{}\0", 3),
           std::string("tru"),
           std::string("[") + std::string(63, '[') + "[" + std::string(65, ']'),
       }) {
    CAPTURE(wrong);
    const auto value = read_strict_json(wrong);
    REQUIRE_FALSE(value);
    CHECK(value.error().code == ErrorCode::bad_entry);
    CHECK_FALSE(value.error().message.empty());
    CHECK_FALSE(value.error().hint.empty());
  }
  CHECK(read_strict_json(std::string(64, '[') + std::string(64, ']')));
  CHECK(read_strict_json(" { \"a\" : [ 1 , \"\\ud83d\\ude00\" ] } \n") == json{{"a", {1, "\xF0\x9F\x98\x80"}}});
}

TEST_CASE("A deep text is refused without being walked", "[json]") {
  CHECK_FALSE(read_strict_json(std::string(1'000'000, '[')));
}

TEST_CASE("The record takes integers, strings and structure, nothing else", "[json]") {
  CHECK(record_value_ok({{"a", {1, -5, "x", true, nullptr, json::object(), json::array()}}}));
  CHECK(record_value_ok(9007199254740991));
  CHECK(record_value_ok(-9007199254740991));
  CHECK_FALSE(record_value_ok(9007199254740992));
  CHECK_FALSE(record_value_ok(-9007199254740992));
  CHECK_FALSE(record_value_ok(std::uint64_t{18446744073709551615U}));
  CHECK_FALSE(record_value_ok(json::binary({1})));
  CHECK(record_value_ok({{"a", {{"b", {1, 56.0}}}}}).error().where == "/a/b/1");
  CHECK(record_value_ok({{"\xC3\xA9", 1}}).error().code == ErrorCode::bad_entry);
  json deep = 1;
  for (int i = 0; i < 64; ++i) deep = json::array({deep});
  CHECK(record_value_ok(deep));
  CHECK(read_strict_json(canonical_json(deep).value()) == deep);
  deep = json::array({deep});
  CHECK_FALSE(record_value_ok(deep));
  CHECK_FALSE(read_strict_json(canonical_json(deep).value()));
}

TEST_CASE("Canonical text reads back as the same value and prints the same again", "[json][property]") {
  CHECK(rc::check("print, read, print", [] {
    const json value = *json_value(3);
    const std::string text = canonical_json(value).value();
    const json again = read_strict_json(text).value();
    RC_ASSERT(again == value);
    RC_ASSERT(canonical_json(again).value() == text);
  }));
  CHECK(rc::check("doubles read back exactly", [] {
    const double value = std::bit_cast<double>(*rc::gen::arbitrary<std::uint64_t>());
    RC_PRE(std::isfinite(value));
    RC_ASSERT(read_strict_json(canonical_number(value).value()).value().get<double>() == value);
  }));
}
