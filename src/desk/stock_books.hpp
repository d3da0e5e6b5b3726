// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the fold of stock writes down beside a vessel: its movements, use by day, draws by job.

#include "desk/vessels.hpp"
#include "fogwright/book/entry.hpp"

namespace fogwright {

/// Puts the vessel back; live while something remains.
void keep_vessel(MutableDocuments& documents, const Vessel& vessel);

/// Adds a row to the movements of a vessel: `change_ul` is by how much its remainder changed.
void note_movement(const Entry& entry, MutableDocuments& documents, const std::string& vessel,
                   std::int64_t change_ul, const nlohmann::json& more = nlohmann::json::object());

/// One row of a count, for the audit's control charts.
void note_count(const Entry& entry, MutableDocuments& documents, const Vessel& vessel,
                std::int64_t variance_ul);

/// The next number of a kind ("container", "batch"): counts those there have been.
void count_one(MutableDocuments& documents, const std::string& kind);

/// What was taken out of a container (minus: put back), for demand by day. `job` may be empty; what a job uses
/// of an item is kept for the last 20 jobs.
void note_use(const Entry& entry, MutableDocuments& documents, const std::string& item, std::int64_t ul);
void note_job_use(MutableDocuments& documents, const std::string& item, const std::string& job,
                  std::int64_t ul);

/// A draw of a job (minus: a return), with its cost where that is known.
void note_job_draw(MutableDocuments& documents, const Vessel& vessel, const std::string& job, std::int64_t ul);

}  // namespace fogwright
