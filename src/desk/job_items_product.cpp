// SPDX-License-Identifier: Apache-2.0
// Product, lot, date, mix, volumes.
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <algorithm>
#include <set>

#include "desk/checks.hpp"
#include "desk/job_books.hpp"
#include "desk/job_items.hpp"
#include "desk/vessels.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

Result<json> read_registration(const GateView&, const Need& need, const std::string& typed) {
  if (plain_words(typed).empty()) return unclear(need, typed, "copy the number from the container");
  return json{{"read", typed}};
}

Fault registration_fault(const GateView&, const Need& need, const json& evidence) {
  const std::string read = evidence.at("read");
  if (plain_words(read) == plain_words(need.value)) return std::nullopt;
  return fmt::format("the container reads {}, and the plan is for {}", read, need.value);
}

/// Whether a vessel holds the product of the job and may be used.
Fault vessel_fault(const GateView& view, const std::string& id, bool batch) {
  const auto vessel = vessel_in(view.documents, id);
  if (!vessel || vessel->is_batch() != batch)
    return fmt::format("no {} is called \"{}\"", batch ? "batch" : "container", id);
  if (vessel->text("product") != view.job.at("product"))
    return fmt::format("{} holds {}", id, vessel->text("product"));
  // What a mix took out of a container is in the batch: the empty one may be gone.
  const bool in_batch = !batch && is_mixed(view.job);
  if (vessel->disposed() && !in_batch) return fmt::format("{} was disposed of", id);
  return std::nullopt;
}

/// What other jobs let out and have not drawn yet, as far as it will come out of these vessels: what they used,
/// while they fog the most they can.
std::int64_t undrawn_ul(const GateView& view, const std::set<std::string>& vessels) {
  std::int64_t ul = 0;
  view.documents.each("job", true, [&](const std::string& id, const json& job) {
    if (id == view.job.at("job") || !is_unbooked(job)) return;
    const auto used = job.contains("used_ul") ? job["used_ul"].get<std::int64_t>()
                                              : job.at("plan").at("volume_ul").at("high").get<std::int64_t>();
    for (const VesselShare& share : rest_of_use(view.documents, job, used))
      if (vessels.contains(share.vessel)) ul += share.ul;
  });
  return ul;
}

/// Enough for the most that the plan's band takes; what was drawn for the job counts.
Fault amount_fault(const GateView& view, const std::vector<std::string>& vessels) {
  const std::set<std::string> each(vessels.begin(), vessels.end());
  std::int64_t there = drawn_ul(view.documents, view.job) - undrawn_ul(view, each);
  for (const std::string& id : each)
    if (const auto vessel = vessel_in(view.documents, id)) there += vessel->remaining_ul();
  const auto most_ul = view.job.at("plan").at("volume_ul").at("high").get<std::int64_t>();
  if (there >= most_ul) return std::nullopt;
  return fmt::format("{} hold {}, and the plan can take {}", fmt::join(vessels, ", "),
                     volume_words(std::max<std::int64_t>(0, there), Rounding::down),
                     volume_words(most_ul, Rounding::up));
}

Result<json> read_containers(const GateView& view, const Need& need, const std::string& typed) {
  const auto ids = parts_of(typed, true);
  if (ids.empty()) return unclear(need, typed, "write the ids of the containers, e.g. 'C3 C4'");
  std::set<std::string> lots;
  for (const std::string& id : ids)
    if (const auto vessel = vessel_in(view.documents, id)) lots.insert(vessel->text("lot"));
  return json{{"from", ids}, {"lot", fmt::format("{}", fmt::join(lots, ", "))}};
}

Fault containers_fault(const GateView& view, const Need&, const json& evidence) {
  const std::vector<std::string> ids = evidence.at("from");
  if (ids.empty()) return "no container is named";
  for (const std::string& id : ids)
    if (auto fault = vessel_fault(view, id, false)) return fault;
  return is_mixed(view.job) ? std::nullopt : amount_fault(view, ids);
}

Result<json> read_last_day(const GateView&, const Need& need, const std::string& typed) {
  const auto date = read_date(plain_words(typed), "the date on the container", need.id);
  if (!date) return tl::make_unexpected(date.error());
  return json{{"expires", plain_words(typed)}};
}

bool is_part_of(const Vessel& batch, const std::string& container) {
  const json parts = batch.body.value("parts", json::array());
  return std::any_of(parts.begin(), parts.end(),
                     [&](const json& part) { return part.at("container") == container; });
}

Fault last_day_fault(const GateView& view, const Need&, const json& evidence) {
  if (const std::string last = evidence.at("expires"); last < view.today.date)
    return fmt::format("it expired on {}", last);
  const auto ids = containers_of(view.job);
  if (ids.empty()) return "the containers are not named yet";
  const auto batch = vessel_in(view.documents, evidence_text(view.job, "mix-time", "from"));
  for (const std::string& id : ids) {
    const auto vessel = vessel_in(view.documents, id);
    // What is in the batch was used when it was mixed; the batch has a life of its own.
    const std::int64_t used_ms =
        batch && is_part_of(*batch, id) ? batch->body.at("mixed_ms").get<std::int64_t>() : view.now_ms;
    if (!vessel || used_ms >= vessel_usable_until(view.documents, *vessel))
      return fmt::format("by the book {} is past its shelf life", id);
  }
  return std::nullopt;
}

