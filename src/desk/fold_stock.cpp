// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <set>

#include "desk/fold_parts.hpp"
#include "desk/stock_books.hpp"
#include "fogwright/book/uuid.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// Company policy: a count that is off by more than this share of the vessel is a departure.
constexpr std::int64_t variance_share = 20;  // 1 in 20

/// A volume of a body; what is below zero (another program's) counts as nothing.
std::int64_t volume_of(const json& body, const char* member) {
  return std::max<std::int64_t>(0, body.at(member).get<std::int64_t>());
}

std::string job_of(const Entry& entry) { return entry.body.value("job", std::string()); }

/// A departure of what a vessel holds, shown by its receipt or mixing as well.
void raise_on(const Entry& entry, MutableDocuments& documents, const Vessel& vessel, std::string_view rule,
              std::string what, const json& more = json::object()) {
  json about = {{vessel.kind, vessel.id}, {"product", vessel.text("product")}, {"place", vessel.text("place")}};
  if (const std::string job = job_of(entry); !job.empty()) about["job"] = job;
  about.update(more);
  raise(entry, documents, rule, std::move(what), std::move(about), first_movement(documents, vessel.id));
}

/// The vessel that an entry is about; a departure and nothing where none has that id.
std::optional<Vessel> vessel_for(const Entry& entry, MutableDocuments& documents, const std::string& id) {
  auto vessel = vessel_in(documents, id);
  if (!vessel)
    raise(entry, documents, "unknown-name", fmt::format("no container or batch is called \"{}\"", id));
  return vessel;
}

void place_added(const Entry& entry, MutableDocuments& documents) {
  const std::string name = entry.body.at("place");
  documents.put("place", name, {{"place", name}, {"type", entry.body.at("type")}}, true);
}

void check_label_known(const Entry& entry, MutableDocuments& documents, const Vessel& vessel) {
  const auto product = documents.get("product", vessel.text("product"));
  const std::string digest = vessel.text("label_digest");
  if (product)
    for (const json& version : product->at("versions"))
      if (version["digest"] == digest) {
        if (version.contains("retired"))
          raise_on(entry, documents, vessel, "retired-label",
                   fmt::format("{} goes by a label that is retired: {}", vessel.id,
                               version["retired"].get<std::string>()));
        return;
      }
  raise_on(entry, documents, vessel, "unknown-label",
           fmt::format("{} goes by a label that was never adopted", vessel.id));
}

void container_received(const Entry& entry, MutableDocuments& documents) {
  const json& body = entry.body;
  Vessel vessel{"container", body.at("container"), {}};
  if (vessel_in(documents, vessel.id))
    return raise(entry, documents, "name-taken",
                 fmt::format("{} was received again; the first receipt stands", vessel.id), json::object(),
                 first_movement(documents, vessel.id));
  const std::int64_t size = volume_of(body, "size_ul");
  vessel.body = {
      {"entry", uuid_text(entry.id)}, {"part", body.value("part", std::string())}, {"size_ul", size},
      {"remaining_ul", size},         {"received_ms", entry.happened_ms},          {"disposed", false}};
  for (const char* member : {"container", "product", "label_digest", "lot", "place", "expires"})
    vessel.body[member] = body.at(member).get<std::string>();
  if (body.contains("cost_cents")) vessel.body["cost_cents"] = volume_of(body, "cost_cents");
  if (body.contains("supplier")) vessel.body["supplier"] = body["supplier"];
  keep_vessel(documents, vessel);
  note_movement(entry, documents, vessel.id, size);
  count_one(documents, "container");
  check_label_known(entry, documents, vessel);
  const std::string item = item_of(vessel.body);
  if (!documents.get("item-use", item))
    documents.put("item-use", item,
                  {{"item", item}, {"since", day_of(entry.happened_ms)}, {"jobs", json::array()}}, true);
}

/// Only what the container is taken for from now on changes: what was drawn before stays as it was judged. The
/// lot that it was entered under is kept, so that a recall finds it by either.
void container_corrected(const Entry& entry, MutableDocuments& documents) {
  const std::string id = entry.body.at("container");
  auto body = documents.get("container", id);
  if (!body)
    return raise(entry, documents, "unknown-name", fmt::format("no {} is called \"{}\"", "container", id));
  Vessel vessel{"container", id, std::move(*body)};
  const std::string lot_before = vessel.text("lot");
  for (const char* member : {"lot", "expires", "supplier"})
    if (entry.body.contains(member)) vessel.body[member] = entry.body[member].get<std::string>();
  if (entry.body.contains("cost_cents")) vessel.body["cost_cents"] = volume_of(entry.body, "cost_cents");
  const json earlier = vessel.body.value("earlier_lots", json::array());
  if (vessel.text("lot") != lot_before &&
      std::find(earlier.begin(), earlier.end(), lot_before) == earlier.end())
    vessel.body["earlier_lots"].push_back(lot_before);
  keep_vessel(documents, vessel);
  note_movement(entry, documents, id, 0, {{"note", entry.reason}});
}

