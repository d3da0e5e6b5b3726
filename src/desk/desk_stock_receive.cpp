// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <set>

#include "desk/checks.hpp"
#include "desk/stock_turn.hpp"
#include "fogwright/book/uuid.hpp"
#include "fogwright/desk/stock_desk.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::int64_t largest_cost_cents = 100'000'000;

Result<void> as_check(const tl::expected<json, Error>& found) {
  if (found) return {};
  return tl::make_unexpected(found.error());
}

Result<void> check_product(const DeskContext& context, const std::string& product) {
  const auto known = find(context.documents, "product", product, "--product");
  if (!known) return tl::make_unexpected(known.error());
  if (!known->at("current").get<std::string>().empty()) return {};
  return fail(ErrorCode::wrong_state, fmt::format("every label of {} is retired", product), "--product",
              "adopt the label that stands on the container first");
}

Result<void> check_id(const DeskContext& context, const std::string& id) {
  if (id.empty()) return {};
  return first_error({check_name(id, "container", "--id"),
                      check_free(context.documents, "container", id, "--id"),
                      check_free(context.documents, "batch", id, "--id")});
}

/// A part is an ingredient of the current label; where a label has several, each container holds one of them.
Result<void> check_part(const DeskContext& context, const Delivery& d) {
  const auto product = context.documents.get("product", d.product);
  const auto facts =
      context.documents.get("label-facts", product ? product->at("current").get<std::string>() : "");
  if (!facts) return {};  // check_product says what is wrong
  const json& ingredients = facts->at("ingredients");
  std::string names;
  for (const json& one : ingredients) {
    if (one.at("name") == d.part) return {};
    names += fmt::format("{}\"{}\"", names.empty() ? "" : ", ", one.at("name").get<std::string>());
  }
  if (d.part.empty() && ingredients.size() < 2) return {};
  if (d.part.empty())
    return fail(ErrorCode::missing_value, fmt::format("{} comes in parts, and none is named", d.product),
                "--part", fmt::format("name one of {}", names));
  return fail(ErrorCode::not_found, fmt::format("{} has no part \"{}\"", d.product, d.part), "--part",
              names.empty() ? "leave it out" : fmt::format("name one of {}", names));
}

Result<void> check_expires(const std::string& expires) {
  const auto date = read_date(expires, "the expiry", "--expires");
  if (date) return {};
  return tl::make_unexpected(date.error());
}

Result<void> check_cost(const std::optional<std::int64_t>& cents) {
  if (!cents || (*cents >= 0 && *cents <= largest_cost_cents)) return {};
  return fail(ErrorCode::out_of_range, "the cost is not 0 to 1,000,000", "--cost", "check it");
}

/// All faults of one delivery. The line of an import goes before the option.
Faults faults_of(const DeskContext& context, const Delivery& d) {
  Faults faults;
  for (const Result<void>& check :
       {check_product(context, d.product), check_id(context, d.container), check_part(context, d),
        check_words(d.lot, "the lot", "--lot"), check_volume(d.size_ul, "--size"), check_expires(d.expires),
        as_check(find(context.documents, "place", d.place, "--place")), check_cost(d.cost_cents)})
    if (!check) faults.push_back(check.error());
  if (!d.where.empty())
    for (Error& fault : faults) {
      fault.where = d.where;
      fault.code = ErrorCode::bad_import;
    }
  return faults;
}

json received_body(const DeskContext& context, const Delivery& d, const std::string& id) {
  json body = {{"container", id},
               {"product", d.product},
               {"label_digest", context.documents.get("product", d.product)->at("current")},
               {"lot", d.lot},
               {"size_ul", d.size_ul},
               {"expires", d.expires},
               {"place", d.place}};
  if (!d.part.empty()) body["part"] = d.part;
  if (!d.size_typed.empty()) body["size_typed"] = d.size_typed;
  if (d.cost_cents) body["cost_cents"] = *d.cost_cents;
  if (!d.supplier.empty()) body["supplier"] = d.supplier;
  return body;
}

