// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <set>

#include "audit/book_rules.hpp"
#include "desk/vessels.hpp"
#include "fogwright/desk/views.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::int64_t storage_reading_ms = 31 * 24 * 3'600'000LL;
/// So many movements are named as proof: the last ones.
constexpr std::size_t most_named = 8;

struct Sum {
  std::int64_t ul = 0, last_ms = 0;
  std::vector<std::int64_t> seqs;
};

Sum sum_of(std::string_view rows) {
  Sum sum;
  each_element(rows, [&](std::string_view element) {
    const Glance row(element);
    sum.ul += row.integer("ul").value_or(0);
    sum.last_ms = row.integer("at_ms").value_or(0);
    if (sum.seqs.size() == most_named) sum.seqs.erase(sum.seqs.begin());
    sum.seqs.push_back(row.integer("seq").value_or(0));
  });
  return sum;
}

/// What the book says is left in a vessel, without taking its document apart.
std::optional<std::int64_t> remaining_ul(const Documents& documents, std::string_view vessel) {
  for (const char* kind : vessel_kinds)
    if (const auto body = documents.get_text(kind, vessel)) return Glance(*body).integer("remaining_ul");
  return std::nullopt;
}

std::set<std::string> places_with_a_range(const Documents& documents, std::int64_t now_ms) {
  std::set<std::string> places;
  for (const VesselView& view : vessels_on_hand(documents, "", "", now_ms)) {
    const auto vessel = vessel_in(documents, view.id);
    const auto facts = vessel ? documents.get("label-facts", vessel->text("label_digest")) : std::nullopt;
    if (facts && (facts->contains("low_mk") || facts->contains("high_mk"))) places.insert(view.place);
  }
  return places;
}

}  // namespace

void judge_movements(const BookView& view, const Found& found) {
  view.documents.each_text("movements", false, [&](std::string_view key, std::string_view body) {
    const Sum sum = sum_of(Glance(body).raw("rows"));
    if (remaining_ul(view.documents, key) == sum.ul) return;
    const auto vessel = vessel_in(view.documents, std::string(key));
    if (!vessel) return;
    Departure departure;
    departure.what = fmt::format("the movements of {} add up to {}; the book says {} is left", key,
                                 volume_words(sum.ul), volume_words(vessel->remaining_ul()));
    departure.entries = sum.seqs;
    departure.at_ms = sum.last_ms;
    departure.product = vessel->text("product");
    departure.place = vessel->text("place");
    found(std::move(departure));
  });
}

void judge_expired_on_hand(const BookView& view, const Found& found) {
  for (const VesselView& vessel : vessels_on_hand(view.documents, "", "", view.input.now_ms)) {
    if (vessel.usable) continue;
    Departure departure;
    departure.what =
        fmt::format("{} in {} still holds {} and may not be used since {}", vessel.id, vessel.place,
                    volume_words(vessel.remaining_ul), day_of(vessel.usable_until_ms));
    departure.entries = first_movement(view.documents, vessel.id);
    departure.at_ms = vessel.usable_until_ms;
    departure.product = vessel.item.substr(0, vessel.item.find('/'));
    departure.place = vessel.place;
    found(std::move(departure));
  }
}

void judge_storage_readings(const BookView& view, const Found& found) {
  for (const std::string& name : places_with_a_range(view.documents, view.input.now_ms)) {
    const auto place = view.documents.get("place", name);
    const std::int64_t last = place ? place->value("last_read_ms", std::int64_t{0}) : 0;
    if (view.input.now_ms - last <= storage_reading_ms) continue;
    Departure departure;
    departure.what = last == 0 ? fmt::format("the temperature of {} was never read", name)
                               : fmt::format("the temperature of {} was read last on {}", name, day_of(last));
    departure.at_ms = view.input.now_ms;
    departure.place = name;
    found(std::move(departure));
  }
}

}  // namespace fogwright
