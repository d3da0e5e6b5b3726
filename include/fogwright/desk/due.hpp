// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What falls due: last days of product, batches and papers, visits, and the holds that run. Read only.

#include <optional>
#include <string>
#include <vector>

#include "fogwright/desk/job.hpp"

namespace fogwright {

enum class DueKind { container, batch, credential, visit, hold };
[[nodiscard]] std::string_view due_name(DueKind kind) noexcept;  ///< "container", "batch", ...

/// Either a day, or a moment with or without an end.
struct Due {
  DueKind kind{};
  std::string key;      ///< of what falls due; with the kind it names this for ever
  std::string summary;  ///< one line
  std::string detail;   ///< what to do
  std::string day;      ///< ISO date: the last day; empty for a moment
  std::int64_t from_ms = 0;
  std::optional<std::int64_t> until_ms;
};

/// What falls due up to `days` days after now, by time. Product that is out of date and still there is told,
/// however long ago that was; papers and visits from the day before now on. A paper that a later one of its
/// kind replaces is left out, so are people who left. Cartridges go by minutes worn, which no date tells: they
/// are not here. A hold lasts until the calendar alone would end it; what really releases is release_job.
[[nodiscard]] std::vector<Due> due_within(const Documents& documents, const Moment& now, int days);

}  // namespace fogwright
