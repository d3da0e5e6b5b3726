// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <exception>

#include "desk/fold_parts.hpp"

namespace fogwright {

std::string_view severity_name(Severity severity) noexcept {
  switch (severity) {
    case Severity::note:
      return "note";
    case Severity::minor:
      return "minor";
    case Severity::major:
      return "major";
    case Severity::grave:
      return "grave";
  }
  return "";
}

std::string sequence_key(std::int64_t seq) { return fmt::format("{:012}", seq); }

void add_seq(Sequence& entries, const nlohmann::json& part) {
  if (part.is_number_integer())
    entries.push_back(part.get<std::int64_t>());
  else if (const auto seq = part.find("seq"); seq != part.end())
    entries.push_back(seq->get<std::int64_t>());
}

void raise(const Entry& entry, MutableDocuments& documents, std::string_view rule, std::string what,
           nlohmann::json about, Sequence shown_by) {
  const auto rules = departure_rules();
  const auto row =
      std::find_if(rules.begin(), rules.end(), [&](const DepartureRule& r) { return r.id == rule; });
  if (row == rules.end()) std::terminate();  // a defect of the program, which each rule's test would meet
  // Keys in the order of the book; an entry can break several rules.
  int number = 0;
  std::string key;
  do key = fmt::format("{}-{}", sequence_key(entry.seq), number++);
  while (documents.get("departure", key));
  about["seq"] = entry.seq;
  about["rule"] = rule;
  about["severity"] = severity_name(row->severity);
  about["what"] = std::move(what);
  about["actor"] = entry.actor;
  about["happened_ms"] = entry.happened_ms;
  std::sort(shown_by.begin(), shown_by.end());
  shown_by.erase(std::unique(shown_by.begin(), shown_by.end()), shown_by.end());
  std::erase(shown_by, entry.seq);
  if (!shown_by.empty()) about["shown_by"] = std::move(shown_by);
  documents.put("departure", key, about, true);
}

}  // namespace fogwright
