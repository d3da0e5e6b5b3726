// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What a job writes into the books of the stock and of the cartridges when it ends.

#include "desk/job_document.hpp"

namespace fogwright {

/// What one vessel gives.
struct VesselShare {
  std::string vessel;
  std::int64_t ul = 0;
};
/// What was used and not drawn yet, out of the vessels of the job; the last one gives the rest, whatever the
/// book says it holds.
[[nodiscard]] std::vector<VesselShare> rest_of_use(const Documents& documents, const nlohmann::json& job,
                                                   std::int64_t used_ul);
/// Draws it.
void draw_rest(const DeskContext& context, const nlohmann::json& job, std::int64_t used_ul, Drafts& drafts);
/// The minutes that its cartridge was worn: as told, else as declared at the gate. Nothing for supplied air.
void add_cartridge_hours(const DeskContext& context, const nlohmann::json& job, Drafts& drafts);
/// Minutes of one cartridge, for the job.
[[nodiscard]] NewEntry cartridge_used(const DeskContext& context, const nlohmann::json& job,
                                      const CartridgeWear& worn);

}  // namespace fogwright
