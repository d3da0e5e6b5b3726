// SPDX-License-Identifier: Apache-2.0
#include "asking/target.hpp"

#include <algorithm>

#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

bool is_plain(std::string_view text) {
  return is_utf8(text) && std::none_of(text.begin(), text.end(), [](char c) {
           return static_cast<unsigned char>(c) < 0x20U || c == 0x7f;
         });
}

tl::unexpected<Error> bad_target(std::string message) {
  return fail(ErrorCode::not_understood, std::move(message), "the address",
              "see /api/openapi.json for the addresses");
}

Result<std::string> decoded(std::string_view text, bool plus_is_space) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '+' && plus_is_space) {
      out += ' ';
    } else if (text[i] == '%') {
      const auto byte = from_hex(text.substr(i + 1, 2));
      if (!byte || byte->size() != 1) return bad_target("a percent code of the address is not one");
      out += *byte;
      i += 2;
    } else {
      out += text[i];
    }
  }
  if (!is_plain(out)) return bad_target("the address holds control characters or is not UTF-8");
  return out;
}

Result<void> read_query(std::string_view text, Target& target) {
  if (text.empty()) return {};
  for (const std::string_view part : split(text, '&')) {
    const std::size_t equals = std::min(part.find('='), part.size());
    const auto name = decoded(part.substr(0, equals), true);
    const auto value = decoded(part.substr(std::min(equals + 1, part.size())), true);
    if (!name) return tl::make_unexpected(name.error());
    if (!value) return tl::make_unexpected(value.error());
    if (!target.query.emplace(*name, *value).second) return bad_target("\"" + *name + "\" is asked for twice");
  }
  return {};
}

}  // namespace

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find(separator, begin), text.size());
    parts.push_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return parts;
}

Result<Target> read_target(std::string_view text) {
  if (text.empty() || text.front() != '/') return bad_target("the address does not begin with a slash");
  const std::size_t question = std::min(text.find('?'), text.size());
  Target target;
  target.path = text.substr(0, question);
  for (const std::string_view part : split(std::string_view(target.path).substr(1), '/')) {
    auto segment = decoded(part, false);
    if (!segment) return tl::make_unexpected(segment.error());
    if (*segment == ".." || *segment == ".") return bad_target("the address walks up or in place");
    target.segments.push_back(std::move(*segment));
  }
  if (auto ok = read_query(text.substr(std::min(question + 1, text.size())), target); !ok)
    return tl::make_unexpected(ok.error());
  return target;
}

}  // namespace fogwright
