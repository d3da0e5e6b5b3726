// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "audit/book_rules.hpp"
#include "fogwright/audit/retention.hpp"

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

namespace {

using Held = Result<std::vector<RetentionHold>> (*)(const Documents&, const std::string&, std::int64_t);

/// Whether an object may have a member of this name. Looked for without taking it apart: documents are long,
/// and erasures rare.
class MayName {
 public:
  explicit MayName(std::string_view member) : quoted_(fmt::format("\"{}\"", member)) {}

  bool operator()(std::string_view body) const {
    return std::search(body.begin(), body.end(), searcher_) != body.end();
  }

 private:
  std::string quoted_;
  std::boyer_moore_horspool_searcher<std::string::const_iterator> searcher_{quoted_.begin(), quoted_.end()};
};

/// Asks what had to be kept at the moment of the erasure; what became known later is not held against it.
void each_early(const BookView& view, const char* kind, Held held, const Found& found) {
  const MayName may_be_erased("erased");
  view.documents.each_text(kind, false, [&](std::string_view key, std::string_view body) {
    if (!may_be_erased(body)) return;
    const Glance erased(Glance(body).raw("erased"));
    const auto at_ms = erased.integer("at_ms");
    if (!at_ms) return;
    const auto holds = held(view.documents, std::string(key), *at_ms);
    if (!holds || holds->empty()) return;
    Departure departure;
    departure.what = fmt::format("what was kept beside {} {} was erased: {}", kind, key, holds->front().what);
    departure.at_ms = *at_ms;
    departure.entries = {erased.integer("seq").value_or(0)};
    (std::string_view(kind) == "job" ? departure.job : departure.person) = key;
    found(std::move(departure));
  });
}

}  // namespace

void judge_erasures(const BookView& view, const Found& found) {
  each_early(view, "job", retention_of_job, found);
  each_early(view, "person", retention_of_person, found);
}

}  // namespace fogwright
