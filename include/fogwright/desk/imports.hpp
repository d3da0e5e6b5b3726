// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Many entries out of one file (docs/exchange.md): the crew, and jobs that were done before the book. All or
/// nothing; every fault comes with its line ("file:line"), code bad_import.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/desk/crew.hpp"
#include "fogwright/desk/job.hpp"

namespace fogwright {

/// One line of a crew file: a person, a credential, or both.
struct CrewRow {
  Enrolment person;  ///< without roles: somebody who is in the crew, or stands on a line above
  std::string name,
      contact;  ///< kept beside the record; the caller keeps them and puts their hash into `person`
  std::optional<Credential> credential;
  std::string where;
};
/// Columns handle, roles, name, contact, what, issued, expires, facepiece, model, size, number, issuer, result
/// in any order; handle is needed. Roles are parted by ";" or ",".
[[nodiscard]] tl::expected<std::vector<CrewRow>, Faults> read_crew_csv(std::string_view text,
                                                                       std::string_view file);
/// Roles that stand again on a later line of the same person must be the same ones.
[[nodiscard]] tl::expected<Drafts, Faults> import_crew(const DeskContext& context,
                                                       const std::vector<CrewRow>& rows);

/// One line of a job log, as it stands there.
struct OldJobRow {
  std::string job, product, technician, zone, started, ended, released, area, returns, fogged, used, fogger,
      van, customer, address, why;
  std::vector<std::pair<std::string, std::string>> met;  ///< item and its evidence
  std::string where;
};
/// Columns job, product, technician, zone, started, ended, released, area, returns, fogged, used, fogger, van,
/// customer, address, why, met; product, technician, started, ended and area are needed.
[[nodiscard]] tl::expected<std::vector<OldJobRow>, Faults> read_old_jobs_csv(std::string_view text,
                                                                             std::string_view file);

/// A job that was done before the book: its plan by the label that is adopted now, and what was done.
struct OldJob {
  NewJob job;
  Plan plan;
  LateRecord record;
  std::string where;
};
/// Plans each job and records it as done without the tool; one whose release is told is closed as well. Nothing
/// is drawn from stock: what was used then was never received into this book.
[[nodiscard]] tl::expected<Drafts, Faults> import_old_jobs(const DeskContext& context,
                                                           const std::vector<OldJob>& jobs,
                                                           const Calendar& calendar);

}  // namespace fogwright
