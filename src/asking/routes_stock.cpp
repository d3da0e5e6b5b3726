// SPDX-License-Identifier: Apache-2.0
#include "asking/route.hpp"
#include "desk/money.hpp"
#include "fogwright/desk/stock_desk.hpp"

namespace fogwright {
namespace {

using enum MemberType;

Answer new_place(const DeskContext& context, Asked& asked) {
  return decided(add_place(context, asked.text("place"), asked.text("type"), asked.text("note")));
}

Answer storage(const DeskContext& context, Asked& asked) {
  const Temperature temperature = asked.take(read_temperature(asked.text("temperature"), "temperature"));
  return after(asked,
               [&] { return read_storage(context, asked.name(), temperature, asked.text("temperature")); });
}

Answer delivery(const DeskContext& context, Asked& asked) {
  Delivery d;
  d.container = asked.text("container");
  d.product = asked.text("product");
  d.part = asked.text("part");
  d.lot = asked.text("lot");
  d.size_typed = asked.text("size");
  d.size_ul = asked.volume("size", Rounding::down);
  d.expires = asked.text("expires");
  d.place = asked.text("place");
  if (asked.has("cost")) d.cost_cents = asked.take(read_cents(asked.text("cost"), "cost"));
  d.supplier = asked.text("supplier");
  return after(asked, [&] { return receive(context, d); });
}

Answer correction(const DeskContext& context, Asked& asked) {
  const auto given = [&](const char* member) {
    return asked.has(member) ? std::optional(asked.text(member)) : std::nullopt;
  };
  ContainerCorrection c{asked.name(), given("lot"), given("expires"), given("supplier"), {}, asked.text("why")};
  if (asked.has("cost")) c.cost_cents = asked.take(read_cents(asked.text("cost"), "cost"));
  return after(asked, [&] { return correct_container(context, c); });
}

Answer move(const DeskContext& context, Asked& asked) {
  return decided(move_vessel(context, asked.name(), asked.text("to")));
}
Answer open(const DeskContext& context, Asked& asked) { return decided(open_container(context, asked.name())); }

Answer take_out(const DeskContext& context, Asked& asked) {
  const DrawRequest request{asked.name(), asked.volume("volume", Rounding::up), asked.text("job"),
                            asked.text("reason")};
  return after(asked, [&] { return draw_from(context, request); });
}
Answer put_back(const DeskContext& context, Asked& asked) {
  const auto ul = asked.volume("volume", Rounding::down);
  return after(asked, [&] { return return_to(context, asked.name(), ul, asked.text("job")); });
}
Answer spill(const DeskContext& context, Asked& asked) {
  const auto ul = asked.volume("volume", Rounding::up);
  return after(asked, [&] { return record_spill(context, asked.name(), ul, asked.text("what_was_done")); });
}
Answer throw_away(const DeskContext& context, Asked& asked) {
  const auto ul = asked.volume_if_given("volume", Rounding::up);
  return after(asked, [&] { return dispose(context, asked.name(), ul, asked.text("how")); });
}
Answer count(const DeskContext& context, Asked& asked) {
  const auto found = asked.volume("found", Rounding::down);
  return after(asked, [&] { return count_vessel(context, asked.name(), found); });
}

/// "C12" or "C12=1.5 fl oz".
MixPart mix_part(Asked& asked, const std::string& typed) {
  const auto equals = typed.find('=');
  if (equals == std::string::npos) return {typed, {}};
  return {typed.substr(0, equals), asked.read_volume(typed.substr(equals + 1), "parts", Rounding::up)};
}

Answer mix(const DeskContext& context, Asked& asked) {
  MixRequest request;
  request.batch = asked.text("batch");
  request.product = asked.text("product");
  request.table = asked.text("table");
  request.made_ul = asked.volume("make", Rounding::down);
  for (const std::string& typed : asked.texts("parts")) request.parts.push_back(mix_part(asked, typed));
  request.place = asked.text("place");
  request.respirator_worn = asked.flag("respirator_worn");
  request.reason = asked.text("reason");
  return after(asked, [&] { return mix_batch(context, request); });
}

Answer order_rule(const DeskContext& context, Asked& asked) {
  const ReorderRule standard;
  const ReorderRule rule{asked.number("lead_time_days", standard.lead_time_days),
                         asked.number("deviation_days", standard.lead_time_deviation_days),
                         asked.number("service_z", standard.service_z)};
  const auto unit_ul = asked.volume("unit", Rounding::down);
  return after(asked, [&] { return set_reorder_rule(context, asked.name(), rule, unit_ul); });
}

}  // namespace

std::vector<Route> stock_routes() {
  const Member volume{"volume", text, true, "how much, e.g. 12 fl oz"};
  const Member job{"job", text, false, "for which job"};
  const Member reason{"reason", text, false, "why this one, where another expires first"};
  const Member place{"place", text, true, "shop or van"};
  std::vector<Route> all = {
      writing("/api/v1/places", "addPlace", "place-added", "A shop or a van",
              {place, {"type", text, true, "shop or van"}, {"note", text, false, "anything to know"}},
              new_place),
      writing("/api/v1/places/{place}/temperatures", "readStorage", "storage-read",
              "How warm it is where product is kept", {{"temperature", text, true, "e.g. 68 F"}}, storage),
      writing("/api/v1/containers", "receiveContainer", "container-received", "A container that arrived",
              {{"product", text, true, "key of the product"},
               {"lot", text, true, "lot number on the container"},
               {"size", text, true, "what it holds, e.g. 1 gal"},
               {"expires", text, true, "last day, e.g. 2027-01-31"},
               place,
               {"container", text, false, "id (else the next number)"},
               {"part", text, false, "which part, as the label's mixing table names it"},
               {"cost", text, false, "e.g. 84.50"},
               {"supplier", text, false, "who delivered it"}},
              delivery),
      writing("/api/v1/vessels/{vessel}/corrections", "correctContainer", "container-corrected",
              "What was typed wrongly off its label when it was received",
              {{"why", text, true, "why it is put right"},
               {"lot", text, false, "the lot number that is on it"},
               {"expires", text, false, "the last day that is on it, e.g. 2027-01-31"},
               {"supplier", text, false, "who delivered it"},
               {"cost", text, false, "e.g. 84.50"}},
              correction),
      writing("/api/v1/vessels/{vessel}/moves", "moveVessel", "container-moved", "To another shop or van",
              {{"to", text, true, "shop or van"}}, move),
      writing("/api/v1/vessels/{vessel}/open", "openContainer", "container-opened",
              "Opened: its opened life runs", {}, open),
      writing("/api/v1/vessels/{vessel}/draws", "draw", "drawn", "Taken out of a container or batch",
              {volume, job, reason}, take_out),
      writing("/api/v1/vessels/{vessel}/returns", "putBack", "returned", "What was not used", {volume, job},
              put_back),
      writing("/api/v1/vessels/{vessel}/spills", "spill", "spilled", "What was spilled",
              {volume, {"what_was_done", text, true, "what was done about it"}}, spill),
      writing("/api/v1/vessels/{vessel}/disposals", "dispose", "disposed",
              "Thrown away: what is left, or a volume of it",
              {{"how", text, true, "how, by the label"}, {"volume", text, false, "else all that is left"}},
              throw_away),
      writing("/api/v1/vessels/{vessel}/counts", "countVessel", "counted", "What it holds by measure",
              {{"found", text, true, "e.g. 1.5 qt; 0 mL for an empty one"}}, count),
      writing("/api/v1/batches", "mixBatch", "batch-mixed", "A batch by the label's mixing table",
              {{"product", text, true, "key of the product"},
               {"make", text, true, "how much mix"},
               {"parts", texts, true, "containers: C12, or C12=1.5 fl oz"},
               place,
               {"respirator_worn", flag, false, "the respirator was worn for mixing"},
               {"table", text, false, "which mixing table of the label"},
               {"batch", text, false, "id (else the next number)"},
               reason},
              mix),
      writing("/api/v1/products/{product}/reorder", "setReorder", "reorder-set",
              "When to order a product again",
              {{"unit", text, true, "what is ordered at once"},
               {"lead_time_days", text, false, "days to delivery (7)"},
               {"deviation_days", text, false, "standard deviation of that (0)"},
               {"service_z", text, false, "standard normal factor (1.645)"}},
              order_rule),
  };
  for (Route& route : all)
    if (std::string_view(route.kind) == "container-received" || std::string_view(route.kind) == "batch-mixed")
      route.counted = std::string_view(route.kind) == "batch-mixed" ? "batch" : "container";
  return all;
}

}  // namespace fogwright
