// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/canonical_json.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <vector>

#include "book/append_canonical.hpp"
#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

// UTF-16 puts characters above U+FFFF (UTF-8 lead byte F0 and up) before U+E000..U+FFFF (lead byte EE and
// EF); in all else the order of UTF-8 bytes is the same. So only these two groups change places.
bool moves(char byte) noexcept { return static_cast<unsigned char>(byte) >= 0xEE; }

int utf16_rank(char byte) noexcept {
  const int octet = static_cast<unsigned char>(byte);
  if (octet >= 0xF0) return octet - 2;
  return octet >= 0xEE ? octet + 0x100 : octet;
}

bool utf16_less(std::string_view a, std::string_view b) noexcept {
  return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(),
                                      [](char x, char y) { return utf16_rank(x) < utf16_rank(y); });
}

// What a string holds as it is: all but control characters, the quote and the backslash.
bool is_plain(char c) noexcept { return static_cast<unsigned char>(c) >= 0x20 && c != '"' && c != '\\'; }

// Looks at each character, whatever those before it are: so several are looked at in one step.
bool all_plain_ascii(std::string_view text) noexcept {
  unsigned other = 0;
  for (const char c : text)
    other |= static_cast<unsigned>(!is_plain(c) || static_cast<unsigned char>(c) >= 0x80);
  return other == 0;
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
      out += "\\u00";
      out += to_hex({&c, 1});
  }
}

class Writer {
 public:
  explicit Writer(std::string& out) : out_(out) {}

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

  Result<void> string(std::string_view text) {
    out_ += '"';
    if (all_plain_ascii(text)) {  // nearly all of them
      out_ += text;
      return put("\"");
    }
    if (!is_utf8(text)) return fail(ErrorCode::bad_entry, "a string is not valid UTF-8");
    while (!text.empty()) {
      const auto end = std::find_if_not(text.begin(), text.end(), is_plain);
      out_.append(text.begin(), end);
      text.remove_prefix(static_cast<std::size_t>(end - text.begin()));
      if (text.empty()) break;
      append_escaped(out_, text.front());
      text.remove_prefix(1);
    }
    return put("\"");
  }

 private:
  Result<void> put(std::string_view text) {
    out_ += text;
    return {};
  }

  template <class Integer>
  Result<void> digits(Integer value) {
    std::array<char, 24> text;
    const char* end = std::to_chars(text.data(), text.data() + text.size(), value).ptr;
    return put({text.data(), static_cast<std::size_t>(end - text.data())});
  }

  Result<void> integer(std::int64_t value) {
    const bool exact = value >= -largest_exact_integer && value <= largest_exact_integer;
    return exact ? digits(value) : number(static_cast<double>(value));
  }

  Result<void> unsigned_integer(std::uint64_t value) {
    const bool exact = value <= static_cast<std::uint64_t>(largest_exact_integer);
    return exact ? digits(value) : number(static_cast<double>(value));
  }

  Result<void> number(double value) {
    return canonical_number(value).map([this](const std::string& text) { out_ += text; });
  }

  Result<void> array(const json& items) {
    out_ += '[';
    for (const json& item : items) {
      if (&item != &items.front()) out_ += ',';
      if (auto written = write(item); !written) return written;
    }
    return put("]");
  }

  Result<void> member(const std::string& name, const json& value) {
    if (out_.back() != '{') out_ += ',';
    if (auto written = string(name); !written) return written;
    out_ += ':';
    return write(value);
  }

  // The members stand in the order of their bytes, which with nearly all names is the one that is wanted.
  Result<void> object(const json& value) {
    const auto& members = value.get_ref<const json::object_t&>();
    const auto in_place = [](const auto& one) {
      return std::none_of(one.first.begin(), one.first.end(), moves);
    };
    out_ += '{';
    if (!std::all_of(members.begin(), members.end(), in_place)) return sorted_members(members);
    for (const auto& [name, one] : members)
      if (auto written = member(name, one); !written) return written;
    return put("}");
  }

  Result<void> sorted_members(const json::object_t& members) {
    std::vector<const json::object_t::value_type*> sorted;
    for (const auto& one : members) sorted.push_back(&one);
    std::sort(sorted.begin(), sorted.end(),
              [](const auto* a, const auto* b) { return utf16_less(a->first, b->first); });
    for (const auto* one : sorted)
      if (auto written = member(one->first, one->second); !written) return written;
    return put("}");
  }

  std::string& out_;
};

}  // namespace

Result<void> append_canonical(std::string& out, const json& value) { return Writer(out).write(value); }

Result<void> append_canonical_text(std::string& out, std::string_view text) { return Writer(out).string(text); }

Result<std::string> canonical_json(const json& value) {
  std::string text;
  return append_canonical(text, value).map([&] { return std::move(text); });
}

}  // namespace fogwright
