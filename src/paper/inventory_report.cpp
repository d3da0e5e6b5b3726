// SPDX-License-Identifier: Apache-2.0
#include "paper/builder.hpp"

namespace fogwright::paper {
namespace {

void orders(Builder& paper, const InventoryReport& facts) {
  Table table{{paper.column(Word::product), paper.column(Word::on_hand, Align::right),
               paper.column(Word::cover, Align::right), paper.column(Word::reorder_point, Align::right),
               paper.column(Word::order, Align::right)},
              {},
              paper.say(Word::no_stock)};
  for (const auto& line : facts.orders)
    table.rows.push_back({line.item, line.on_hand, line.cover, line.reorder_point, line.order});
  paper.heading(Word::to_order);
  paper.add(std::move(table));
}

void vessels(Builder& paper, const InventoryReport& facts) {
  Table table{
      {paper.column(Word::id), paper.column(Word::product), paper.column(Word::lot), paper.column(Word::place),
       paper.column(Word::opened), paper.column(Word::expires), paper.column(Word::left, Align::right)},
      {},
      paper.say(Word::no_stock)};
  table.columns.back().share = 0.12;  // an amount is not parted from its unit
  for (const auto& line : facts.vessels) {
    const std::string expires =
        line.usable ? line.expires : line.expires + " (" + paper.say(Word::not_usable) + ")";
    table.rows.push_back({line.id, line.item, line.lot, line.place, line.opened, expires, line.left});
  }
  paper.heading(Word::vessels);
  paper.add(std::move(table));
}

}  // namespace

Paper inventory_report(const InventoryReport& facts, const Form& form) {
  Builder paper(form, Word::inventory_title, facts.as_of);
  paper.title(paper.say(Word::inventory_title));
  paper.add(Facts{{paper.fact(Word::as_of, facts.as_of)}});
  orders(paper, facts);
  vessels(paper, facts);
  if (!facts.curves.empty()) paper.heading(Word::stock_over_time);
  for (const auto& curve : facts.curves) paper.add(stock_chart(curve, form.language));
  return std::move(paper).take();
}

}  // namespace fogwright::paper
