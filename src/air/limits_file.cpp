// SPDX-License-Identifier: Apache-2.0
// The file of limits that users enter: [[limit]] tables, read with the rows of the label profiles.
#include "fogwright/air.hpp"
#include "label/rows.hpp"
#include "label/syntax.hpp"

namespace fogwright {

namespace {

constexpr profile::Word<LimitKind> limit_kinds[] = {
    {LimitKind::eight_hour, "eight-hour", "8 h"},
    {LimitKind::short_term, "short-term", "15 min"},
    {LimitKind::ceiling, "ceiling", "ceiling"},
    {LimitKind::immediately_dangerous, "immediately-dangerous", "immediately dangerous"}};

}  // namespace

/// Found by the rows through the type of its argument.
static constexpr std::span<const profile::Word<LimitKind>> words_of(LimitKind) { return limit_kinds; }

namespace {

using profile::optional;
using profile::required;
using profile::Shape;

struct LimitFile {
  std::vector<EnteredLimit> limits;
};

constexpr profile::Row<EnteredLimit> limit_rows[] = {
    profile::value<&EnteredLimit::cas, profile::read_cas>("cas", Shape::cas, required, "\"10049-04-4\"",
                                                          "CAS registry number of what is in the air."),
    profile::word<&EnteredLimit::kind>("kind", required, "\"ceiling\"", "What the limit is for."),
    profile::value<&EnteredLimit::ppm, profile::read_bare_number>(
        "ppm", Shape::number, optional, "0.1", "Parts per million by volume, at 25 °C and 760 mmHg."),
    profile::value<&EnteredLimit::mg_per_m3, profile::read_bare_number>("mg_per_m3", Shape::number, optional,
                                                                        "0.28", "Milligrams in a cubic metre."),
    profile::statement<&EnteredLimit::source>("source", required, "\"threshold limits booklet, 2025, page 20\"",
                                              "Where the limit is published."),
    profile::value<&EnteredLimit::date, profile::read_date>("date", Shape::date, required, "\"2025-03-01\"",
                                                            "The day it was read there."),
};

void check_limit(profile::Reading& reading, const toml::table& node, const EnteredLimit& limit) {
  if (limit.mg_per_m3) return;
  if (!limit.ppm)
    reading.fault(node.source().begin, "the limit has no value", "write ppm = 0.1, mg_per_m3 = 0.28, or both");
  else if (!limit.cas.empty() && !find_substance(limit.cas))
    reading.fault(node.source().begin,
                  fmt::format("no molar mass is known for {}, so its ppm cannot be converted", limit.cas),
                  "add mg_per_m3 from the same source");
}

constexpr profile::Table<EnteredLimit> limit_table{"limit", "[[limit]]", "A limit that the user enters.",
                                                   limit_rows, check_limit};
constexpr profile::Row<LimitFile> file_rows[] = {
    profile::tables<&LimitFile::limits, &limit_table>("limit", required, "[[limit]]", "limit", "The limits."),
};
constexpr profile::Table<LimitFile> file_table{"limits file", "the file", "Limits that the user enters.",
                                               file_rows};

}  // namespace

tl::expected<std::vector<EnteredLimit>, Faults> read_limits(std::string_view toml_text, std::string_view file) {
  auto parsed = profile::parse_profile(toml_text);
  profile::Reading reading(file, parsed.faults.empty());
  for (auto& fault : parsed.faults) reading.fault(fault.at, std::move(fault.message), std::move(fault.hint));
  LimitFile read;
  profile::read_table(reading, file_table, file_table.header, parsed.table, {1, 1}, read);
  Faults faults = reading.take();
  if (faults.empty()) return std::move(read.limits);
  for (Error& fault : faults) fault.code = ErrorCode::bad_site;
  return tl::make_unexpected(std::move(faults));
}

}  // namespace fogwright
