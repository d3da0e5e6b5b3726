// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the commands that write to a book share: reading their options, and telling what was written.

#include <functional>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "cli/book_session.hpp"
#include "report/page.hpp"

namespace fogwright {

/// Reads the options of a call one after the other and remembers the first fault, so that a command looks once.
class OptionReader {
 public:
  explicit OptionReader(const Call& call) : call_(call) {}

  /// The operands: at least `least`, at most `most`; `what` names them.
  void operands(std::size_t least, std::size_t most, std::string_view what);
  [[nodiscard]] std::string operand(std::size_t index = 0) const;

  [[nodiscard]] std::string text(std::string_view name) const;  ///< empty where not given
  [[nodiscard]] std::string needed(std::string_view name, std::string_view example);
  [[nodiscard]] std::vector<std::string> all(std::string_view name) const { return call_.options.all(name); }
  [[nodiscard]] bool on(std::string_view name) const { return call_.options.has(name); }

  /// Whole microlitres, rounded up or down.
  [[nodiscard]] std::int64_t volume(std::string_view name, Rounding rounding);
  [[nodiscard]] std::optional<std::int64_t> volume_if_given(std::string_view name, Rounding rounding);
  [[nodiscard]] std::int64_t read_volume(std::string_view typed, std::string_view where, Rounding rounding);
  [[nodiscard]] std::int64_t minutes(std::string_view name, std::string_view example);  ///< rounded up
  [[nodiscard]] double number(std::string_view name, double fallback);

  /// The value of a result, or a default one and the fault kept.
  template <class T>
  T take(Result<T> result) {
    if (result) return std::move(*result);
    note(std::move(result.error()));
    return T{};
  }

  [[nodiscard]] const std::optional<Error>& fault() const { return fault_; }

 private:
  void note(Error error);

  const Call& call_;
  std::optional<Error> fault_;
};

/// One line to a person about what was written.
using Told = std::function<std::string(const Drafts& drafts)>;

/// Opens the book, submits, tells what was written and every departure that it raised. JSON:
/// {entries: [{seq, id, kind, body}], departures: [{rule, severity, what, ...}]}.
[[nodiscard]] Outcome write_to_book(const Call& call, const Request& request, const Told& told);
[[nodiscard]] Outcome write_to_book(const Call& call, Store& store, const Request& request, const Told& told);

/// Keeps what may have to be erased (name, address) beside the record, under the salted hash that goes into it.
/// Members without text are left out; empty where none is left.
[[nodiscard]] std::string keep_beside(const Call& call, Store& store, const nlohmann::json& members);

/// A command that only reads options: `make` turns the call into entries, `told` says what was done.
template <Result<Drafts> (*make)(const Call&, const DeskContext&), std::string (*told)(const Drafts&)>
[[nodiscard]] Outcome run_desk(const Call& call) {
  return write_to_book(
      call, [&call](const DeskContext& context) { return make(call, context); }, told);
}

/// Opens the book and lets `show` make JSON and a page out of one consistent view.
using Show = std::function<Result<nlohmann::json>(const Documents& now, Page& page)>;
[[nodiscard]] Outcome show_from_book(const Call& call, const Show& show);

/// "12.8 fl oz", in the units of the call.
[[nodiscard]] std::string volume_text(std::int64_t ul, UnitSystem units, Rounding rounding = Rounding::nearest);
/// "2026-03-04", the UTC day.
[[nodiscard]] std::string day_text(std::int64_t ms);

}  // namespace fogwright
