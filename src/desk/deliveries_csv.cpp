// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "desk/checks.hpp"
#include "desk/csv.hpp"
#include "desk/money.hpp"
#include "fogwright/desk/stock_desk.hpp"

namespace fogwright {
namespace {

constexpr std::array<std::string_view, 9> columns{"container", "product", "part", "lot",     "size",
                                                  "expires",   "place",   "cost", "supplier"};
constexpr std::array<std::string_view, 5> needed{"product", "lot", "size", "expires", "place"};

using Header = std::map<std::string_view, std::size_t>;

/// Gathers faults; every fault of an import is one of the import, whatever its own code.
class Import {
 public:
  explicit Import(std::string_view file) : file_(file) {}

  [[nodiscard]] std::string where(int line) const { return fmt::format("{}:{}", file_, line); }
  void fault(int line, std::string message, std::string hint) {
    faults_.push_back({ErrorCode::bad_import, std::move(message), where(line), std::move(hint)});
  }
  void fault(int line, const Error& error) { fault(line, error.message, error.hint); }
  [[nodiscard]] Faults take() && { return std::move(faults_); }
  [[nodiscard]] bool clean() const { return faults_.empty(); }

 private:
  std::string_view file_;
  Faults faults_;
};

Header read_header(const CsvRecord& record, Import& import) {
  Header header;
  for (std::size_t i = 0; i < record.fields.size(); ++i) {
    const auto known = std::find(columns.begin(), columns.end(), record.fields[i]);
    if (known == columns.end())
      import.fault(record.line, fmt::format("\"{}\" is not a column", record.fields[i]),
                   fmt::format("write columns out of {}", fmt::join(columns, ", ")));
    else if (!header.emplace(*known, i).second)
      import.fault(record.line, fmt::format("the column {} stands twice", *known), "leave one out");
  }
  for (const std::string_view name : needed)
    if (!header.contains(name))
      import.fault(record.line, fmt::format("the column {} is missing", name), "add it to the first line");
  return header;
}

std::string field(const Header& header, const CsvRecord& record, std::string_view column) {
  const auto found = header.find(column);
  return found == header.end() ? std::string() : record.fields[found->second];
}

Delivery read_delivery(const Header& header, const CsvRecord& record, Import& import) {
  Delivery d;
  d.where = import.where(record.line);
  for (const auto& [column, member] : {std::pair{"container", &d.container},
                                       {"product", &d.product},
                                       {"part", &d.part},
                                       {"lot", &d.lot},
                                       {"size", &d.size_typed},
                                       {"expires", &d.expires},
                                       {"place", &d.place},
                                       {"supplier", &d.supplier}})
    *member = field(header, record, column);
  for (const std::string_view column : needed)
    if (field(header, record, column).empty())
      import.fault(record.line, fmt::format("{} is missing", column), "fill it in");
  if (!d.size_typed.empty()) {
    if (const auto size = read_liquid_volume(d.size_typed, "size"); size)
      d.size_ul = size->floor_in(unit::microlitre);
    else
      import.fault(record.line, size.error());
  }
  if (!d.expires.empty())
    if (const auto date = read_date(d.expires, "the expiry", "expires"); !date)
      import.fault(record.line, date.error());
  if (const std::string cost = field(header, record, "cost"); !cost.empty()) {
    if (const auto cents = read_cents(cost, "cost"); cents)
      d.cost_cents = *cents;
    else
      import.fault(record.line, cents.error());
  }
  return d;
}

}  // namespace

tl::expected<std::vector<Delivery>, Faults> read_deliveries_csv(std::string_view text, std::string_view file) {
  const auto records = read_csv(text, file);
  if (!records) return tl::make_unexpected(records.error());
  Import import(file);
  std::vector<Delivery> deliveries;
  if (records->size() < 2) {
    import.fault(1, "there is no delivery in the file",
                 "name the columns in the first line and write one container a line");
    return tl::make_unexpected(std::move(import).take());
  }
  const Header header = read_header(records->front(), import);
  if (!import.clean()) return tl::make_unexpected(std::move(import).take());
  for (const CsvRecord& record : std::span(*records).subspan(1)) {
    if (record.fields.size() != records->front().fields.size())
      import.fault(record.line,
                   fmt::format("{} fields stand here, {} columns in the first line", record.fields.size(),
                               records->front().fields.size()),
                   "write a comma for an empty field");
    else
      deliveries.push_back(read_delivery(header, record, import));
  }
  if (!import.clean()) return tl::make_unexpected(std::move(import).take());
  return deliveries;
}

}  // namespace fogwright
