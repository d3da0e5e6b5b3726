// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/book/entry.hpp"
#include "fogwright/quantity.hpp"

namespace fogwright {

/// What a member of a request's body is. Quantities are texts, as people type them: "12 fl oz".
enum class MemberType { text, texts, whole_number, flag, object, objects };

/// One member of a body; it serves the check of the request and the description of the API.
struct Member {
  const char* name;
  MemberType type;
  bool needed;
  const char* help;
};

/// A body as an object. Errors: not_understood (no JSON, no object, too deep).
[[nodiscard]] Result<nlohmann::json> read_body(std::string_view bytes);
/// Every member is known, of its type, and there where it is needed. Faults: missing_value, not_understood; all
/// of them are told.
[[nodiscard]] Faults check_members(const nlohmann::json& body, const std::vector<Member>& members);

/// A body of JSON with the members of a route, checked.
[[nodiscard]] tl::expected<nlohmann::json, Faults> body_of(std::string_view bytes,
                                                           const std::vector<Member>& members);

/// What was asked for: the names in the path and the members of a body that was checked. Reading keeps the
/// first fault, so that who reads looks once.
class Asked {
 public:
  Asked(std::vector<std::string> names, nlohmann::json body)
      : names_(std::move(names)), body_(std::move(body)) {}

  [[nodiscard]] const std::string& name(std::size_t index = 0) const { return names_.at(index); }
  [[nodiscard]] const std::vector<std::string>& names() const { return names_; }
  [[nodiscard]] bool has(const char* member) const { return body_.contains(member); }
  [[nodiscard]] std::string text(const char* member) const { return body_.value(member, std::string()); }
  [[nodiscard]] std::vector<std::string> texts(const char* member) const;
  [[nodiscard]] bool flag(const char* member) const { return body_.value(member, false); }
  [[nodiscard]] const nlohmann::json& body() const { return body_; }
  void set(const char* member, std::string value) { body_[member] = std::move(value); }

  /// Hash of what lives beside the record; empty where nothing does.
  [[nodiscard]] const std::string& beside() const { return beside_; }
  void set_beside(std::string hash) { beside_ = std::move(hash); }

  /// The entry that the path names, where the route is about one.
  [[nodiscard]] const std::optional<Entry>& entry() const { return entry_; }
  void set_entry(Entry entry) { entry_ = std::move(entry); }

  /// Whole microlitres.
  [[nodiscard]] std::int64_t volume(const char* member, Rounding rounding);
  [[nodiscard]] std::optional<std::int64_t> volume_if_given(const char* member, Rounding rounding);
  [[nodiscard]] std::int64_t read_volume(std::string_view typed, std::string_view where, Rounding rounding);
  [[nodiscard]] std::int64_t minutes(const char* member);  ///< rounded up
  [[nodiscard]] std::int64_t fog_ms(std::string_view typed, std::string_view where);
  [[nodiscard]] double number(const char* member, double fallback);

  /// The value of a result, or a default one and the fault kept.
  template <class T>
  T take(Result<T> result) {
    if (result) return std::move(*result);
    if (!fault_) fault_ = std::move(result.error());
    return T{};
  }
  [[nodiscard]] const std::optional<Error>& fault() const { return fault_; }

 private:
  std::vector<std::string> names_;
  nlohmann::json body_;
  std::string beside_;
  std::optional<Entry> entry_;
  std::optional<Error> fault_;
};

}  // namespace fogwright