Result<void> check_correction(const ContainerCorrection& c) {
  if (!c.lot && !c.expires && !c.supplier && !c.cost_cents)
    return fail(ErrorCode::missing_value, "it is not said what is to be put right", {},
                "give what the label really says: lot, last day, supplier or cost");
  return first_error({c.lot ? check_words(*c.lot, "the lot", "--lot") : Result<void>(),
                      c.expires ? check_expires(*c.expires) : Result<void>(),
                      c.supplier ? check_words(*c.supplier, "the supplier", "--supplier") : Result<void>(),
                      check_cost(c.cost_cents), check_words(c.why, "why it is put right", "--why")});
}

/// What is given and does not read so already.
json differing(const ContainerCorrection& c, const json& container) {
  json given = json::object(), body = json::object();
  if (c.lot) given["lot"] = *c.lot;
  if (c.expires) given["expires"] = *c.expires;
  if (c.supplier) given["supplier"] = *c.supplier;
  if (c.cost_cents) given["cost_cents"] = *c.cost_cents;
  for (const auto& [member, value] : given.items())
    if (container.value(member, json()) != value) body[member] = value;
  return body;
}

}  // namespace

Faults check_deliveries(const DeskContext& context, const std::vector<Delivery>& deliveries) {
  Faults faults;
  std::set<std::string> ids;
  for (const Delivery& delivery : deliveries) {
    const Faults more = faults_of(context, delivery);
    faults.insert(faults.end(), more.begin(), more.end());
    if (!delivery.container.empty() && !ids.insert(delivery.container).second)
      faults.push_back({ErrorCode::bad_import,
                        fmt::format("the container {} stands twice in the file", delivery.container),
                        delivery.where, "give each container an id of its own"});
  }
  return faults;
}

Result<Drafts> receive_many(const DeskContext& context, const std::vector<Delivery>& deliveries) {
  if (auto ok = may_make(context, "container-received"); !ok) return tl::make_unexpected(ok.error());
  if (const Faults faults = check_deliveries(context, deliveries); !faults.empty())
    return tl::make_unexpected(faults.front());
  std::set<std::string> taken;
  for (const Delivery& delivery : deliveries) taken.insert(delivery.container);
  Drafts drafts;
  std::int64_t ahead = 0;
  for (const Delivery& delivery : deliveries) {
    std::string id = delivery.container;
    while (id.empty() || (delivery.container.empty() && !taken.insert(id).second))
      id = next_id(context.documents, "container", ahead++);
    drafts.push_back(draft(context, "container-received", received_body(context, delivery, id)));
  }
  return drafts;
}

Result<Drafts> receive(const DeskContext& context, const Delivery& delivery) {
  return receive_many(context, {delivery});
}

Result<Drafts> correct_container(const DeskContext& context, const ContainerCorrection& correction) {
  if (auto ok = may_make(context, "container-corrected"); !ok) return tl::make_unexpected(ok.error());
  const auto vessel = find_vessel(context.documents, correction.container, {});
  if (!vessel) return tl::make_unexpected(vessel.error());
  if (vessel->is_batch())
    return fail(ErrorCode::wrong_state, fmt::format("{} is a batch: it was mixed, not received", vessel->id),
                {}, "put right the containers that it was mixed from");
  if (auto ok = check_correction(correction); !ok) return tl::make_unexpected(ok.error());
  json body = differing(correction, vessel->body);
  if (body.empty())
    return fail(ErrorCode::wrong_state, fmt::format("the book says the same of {} already", vessel->id), {},
                "nothing is left to do");
  const auto receipt = read_uuid(vessel->text("entry"));
  if (!receipt) return tl::make_unexpected(receipt.error());
  body["container"] = vessel->id;
  body["corrected"] = {{"seq", first_movement(context.documents, vessel->id).front()},
                       {"kind", "container-received"}};
  NewEntry entry = draft(context, "container-corrected", std::move(body));
  entry.corrects = *receipt;
  entry.reason = correction.why;
  return Drafts{std::move(entry)};
}

}  // namespace fogwright