void container_moved(const Entry& entry, MutableDocuments& documents) {
  auto vessel = vessel_for(entry, documents, entry.body.at("container"));
  if (!vessel) return;
  const std::string to = entry.body.at("to");
  note_movement(entry, documents, vessel->id, 0, {{"from", vessel->text("place")}, {"to", to}});
  vessel->body["place"] = to;
  keep_vessel(documents, *vessel);
}

void container_opened(const Entry& entry, MutableDocuments& documents) {
  auto vessel = vessel_for(entry, documents, entry.body.at("container"));
  if (!vessel) return;
  if (!vessel->body.contains("opened_ms")) vessel->body["opened_ms"] = entry.happened_ms;
  keep_vessel(documents, *vessel);
  note_movement(entry, documents, vessel->id, 0);
}

/// Takes a volume out of a vessel; whatever goes beyond what was there is an over-draw.
void take(const Entry& entry, MutableDocuments& documents, Vessel& vessel, std::int64_t ul,
          json more = json::object()) {
  const Draw taken = draw(vessel.remaining_ul(), ul);
  const std::int64_t before = vessel.remaining_ul();
  vessel.body["remaining_ul"] = taken.remaining_ul;
  if (const std::string job = job_of(entry); !job.empty()) more["job"] = job;
  if (taken.over_ul > 0) {
    more["over_ul"] = taken.over_ul;
    raise_on(entry, documents, vessel, "over-draw",
             fmt::format("{} was taken from {}, which held {}", volume_words(ul, Rounding::up), vessel.id,
                         volume_words(before, Rounding::down)));
  }
  note_movement(entry, documents, vessel.id, taken.remaining_ul - before, more);
}

/// When what is drawn was used: for a job at its fog, and not when it is written down at the end of the hold.
std::int64_t used_ms(const Entry& entry, const Documents& documents) {
  const auto job = documents.get("job", job_of(entry));
  if (!job || !job->contains("fog_started")) return entry.happened_ms;
  const json& last = job->contains("fog_ended") ? (*job)["fog_ended"] : (*job)["fog_started"];
  return std::min(entry.happened_ms, last.at("ms").get<std::int64_t>());
}

/// Whether what is used may be used: in date, not disposed of, by a label that stands. Returns whether it was
/// past its last moment.
bool check_usable(const Entry& entry, MutableDocuments& documents, const Vessel& vessel) {
  if (vessel.disposed())
    raise_on(entry, documents, vessel, "disposed-used",
             fmt::format("{} was used after it was disposed of", vessel.id));
  const bool over = used_ms(entry, documents) >= vessel_usable_until(documents, vessel);
  if (over)
    raise_on(entry, documents, vessel, vessel.is_batch() ? "batch-over-age" : "expired-used",
             fmt::format("{} was used after {}", vessel.id,
                         vessel.is_batch() ? "the life of the mix had ended" : "it had expired"));
  check_label_known(entry, documents, vessel);
  return over;
}

/// Drawing from a container opens it.
void open_by_use(const Entry& entry, Vessel& vessel) {
  if (!vessel.is_batch() && !vessel.body.contains("opened_ms")) vessel.body["opened_ms"] = entry.happened_ms;
}

/// What a volume of this vessel takes out of each item: of a batch, its share of each part, rounded up.
std::vector<std::pair<std::string, std::int64_t>> items_in(const Vessel& vessel, std::int64_t ul) {
  if (!vessel.is_batch()) return {{item_of(vessel.body), ul}};
  std::vector<std::pair<std::string, std::int64_t>> items;
  const auto made = static_cast<double>(std::max<std::int64_t>(1, vessel.capacity_ul()));
  for (const json& part : vessel.body.at("parts")) {
    const double share =
        static_cast<double>(ul) * static_cast<double>(part.at("ul").get<std::int64_t>()) / made;
    items.emplace_back(item_of(vessel.text("product"), part.value("part", std::string())),
                       static_cast<std::int64_t>(std::ceil(share)));
  }
  return items;
}