Result<json> read_batch(const GateView& view, const Need& need, const std::string& typed) {
  const auto ids = parts_of(typed, true);
  if (ids.size() != 1) return unclear(need, typed, "write the id of one batch, e.g. B2");
  const auto batch = vessel_in(view.documents, ids[0]);
  if (!batch || !batch->is_batch())
    return fail(ErrorCode::not_found, fmt::format("no batch is called \"{}\"", ids[0]), need.id,
                "write the mix down first: fogwright stock mix");
  return json{{"from", ids[0]}, {"ms", batch->body.at("mixed_ms")}};
}

Fault batch_fault(const GateView& view, const Need&, const json& evidence) {
  const std::string id = evidence.at("from");
  if (auto fault = vessel_fault(view, id, true)) return fault;
  const auto batch = vessel_in(view.documents, id);
  if (view.job.at("plan").at("respirator").at("mixing").get<bool>() &&
      !batch->body.at("respirator_worn").get<bool>())
    return fmt::format("{} was mixed without a respirator: mix another", id);
  if (batch->body.value("off_label", false))
    return fmt::format("{} was mixed otherwise than the label says: dispose of it and mix another", id);
  if (batch->body.value("of_expired", false))
    return fmt::format("{} was mixed of product that had expired: dispose of it and mix another", id);
  // The record of a job names the lots that were fogged.
  const auto named = containers_of(view.job);
  for (const json& part : batch->body.at("parts"))
    if (const std::string from = part.at("container");
        !named.empty() && std::find(named.begin(), named.end(), from) == named.end())
      return fmt::format("{} was mixed out of {}, which is not among the containers that were named", id, from);
  return amount_fault(view, {id});
}

Result<json> read_in_life(const GateView& view, const Need& need, const std::string& typed) {
  if (!is_yes(typed)) return unclear(need, typed, "write yes when the time on the batch is not over");
  return json{{"from", evidence_text(view.job, "mix-time", "from")}};
}

/// The mix must last to the end of the fog.
Fault in_life_fault(const GateView& view, const Need&, const json& evidence) {
  const std::string id = evidence_text(view.job, "mix-time", "from");
  if (id.empty()) return "the batch is not named yet";
  if (evidence.at("from") != id) return fmt::format("it was shown for another batch than {}", id);
  const auto batch = vessel_in(view.documents, id);
  if (batch && view.now_ms + target_seconds(view.job) * 1'000 < vessel_usable_until(view.documents, *batch))
    return std::nullopt;
  return fmt::format("the life of {} is over, or ends while it is fogged", id);
}

/// Where the thermometer was last read, the range of the label must have held.
Fault storage_fault(const GateView& view, const Need&, const json& evidence) {
  if (evidence.value("confirmed", json()) != true) return "nobody has confirmed it";
  for (const std::string& id : containers_of(view.job)) {
    const auto vessel = vessel_in(view.documents, id);
    if (!vessel) continue;
    const std::string name = vessel->text("place");
    const auto place = view.documents.get("place", name);
    const auto facts = view.documents.get("label-facts", vessel->text("label_digest"));
    if (!place || !facts || !place->contains("last_temperature_mk")) continue;
    if (place->value("last_read_ms", std::int64_t{0}) > view.now_ms)
      continue;  // what was read later says nothing
    const auto mk = (*place)["last_temperature_mk"].get<std::int64_t>();
    if (const std::string_view off = off_storage_range(*facts, mk); !off.empty())
      return fmt::format("{}, where {} is, was {} than the label allows when it was last read", name, id, off);
  }
  return std::nullopt;
}

Result<json> read_volume(const GateView&, const Need& need, const std::string& typed) {
  const auto volume = read_liquid_volume(typed, need.id);
  if (!volume) return tl::make_unexpected(volume.error());
  return json{{"ul", volume->floor_in(unit::microlitre)}, {"typed", typed}};
}

Fault volume_before_fault(const GateView& view, const Need&, const json& evidence) {
  const auto ul = evidence.at("ul").get<std::int64_t>();
  if (ul <= 0) return "nothing is in the tank";
  const auto fogger = view.documents.get("fogger", view.job.value("fogger", std::string()));
  if (!fogger || !fogger->contains("tank_ul")) return std::nullopt;
  const auto tank_ul = (*fogger)["tank_ul"].get<std::int64_t>();
  if (ul <= tank_ul) return std::nullopt;
  return fmt::format("the tank of {} holds {}", view.job["fogger"].get<std::string>(),
                     volume_words(tank_ul, Rounding::down));
}

Fault volume_after_fault(const GateView&, const Need&, const json& evidence) {
  if (evidence.at("ul").get<std::int64_t>() >= 0) return std::nullopt;
  return "what is left in the tank is missing";
}

constexpr ItemForm product_rows[] = {
    {"product-right", "Copy the registration number from the container", read_registration, registration_fault},
    {"lot-noted", "Ids of the containers, e.g. 'C3 C4'", read_containers, containers_fault},
    {"product-in-date", "Last day on the container, e.g. 2027-03-31", read_last_day, last_day_fault},
    {"storage-kept", "Was it? The book knows the last reading", read_yes, storage_fault},
    {"mix-time", "Id of the batch, e.g. B2 (fogwright stock mix writes it down)", read_batch, batch_fault},
    {"mix-in-life", "Is its time not over", read_in_life, in_life_fault},
    {"volume-before", "How much is in the tank, e.g. '20 fl oz'", read_volume, volume_before_fault},
    {"volume-after", "How much is left in the tank, e.g. '7 fl oz'", read_volume, volume_after_fault},
};

}  // namespace

std::span<const ItemForm> product_forms() { return product_rows; }

}  // namespace fogwright
