// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <rapidcheck.h>

#include <nlohmann/json.hpp>
#include <string>

/// A string of characters from all planes, control characters included.
inline rc::Gen<std::string> unicode_text() {
  const auto character = rc::gen::element<std::string>(
      "a", "B", "7", "\"", "\\", "/", "\n", "\x01", "\x7f", "\xC2\x80", "\xC3\xB6", "\xE2\x82\xAC",
      "\xED\x9F\xBF", "\xEE\x80\x80", "\xEF\xAC\xB3", "\xF0\x9F\x98\x80", "\xF4\x8F\xBF\xBF");
  return rc::gen::map(rc::gen::container<std::vector<std::string>>(character),
                      [](const std::vector<std::string>& all) {
                        std::string text;
                        for (const auto& one : all) text += one;
                        return text;
                      });
}

/// A JSON value without fractions, nested at most this deep.
inline rc::Gen<nlohmann::json> json_value(int depth) {
  using nlohmann::json;
  const auto as_json = [](auto value) { return json(std::move(value)); };
  const auto text = rc::gen::map(unicode_text(), as_json);
  const auto number =
      rc::gen::map(rc::gen::inRange<std::int64_t>(-9'007'199'254'740'991, 9'007'199'254'740'992), as_json);
  const auto word = rc::gen::element<json>(true, false, nullptr);
  if (depth == 0) return rc::gen::oneOf(text, number, word);
  return rc::gen::mapcat(rc::gen::inRange(0, 5), [=](int kind) -> rc::Gen<json> {
    if (kind == 0) return text;
    if (kind == 1) return number;
    if (kind == 2) return word;
    if (kind == 3)
      return rc::gen::map(rc::gen::resize(4, rc::gen::container<std::vector<json>>(json_value(depth - 1))),
                          as_json);
    return rc::gen::map(rc::gen::resize(4, rc::gen::container<std::map<std::string, json>>(
                                               unicode_text(), json_value(depth - 1))),
                        as_json);
  });
}
