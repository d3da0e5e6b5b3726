// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Stock: which entries a request becomes. What has happened is always recorded, also where it broke a rule
/// (the fold raises a departure); what is refused is what cannot be so, or lacks a reason. Volumes are
/// microlitres. Errors common to all: not_permitted, not_found, missing_value, out_of_range, wrong_state.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/desk/context.hpp"
#include "fogwright/stock.hpp"

namespace fogwright {

/// `type` is "shop" or "van".
[[nodiscard]] Result<Drafts> add_place(const DeskContext& context, const std::string& place,
                                       const std::string& type, const std::string& note = {});

/// One container that arrived.
struct Delivery {
  std::string container;  ///< id; empty: the next number ("C12")
  std::string product;
  std::string part;  ///< ingredient of the label's mixing table; empty: the product as sold
  std::string lot;
  std::int64_t size_ul = 0;
  std::string size_typed;
  std::string expires;  ///< ISO date
  std::string place;
  std::optional<std::int64_t> cost_cents;
  std::string supplier;
  std::string where;  ///< "deliveries.csv:3"; goes before the fault
};
/// Columns container, product, part, lot, size, expires, place, cost, supplier in any order, named in the first
/// line; product, lot, size, expires and place are needed. RFC 4180 (quotes, line breaks in quotes, CRLF or
/// LF). Errors: bad_import, every fault with its line ("file:line").
[[nodiscard]] tl::expected<std::vector<Delivery>, Faults> read_deliveries_csv(std::string_view text,
                                                                              std::string_view file);
/// Against the book: every fault of every line. Empty: receive_many will take them.
[[nodiscard]] Faults check_deliveries(const DeskContext& context, const std::vector<Delivery>& deliveries);
/// All or nothing. The label is the product's current one.
[[nodiscard]] Result<Drafts> receive_many(const DeskContext& context, const std::vector<Delivery>& deliveries);
[[nodiscard]] Result<Drafts> receive(const DeskContext& context, const Delivery& delivery);

/// What was typed wrongly off a container's label when it was received. What is given and differs is put right;
/// the receipt stays.
struct ContainerCorrection {
  std::string container;
  std::optional<std::string> lot;
  std::optional<std::string> expires;  ///< ISO date
  std::optional<std::string> supplier;
  std::optional<std::int64_t> cost_cents;
  std::string why;
};
/// Errors: wrong_state for a batch, and where nothing differs; missing_value where nothing is given, or no
/// reason.
[[nodiscard]] Result<Drafts> correct_container(const DeskContext& context,
                                               const ContainerCorrection& correction);

/// Containers and batches alike.
[[nodiscard]] Result<Drafts> move_vessel(const DeskContext& context, const std::string& id,
                                         const std::string& to);
[[nodiscard]] Result<Drafts> open_container(const DeskContext& context, const std::string& id);

struct DrawRequest {
  std::string from;
  std::int64_t ul = 0;
  std::string job;     ///< may be empty
  std::string reason;  ///< why this one, where another container of the item in the same place expires first
};
/// Errors: missing_value when the container is out of turn and no reason is given.
[[nodiscard]] Result<Drafts> draw_from(const DeskContext& context, const DrawRequest& request);
/// Takes a volume of an item at a place in turn, from as many containers as needed. Errors: stock_short.
[[nodiscard]] Result<Drafts> draw_in_turn(const DeskContext& context, const std::string& item,
                                          const std::string& place, std::int64_t ul, const std::string& job);

struct MixPart {
  std::string container;
  std::optional<std::int64_t> ul;  ///< nullopt: what the label's table says
};
struct MixRequest {
  std::string batch;  ///< id; empty: the next number ("B3")
  std::string product;
  std::string table;  ///< may be empty where the label has one
  std::int64_t made_ul = 0;
  std::vector<MixPart> parts;
  std::string place;
  bool respirator_worn = false;
  std::string reason;  ///< as for a draw
};
/// By the product's current label. Each ingredient but water comes from containers that hold it. A mix that
/// differs from the table by more than a fiftieth is recorded with `off_label`. Usable for the label's mixed
/// life; where the label gives none, for 24 h (company policy). Errors: label_forbids for a product that is
/// ready to use, those of mixing_sheet, incompatible_chemistry for a container of another product.
[[nodiscard]] Result<Drafts> mix_batch(const DeskContext& context, const MixRequest& request);

/// Errors: out_of_range when the vessel would hold more than its size.
[[nodiscard]] Result<Drafts> return_to(const DeskContext& context, const std::string& to, std::int64_t ul,
                                       const std::string& job);
[[nodiscard]] Result<Drafts> record_spill(const DeskContext& context, const std::string& from, std::int64_t ul,
                                          const std::string& what_was_done);
/// `ul` nullopt: all that is left.
[[nodiscard]] Result<Drafts> dispose(const DeskContext& context, const std::string& from,
                                     std::optional<std::int64_t> ul, const std::string& how);
/// What was found in a vessel. Errors: out_of_range for more than its size.
[[nodiscard]] Result<Drafts> count_vessel(const DeskContext& context, const std::string& of,
                                          std::int64_t found_ul);

[[nodiscard]] Result<Drafts> read_storage(const DeskContext& context, const std::string& place,
                                          Temperature temperature, const std::string& typed);

/// `unit_ul` is what is ordered at once, e.g. a container of a gallon.
[[nodiscard]] Result<Drafts> set_reorder_rule(const DeskContext& context, const std::string& product,
                                              const ReorderRule& rule, std::int64_t unit_ul);

}  // namespace fogwright