/// Books a volume to its job (minus: a return), and to the day's use where it left a container.
void book_use(const Entry& entry, MutableDocuments& documents, const Vessel& vessel, std::int64_t ul) {
  note_job_draw(documents, vessel, job_of(entry), ul);
  for (const auto& [item, share] : items_in(vessel, ul)) note_job_use(documents, item, job_of(entry), share);
  // What is in a batch left its containers when it was mixed.
  if (!vessel.is_batch()) note_use(entry, documents, item_of(vessel.body), ul);
}

void drawn(const Entry& entry, MutableDocuments& documents) {
  const std::int64_t ul = volume_of(entry.body, "ul");
  auto vessel = vessel_for(entry, documents, entry.body.at("from"));
  if (!vessel) return;
  check_usable(entry, documents, *vessel);
  take(entry, documents, *vessel, ul);
  open_by_use(entry, *vessel);
  keep_vessel(documents, *vessel);
  book_use(entry, documents, *vessel, ul);
  if (entry.body.contains("out_of_turn"))
    raise_on(entry, documents, *vessel, "out-of-turn",
             fmt::format("{} was taken although another expires first: {}", vessel->id,
                         entry.body["out_of_turn"].get<std::string>()));
}

/// Takes the parts of a batch out of their containers. Cost and lots of the batch come from them.
void take_parts(const Entry& entry, MutableDocuments& documents, json& batch) {
  std::int64_t cents = 0;
  bool all_costs_known = true;
  std::set<std::string> lots;
  for (const json& part : entry.body.at("parts")) {
    const std::int64_t ul = volume_of(part, "ul");
    auto vessel = vessel_for(entry, documents, part.at("container"));
    if (!vessel || vessel->is_batch()) {
      all_costs_known = false;
      continue;
    }
    if (check_usable(entry, documents, *vessel)) batch["of_expired"] = true;
    take(entry, documents, *vessel, ul, {{"into", batch["batch"]}});
    open_by_use(entry, *vessel);
    keep_vessel(documents, *vessel);
    note_use(entry, documents, item_of(vessel->body), ul);
    batch["parts"].push_back({{"container", vessel->id}, {"part", vessel->text("part")}, {"ul", ul}});
    lots.insert(vessel->text("lot"));
    const auto cost = cost_of(container_of(vessel->body), ul);
    all_costs_known = all_costs_known && cost;
    cents += cost.value_or(0);
  }
  if (entry.body.contains("off_label")) batch["off_label"] = true;
  batch["lot"] = fmt::format("{}", fmt::join(lots, ", "));
  if (all_costs_known) batch["cost_cents"] = cents;
}

void check_mixing(const Entry& entry, MutableDocuments& documents, const Vessel& batch) {
  check_label_known(entry, documents, batch);
  const auto facts = documents.get("label-facts", batch.text("label_digest"));
  if (facts && facts->value("mixing_respirator", false) && !batch.body["respirator_worn"].get<bool>())
    raise_on(entry, documents, batch, "mixed-without-respirator",
             fmt::format("{} was mixed without a respirator", batch.id), {{"person", batch.body["mixed_by"]}});
  if (entry.body.contains("off_label"))
    raise_on(entry, documents, batch, "mixed-off-label",
             fmt::format("{} was mixed otherwise than the label says: {}", batch.id,
                         entry.body["off_label"].get<std::string>()));
  if (entry.body.contains("out_of_turn"))
    raise_on(entry, documents, batch, "out-of-turn",
             fmt::format("for {} a container was taken although another expires first: {}", batch.id,
                         entry.body["out_of_turn"].get<std::string>()));
}

void batch_mixed(const Entry& entry, MutableDocuments& documents) {
  const json& body = entry.body;
  Vessel batch{"batch", body.at("batch"), {}};
  if (vessel_in(documents, batch.id))
    return raise(entry, documents, "name-taken",
                 fmt::format("{} was mixed again; the first mixing stands", batch.id), json::object(),
                 first_movement(documents, batch.id));
  const std::int64_t made = volume_of(body, "made_ul");
  batch.body = {{"made_ul", made},
                {"remaining_ul", made},
                {"mixed_ms", entry.happened_ms},
                {"usable_until_ms", body.at("usable_until_ms").get<std::int64_t>()},
                {"respirator_worn", body.at("respirator_worn").get<bool>()},
                {"parts", json::array()},
                {"disposed", false}};
  for (const char* member : {"batch", "product", "label_digest", "table", "place", "mixed_by"})
    batch.body[member] = body.at(member).get<std::string>();
  take_parts(entry, documents, batch.body);
  keep_vessel(documents, batch);
  note_movement(entry, documents, batch.id, made);
  count_one(documents, "batch");
  check_mixing(entry, documents, batch);
}

