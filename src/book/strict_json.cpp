// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "book/append_canonical.hpp"
#include "fogwright/book/canonical_json.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::size_t deepest = 64;

// Builds the value and stops at the first thing that is not strict. The library's parser loops instead of
// recursing and checks UTF-8 and surrogates itself.
class StrictBuilder final : public json::json_sax_t {
 public:
  bool null() override { return put(nullptr); }
  bool boolean(bool value) override { return put(value); }
  bool number_integer(number_integer_t value) override { return put(value); }
  bool number_unsigned(number_unsigned_t value) override { return put(value); }
  bool number_float(number_float_t value, const string_t&) override {
    return std::isfinite(value) ? put(value) : stop("a number is beyond the range of a double");
  }
  bool string(string_t& value) override { return put(std::move(value)); }
  bool binary(binary_t&) override { return stop("binary values have no place in JSON"); }
  bool start_object(std::size_t) override { return open(json::object()); }
  bool start_array(std::size_t) override { return open(json::array()); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(string_t& name) override {
    const auto [member, added] = open_.back()->get_ref<json::object_t&>().try_emplace(std::move(name));
    if (!added) return stop(fmt::format("the member \"{}\" stands there twice", member->first));
    member_ = &member->second;
    return true;
  }

  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception&) override {
    position_ = position;
    return stop("this is not well-formed JSON");
  }

  Result<json> take(bool complete) {
    if (complete) return std::move(root_);
    const std::string where = position_ > 0 ? fmt::format("byte {}", position_) : std::string();
    return fail(ErrorCode::bad_entry, problem_, where, "compare the text with RFC 8259 and I-JSON (RFC 7493)");
  }

 private:
  bool stop(std::string problem) {
    problem_ = std::move(problem);
    return false;
  }

  json* place(json value) {
    if (open_.empty()) return &(root_ = std::move(value));
    if (open_.back()->is_array()) return &open_.back()->emplace_back(std::move(value));
    return &(*member_ = std::move(value));
  }

  bool put(json value) {
    place(std::move(value));
    return true;
  }

  bool open(json container) {
    if (open_.size() == deepest) return stop(fmt::format("the nesting is deeper than {}", deepest));
    open_.push_back(place(std::move(container)));
    return true;
  }

  bool close() {
    open_.pop_back();
    return true;
  }

  json root_;
  std::vector<json*> open_;  // stays valid: only the innermost container grows
  json* member_ = nullptr;
  std::string problem_;
  std::size_t position_ = 0;
};

Result<void> not_for_the_record(std::string message) {
  return fail(ErrorCode::bad_entry, std::move(message), {},
              "write integers in a stated unit, or decimals as strings, under ASCII names");
}

bool is_ascii(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

bool is_exact(const json& integer) {
  if (integer.is_number_unsigned()) return integer.get<std::uint64_t>() <= std::uint64_t{largest_exact_integer};
  const auto value = integer.get<std::int64_t>();
  return value >= -largest_exact_integer && value <= largest_exact_integer;
}

// The place is put together on the way back from a fault: nearly no value has one.
Result<void> placed(Result<void> checked, std::string_view name) {
  if (!checked) checked.error().where = fmt::format("/{}{}", name, checked.error().where);
  return checked;
}

Result<void> check(const json& value, std::size_t depth);

Result<void> check_member(const std::string& name, const json& value, std::size_t depth) {
  return placed(is_ascii(name) ? check(value, depth) : not_for_the_record("a member name is not ASCII"), name);
}

Result<void> check(const json& value, std::size_t depth) {
  if (value.is_number_float()) return not_for_the_record("the record holds no fractions");
  if (value.is_binary() || value.is_discarded()) return not_for_the_record("this is not a JSON value");
  if (value.is_number() && !is_exact(value)) return not_for_the_record("an integer is beyond 2^53 - 1");
  if (!value.is_structured()) return {};
  if (depth == deepest) return not_for_the_record(fmt::format("the nesting is deeper than {}", deepest));
  if (value.is_object()) {
    for (const auto& [name, member] : value.get_ref<const json::object_t&>())
      if (auto ok = check_member(name, member, depth + 1); !ok) return ok;
    return {};
  }
  for (std::size_t i = 0; i < value.size(); ++i)
    if (auto ok = check(value[i], depth + 1); !ok) return placed(std::move(ok), std::to_string(i));
  return {};
}

}  // namespace

Result<json> read_strict_json(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) {
    return fail(ErrorCode::bad_entry, "the text starts with a byte order mark", "byte 1",
                "save it without one");
  }
  if (const std::size_t at = text.find('\0'); at != text.npos) {  // the library would take it for the end
    return fail(ErrorCode::bad_entry, "the text holds a zero byte", fmt::format("byte {}", at + 1),
                "write it as \\u0000");
  }
  StrictBuilder builder;
  const bool complete = json::sax_parse(text.begin(), text.end(), &builder);
  return builder.take(complete);
}

Result<void> record_value_ok(const json& value) { return check(value, 0); }

Result<void> record_member_ok(const std::string& name, const json& value) {
  return check_member(name, value, 1);
}

}  // namespace fogwright
