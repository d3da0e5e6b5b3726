// SPDX-License-Identifier: Apache-2.0
#include "office/audit_filters.hpp"

#include <fmt/format.h>

#include <chrono>

#include "desk/checks.hpp"
#include "fogwright/stock.hpp"

namespace fogwright {
namespace {

/// Reads one after the other and keeps the first fault.
class Filters {
 public:
  Filters(const GivenFilter& given, std::string_view mark) : given_(given), mark_(mark) {}

  [[nodiscard]] std::string place(const char* name) const { return fmt::format("{}{}", mark_, name); }
  [[nodiscard]] std::string text(const char* name) const { return given_(name).value_or(""); }
  template <class T>
  std::optional<T> read(const char* name,
                        Result<T> (*reader)(const std::string& typed, const std::string& where)) {
    const auto typed = given_(name);
    if (!typed || fault_) return std::nullopt;
    auto value = reader(*typed, place(name));
    if (value) return std::move(*value);
    fault_ = value.error();
    return std::nullopt;
  }
  [[nodiscard]] const std::optional<Error>& fault() const { return fault_; }

 private:
  const GivenFilter& given_;
  std::string_view mark_;
  std::optional<Error> fault_;
};

/// The first moment of a UTC day.
Result<std::int64_t> day_began(const std::string& typed, const std::string& where) {
  const auto day = read_date(typed, "the day", where);
  if (!day) return tl::make_unexpected(day.error());
  return std::chrono::sys_days(*day).time_since_epoch().count() * day_ms;
}

Result<Severity> severity(const std::string& typed, const std::string& where) {
  for (const Severity one : {Severity::note, Severity::minor, Severity::major, Severity::grave})
    if (severity_name(one) == typed) return one;
  return fail(ErrorCode::not_understood, fmt::format("\"{}\" is not a severity", typed), where,
              "write note, minor, major or grave");
}

Result<std::string> rule(const std::string& typed, const std::string& where) {
  if (find_audit_rule(typed)) return typed;
  return fail(ErrorCode::not_found, fmt::format("no rule is called \"{}\"", typed), where,
              "fogwright audit rules lists them");
}

Result<std::size_t> count(const std::string& typed, const std::string& where) {
  const auto number = read_number(typed, where);
  if (!number) return tl::make_unexpected(number.error());
  if (*number >= 0 && *number <= 1e9) return static_cast<std::size_t>(*number);
  return fail(ErrorCode::out_of_range, "this is no count", where, "write a whole number; 0 lists all");
}

/// A filter that is a name, and the documents that have such names.
struct NameFilter {
  const char* option;
  const char* kind;
  std::string AuditScope::*name;
  const char* list;  ///< what shows the names there are
};
constexpr NameFilter name_filters[] = {
    {"person", "person", &AuditScope::person, "fogwright crew list shows the crew"},
    {"product", "product", &AuditScope::product, "fogwright product list shows the labels"},
    {"van", "place", &AuditScope::place, "fogwright place list shows the places"},
    {"job", "job", &AuditScope::job, "fogwright job list shows the jobs"},
};

/// Entries may name what was never entered; a departure says so.
bool stands_in_a_departure(const Documents& documents, const AuditInput& input, const NameFilter& filter,
                           const std::string& name) {
  AuditScope of_name;
  of_name.*filter.name = name;
  of_name.most = 1;
  return audit(documents, {input.entries, input.now_ms, {}}, of_name).total() > 0;
}

}  // namespace

Result<void> check_audit_names(const Documents& documents, const AuditInput& input, const AuditScope& scope,
                               std::string_view mark) {
  for (const NameFilter& filter : name_filters) {
    const std::string& name = scope.*filter.name;
    if (name.empty() || documents.get_text(filter.kind, name) ||
        stands_in_a_departure(documents, input, filter, name))
      continue;
    return fail(ErrorCode::not_found, fmt::format("no {} is called \"{}\"", filter.kind, name),
                fmt::format("{}{}", mark, filter.option), filter.list);
  }
  return {};
}

Result<AuditScope> read_audit_filters(const GivenFilter& given, std::string_view mark) {
  Filters filters(given, mark);
  AuditScope scope;
  scope.from_ms = filters.read("from", day_began);
  if (const auto last = filters.read("to", day_began)) scope.to_ms = *last + day_ms;
  scope.person = filters.text("person");
  scope.product = filters.text("product");
  scope.place = filters.text("van");
  scope.job = filters.text("job");
  scope.rule = filters.read("rule", rule).value_or("");
  scope.least = filters.read("severity", severity).value_or(scope.least);
  scope.most = filters.read("limit", count).value_or(scope.most);
  if (filters.fault()) return tl::make_unexpected(*filters.fault());
  if (scope.from_ms && scope.to_ms && *scope.from_ms >= *scope.to_ms)
    return fail(ErrorCode::out_of_range, "the range ends before it begins", filters.place("to"),
                "give a later day");
  return scope;
}

}  // namespace fogwright
