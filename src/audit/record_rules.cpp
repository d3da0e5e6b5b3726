// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "audit/book_rules.hpp"

namespace fogwright {

void judge_record(const BookView& view, const Found& found) {
  for (const RecordFinding& finding : view.input.record.findings) {
    Departure departure;
    departure.what = finding.what;
    if (finding.seq) departure.entries = {*finding.seq};
    departure.at_ms = view.input.now_ms;
    found(std::move(departure));
  }
}

void judge_unknown_kinds(const BookView& view, const Found& found) {
  view.documents.each("unknown-kind", false, [&](const std::string& kind, const nlohmann::json& body) {
    Departure departure;
    departure.what = fmt::format("{} entries of the kind \"{}\" were kept and not understood",
                                 body.value("count", std::int64_t{0}), kind);
    departure.at_ms = view.input.now_ms;
    found(std::move(departure));
  });
}

}  // namespace fogwright
