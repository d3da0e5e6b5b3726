// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>

#include "trace/facts.hpp"

namespace fogwright {
namespace {

using namespace trace;
using nlohmann::json;

/// Small letters and digits; anything beyond ASCII belongs to a word as it is.
std::vector<std::string> words_in(const std::string& text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    const bool large = c >= 'A' && c <= 'Z';
    const bool part = large || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c & '\x80') != 0;
    if (part)
      words.back() += large ? static_cast<char>(c - 'A' + 'a') : c;
    else if (!words.back().empty())
      words.emplace_back();
  }
  if (words.back().empty()) words.pop_back();
  return words;
}

bool matches(const Site& site, const std::vector<std::string>& wanted) {
  const auto known = words_in(site.address + " " + site.customer);
  return std::all_of(wanted.begin(), wanted.end(), [&](const std::string& word) {
    return std::any_of(known.begin(), known.end(),
                       [&](const std::string& one) { return one.starts_with(word); });
  });
}

/// Sites that cannot be searched, by why.
struct Unsearchable {
  std::size_t erased = 0, none = 0;
};

AnswerRow row_of(const Asked& asked, Labels& labels, const json& job, const Site& site) {
  AnswerRow row;
  row.data = job_data(asked, labels, job);
  row.label = row.data.at("day");
  const auto used = used_ul(asked.documents, job);
  const auto lots = lots_of_job(asked.documents, job);
  row.data["used_ul"] = used ? json(*used) : json(nullptr);
  row.data["address"] = site.address;
  row.data["customer"] = site.customer;
  row.words = fmt::format(
      "{}: {}, {}; {}; {}", product_words(row.data), lots.empty() ? "no lot noted" : "lot " + joined(lots),
      was_fogged(job) ? (used ? volume_text(asked, *used) + " used" : "volume not known") : "not fogged",
      job.at("state").get<std::string>(), site.words());
  return row;
}

std::string sentence_of(const std::string& text, const Answer& answer) {
  std::set<std::string> days, products, lots;
  for (const AnswerRow& row : answer.rows) {
    days.insert(row.data.at("day").get<std::string>());
    products.insert(row.data.at("name").get<std::string>());
    for (const json& lot : row.data.at("lots")) lots.insert(lot.get<std::string>());
  }
  if (answer.rows.empty()) return fmt::format("No job has an address or customer that matches \"{}\".", text);
  return fmt::format("{} at \"{}\"{}: {}{}.", counted(answer.rows.size(), "job", "jobs"), text,
                     span_words(days), joined(products),
                     lots.empty() ? ", no lot noted" : ", lots " + joined(lots));
}

}  // namespace

Result<Answer> ask_address(const Asked& asked, const std::string& text) {
  const auto wanted = words_in(text);
  if (wanted.empty())
    return fail(ErrorCode::missing_value, "no address is given", {},
                "write e.g. fogwright ask address 12 Mill Lane");
  Labels labels(asked.documents);
  Answer answer;
  Unsearchable unsearchable;
  for (const json& job : jobs_by_day(asked, [](const json&) { return true; })) {
    const Site site = site_of(asked, job);
    if (site.kept == Site::Kept::erased) ++unsearchable.erased;
    if (site.kept == Site::Kept::none) ++unsearchable.none;
    if (site.kept == Site::Kept::yes && matches(site, wanted))
      answer.rows.push_back(row_of(asked, labels, job, site));
  }
  answer.sentence = sentence_of(text, answer);
  if (unsearchable.erased > 0)
    answer.notes.push_back(
        fmt::format("Not searched: {} whose address was erased.", counted(unsearchable.erased, "job", "jobs")));
  if (unsearchable.none > 0)
    answer.notes.push_back(
        fmt::format("Not searched: {} planned without an address.", counted(unsearchable.none, "job", "jobs")));
  return answer;
}

}  // namespace fogwright