void returned(const Entry& entry, MutableDocuments& documents) {
  const std::int64_t ul = volume_of(entry.body, "ul");
  auto vessel = vessel_for(entry, documents, entry.body.at("to"));
  if (!vessel) return;
  vessel->body["remaining_ul"] = vessel->remaining_ul() + ul;
  keep_vessel(documents, *vessel);
  json more = json::object();
  if (const std::string job = job_of(entry); !job.empty()) more["job"] = job;
  note_movement(entry, documents, vessel->id, ul, more);
  book_use(entry, documents, *vessel, -ul);
  if (vessel->remaining_ul() > vessel->capacity_ul())
    raise_on(entry, documents, *vessel, "over-full",
             fmt::format("{} would hold more than its size after this return: count it", vessel->id));
}

void spilled(const Entry& entry, MutableDocuments& documents) {
  const std::int64_t ul = volume_of(entry.body, "ul");
  auto vessel = vessel_for(entry, documents, entry.body.at("from"));
  if (!vessel) return;
  take(entry, documents, *vessel, ul, {{"note", entry.body.at("what_was_done")}});
  open_by_use(entry, *vessel);
  keep_vessel(documents, *vessel);
}

void disposed(const Entry& entry, MutableDocuments& documents) {
  const std::int64_t ul = volume_of(entry.body, "ul");
  auto vessel = vessel_for(entry, documents, entry.body.at("from"));
  if (!vessel) return;
  take(entry, documents, *vessel, ul, {{"note", entry.body.at("how")}});
  open_by_use(entry, *vessel);
  vessel->body["disposed"] = vessel->remaining_ul() == 0;
  keep_vessel(documents, *vessel);
}

void counted(const Entry& entry, MutableDocuments& documents) {
  const std::int64_t found = volume_of(entry.body, "found_ul");
  auto vessel = vessel_for(entry, documents, entry.body.at("of"));
  if (!vessel) return;
  const std::int64_t variance = found - vessel->remaining_ul();
  vessel->body["remaining_ul"] = found;
  keep_vessel(documents, *vessel);
  note_movement(entry, documents, vessel->id, variance);
  note_count(entry, documents, *vessel, variance);
  if (std::abs(variance) * variance_share > vessel->capacity_ul())
    raise_on(entry, documents, *vessel, "count-variance",
             fmt::format("{} held {} {} than the book said", vessel->id, volume_words(std::abs(variance)),
                         variance < 0 ? "less" : "more"));
}

/// Labels of what is kept in a place, each once.
std::set<std::string> labels_at(const Documents& documents, const std::string& place) {
  std::set<std::string> digests;
  for (const char* kind : {"container", "batch"})
    documents.each(kind, true, [&](const std::string&, const json& body) {
      if (body.at("place") == place) digests.insert(body.at("label_digest").get<std::string>());
    });
  return digests;
}

void storage_read(const Entry& entry, MutableDocuments& documents) {
  const std::string name = entry.body.at("place");
  const auto mk = entry.body.at("temperature_mk").get<std::int64_t>();
  auto place = documents.get("place", name);
  if (!place) return raise(entry, documents, "unknown-name", fmt::format("no place is called \"{}\"", name));
  (*place)["last_temperature_mk"] = mk;
  (*place)["last_read_ms"] = entry.happened_ms;
  documents.put("place", name, *place, true);
  for (const std::string& digest : labels_at(documents, name)) {
    const auto facts = documents.get("label-facts", digest);
    if (!facts) continue;
    const std::string_view off = off_storage_range(*facts, mk);
    if (off.empty()) continue;
    const std::string product = facts->at("product");
    raise(entry, documents, "storage-range",
          fmt::format("{} is {} than the label of {} allows", name, off, product),
          {{"place", name}, {"product", product}});
  }
}

void reorder_set(const Entry& entry, MutableDocuments& documents) {
  json rule = {{"lead_time_sd_days", entry.body.value("lead_time_sd_days", 0)}};
  for (const char* member : {"product", "lead_time_days", "service_z_milli", "unit_ul"})
    rule[member] = entry.body.at(member);
  documents.put("reorder", rule["product"].get<std::string>(), rule, true);
}

constexpr FoldRow stock_rows[] = {
    {"place-added", place_added},
    {"container-received", container_received},
    {"container-corrected", container_corrected},
    {"container-moved", container_moved},
    {"container-opened", container_opened},
    {"drawn", drawn},
    {"batch-mixed", batch_mixed},
    {"returned", returned},
    {"spilled", spilled},
    {"disposed", disposed},
    {"counted", counted},
    {"storage-read", storage_read},
    {"reorder-set", reorder_set},
};

}  // namespace

std::span<const FoldRow> stock_fold() { return stock_rows; }

}  // namespace fogwright
