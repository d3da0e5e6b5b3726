// SPDX-License-Identifier: Apache-2.0
#include "desk/checks.hpp"
#include "desk/csv_table.hpp"
#include "desk/money.hpp"
#include "fogwright/desk/stock_desk.hpp"

namespace fogwright {
namespace {

constexpr std::string_view delivery_all[] = {"container", "product", "part", "lot",     "size",
                                             "expires",   "place",   "cost", "supplier"};
constexpr std::string_view delivery_needed[] = {"product", "lot", "size", "expires", "place"};
constexpr CsvColumns delivery_columns{delivery_all, delivery_needed, "a delivery"};

Delivery read_delivery(const CsvRow& row, CsvImport& import) {
  Delivery d;
  d.where = row.where;
  for (const auto& [column, member] : {std::pair{"container", &d.container},
                                       {"product", &d.product},
                                       {"part", &d.part},
                                       {"lot", &d.lot},
                                       {"size", &d.size_typed},
                                       {"expires", &d.expires},
                                       {"place", &d.place},
                                       {"supplier", &d.supplier}})
    *member = row.text(column);
  if (!d.size_typed.empty())
    d.size_ul = import.take(row, read_liquid_volume(d.size_typed, "size")).floor_in(unit::microlitre);
  if (!d.expires.empty()) (void)import.take(row, read_date(d.expires, "the expiry", "expires"));
  if (const std::string cost = row.text("cost"); !cost.empty())
    d.cost_cents = import.take(row, read_cents(cost, "cost"));
  return d;
}

}  // namespace

tl::expected<std::vector<Delivery>, Faults> read_deliveries_csv(std::string_view text, std::string_view file) {
  CsvImport import(text, file, delivery_columns);
  std::vector<Delivery> deliveries;
  for (const CsvRow& row : import.rows()) deliveries.push_back(read_delivery(row, import));
  if (!import.clean()) return tl::make_unexpected(std::move(import).faults());
  return deliveries;
}

}  // namespace fogwright
