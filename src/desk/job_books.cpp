// SPDX-License-Identifier: Apache-2.0
#include "desk/job_books.hpp"

#include <algorithm>

#include "desk/checks.hpp"
#include "desk/vessels.hpp"

namespace fogwright {

using nlohmann::json;

std::vector<VesselShare> rest_of_use(const Documents& documents, const json& job, std::int64_t used_ul) {
  std::vector<VesselShare> shares;
  std::int64_t rest = used_ul - drawn_ul(documents, job);
  const auto vessels = vessels_of(job);
  for (std::size_t i = 0; i < vessels.size() && rest > 0; ++i) {
    const auto vessel = vessel_in(documents, vessels[i]);
    if (!vessel) continue;
    const std::int64_t ul = i + 1 == vessels.size() ? rest : std::min(rest, vessel->remaining_ul());
    if (ul <= 0) continue;
    shares.push_back({vessels[i], ul});
    rest -= ul;
  }
  return shares;
}

void draw_rest(const DeskContext& context, const json& job, std::int64_t used_ul, Drafts& drafts) {
  for (const VesselShare& share : rest_of_use(context.documents, job, used_ul))
    drafts.push_back(
        draft(context, "drawn", {{"from", share.vessel}, {"ul", share.ul}, {"job", job.at("job")}}));
}

void add_cartridge_hours(const DeskContext& context, const json& job, Drafts& drafts) {
  const CartridgeWear worn = not_booked(job, cartridge_wear(job));
  if (!worn.cartridge.empty() && worn.minutes > 0) drafts.push_back(cartridge_used(context, job, worn));
}

NewEntry cartridge_used(const DeskContext& context, const json& job, const CartridgeWear& worn) {
  return draft(context, "cartridge-used",
               {{"cartridge", worn.cartridge},
                {"minutes", worn.minutes},
                {"job", job.at("job")},
                {"by", job.at("technician")}});
}

}  // namespace fogwright
