// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/canonical_json.hpp"

#include <algorithm>
#include <vector>

#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

// UTF-16 puts characters above U+FFFF (UTF-8 lead byte F0 and up) before U+E000..U+FFFF (lead byte EE and
// EF); in all else the order of UTF-8 bytes is the same. So only these two groups change places.
int utf16_rank(char byte) noexcept {
  const int octet = static_cast<unsigned char>(byte);
  if (octet >= 0xF0) return octet - 2;
  return octet >= 0xEE ? octet + 0x100 : octet;
}

bool utf16_less(std::string_view a, std::string_view b) noexcept {
  return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(),
                                      [](char x, char y) { return utf16_rank(x) < utf16_rank(y); });
}

void append_escaped(std::string& out, char c) {
  switch (c) {
    case '"':
      out += "\\\"";
      return;
    case '\\':
      out += "\\\\";
      return;
    case '\b':
      out += "\\b";
      return;
    case '\t':
      out += "\\t";
      return;
    case '\n':
      out += "\\n";
      return;
    case '\f':
      out += "\\f";
      return;
    case '\r':
      out += "\\r";
      return;
    default:
      break;
  }
  if (static_cast<unsigned char>(c) < 0x20) {
    out += "\\u00";
    out += to_hex({&c, 1});
  } else {
    out += c;
  }
}

class Writer {
 public:
  Result<void> write(const json& value) {
    switch (value.type()) {
      case json::value_t::null:
        return put("null");
      case json::value_t::boolean:
        return put(value.get<bool>() ? "true" : "false");
      case json::value_t::number_integer:
        return integer(value.get<std::int64_t>());
      case json::value_t::number_unsigned:
        return unsigned_integer(value.get<std::uint64_t>());
      case json::value_t::number_float:
        return number(value.get<double>());
      case json::value_t::string:
        return string(value.get_ref<const std::string&>());
      case json::value_t::array:
        return array(value);
      case json::value_t::object:
        return object(value);
      default:
        return fail(ErrorCode::bad_entry, "this value has no JSON text");
    }
  }

  std::string take() { return std::move(out_); }

 private:
  Result<void> put(std::string_view text) {
    out_ += text;
    return {};
  }

  Result<void> integer(std::int64_t value) {
    const bool exact = value >= -largest_exact_integer && value <= largest_exact_integer;
    return exact ? put(std::to_string(value)) : number(static_cast<double>(value));
  }

  Result<void> unsigned_integer(std::uint64_t value) {
    const bool exact = value <= static_cast<std::uint64_t>(largest_exact_integer);
    return exact ? put(std::to_string(value)) : number(static_cast<double>(value));
  }

  Result<void> number(double value) {
    return canonical_number(value).map([this](const std::string& text) { out_ += text; });
  }

  Result<void> string(std::string_view text) {
    if (!is_utf8(text)) return fail(ErrorCode::bad_entry, "a string is not valid UTF-8");
    out_ += '"';
    for (const char c : text) append_escaped(out_, c);
    out_ += '"';
    return {};
  }

  Result<void> array(const json& items) {
    out_ += '[';
    for (const json& item : items) {
      if (&item != &items.front()) out_ += ',';
      if (auto written = write(item); !written) return written;
    }
    return put("]");
  }

  Result<void> object(const json& members) {
    std::vector<json::const_iterator> sorted;
    for (auto member = members.begin(); member != members.end(); ++member) sorted.push_back(member);
    std::sort(sorted.begin(), sorted.end(), [](auto a, auto b) { return utf16_less(a.key(), b.key()); });
    out_ += '{';
    for (std::size_t i = 0; i < sorted.size(); ++i) {
      if (i > 0) out_ += ',';
      if (auto written = string(sorted[i].key()); !written) return written;
      out_ += ':';
      if (auto written = write(sorted[i].value()); !written) return written;
    }
    return put("}");
  }

  std::string out_;
};

}  // namespace

Result<std::string> canonical_json(const json& value) {
  Writer writer;
  return writer.write(value).map([&] { return writer.take(); });
}

}  // namespace fogwright
