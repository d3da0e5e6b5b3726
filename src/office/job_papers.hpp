// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The papers of one job, as the command line and the server print them.

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "fogwright/press.hpp"

namespace fogwright {

using FillPaper = Result<paper::Paper> (*)(const press::Source& source, const std::string& job,
                                           const paper::Form& form);
struct JobPaper {
  std::string_view name;  ///< "leave-behind"
  FillPaper fill;         ///< errors: those of press, label_incomplete (mixing)
  bool for_customer;
};
/// record, leave-behind, door, mixing: in the order of a full set.
[[nodiscard]] std::span<const JobPaper> job_papers();
[[nodiscard]] const JobPaper* find_job_paper(std::string_view name);

/// A source and a form in a language, in the firm's name and at the time of the job's place.
struct DressedPaper {
  press::Source source;
  paper::Form form;
};
/// Errors: not_found (the job).
[[nodiscard]] Result<DressedPaper> dress_job_paper(const press::Source& source, const paper::Form& form,
                                                   const Firm& firm, const std::string& job,
                                                   paper::Language language);

/// What to measure out for a volume; without one, for the batch that the label's table makes. `table` may be
/// empty.
[[nodiscard]] Result<paper::MixingSheet> mixing_facts_for(const Label& label, std::optional<LiquidVolume> make,
                                                          const std::string& table, UnitSystem units,
                                                          paper::Language language);

/// "J1-leave-behind", "J1-leave-behind-es": the name of a file, without its ending.
[[nodiscard]] std::string job_paper_name(const std::string& job, std::string_view paper,
                                         paper::Language language);

}  // namespace fogwright
