// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "cli/paper_call.hpp"

namespace fogwright {

// The papers of one job.
[[nodiscard]] Outcome run_paper_record(const Call& call);
[[nodiscard]] Outcome run_paper_leave_behind(const Call& call);
[[nodiscard]] Outcome run_paper_door(const Call& call);
[[nodiscard]] Outcome run_paper_all(const Call& call);
/// The record of a job as a PDF, made at the moment given, so that the same book gives the same bytes. Where
/// the book names no firm its origin stands there. Errors: not_found; those of pdf_of.
[[nodiscard]] Result<std::string> job_record_pdf(const press::Source& source, const std::string& job,
                                                 std::int64_t made_ms);
/// The mixing sheet of a job, of an adopted product, or of a profile without a book.
[[nodiscard]] Outcome run_paper_mixing(const Call& call);
[[nodiscard]] std::vector<OptionRow> paper_mixing_options();

}  // namespace fogwright
