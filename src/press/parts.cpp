// SPDX-License-Identifier: Apache-2.0
#include "press/parts.hpp"

#include <fmt/format.h>
#include <algorithm>

#include "desk/job_document.hpp"

namespace fogwright::press {

using nlohmann::json;
using paper::Language;
using paper::Word;

namespace {

std::size_t words_in(std::string_view line) {
  return static_cast<std::size_t>(std::count(line.begin(), line.end(), ' ')) + 1;
}

Result<Label> read_text(const Source& source, const json& job) {
  const std::string digest = job.at("label_digest");
  const auto text = source.now.get("label", digest);
  if (!text)
    return fail(ErrorCode::not_found,
                fmt::format("the book does not hold the text of the label that job {} was planned with ({})",
                            job.at("job").get<std::string>(), digest),
                {}, "a paper without the label's own words would be worth nothing");
  auto label = read_label(text->at("text").get<std::string>(), job.at("product").get<std::string>());
  if (!label) return tl::make_unexpected(std::move(label.error().front()));
  return std::move(*label);
}

}  // namespace

Site site_of(const Source& source, const json& job) {
  const std::string hash = job.at("site");
  const std::string unknown = word(source.language, Word::not_stated);
  if (hash.empty()) return {unknown, unknown};
  const auto kept = source.store.private_bytes(hash);
  if (!kept) return {};
  const json site = json::parse(*kept, nullptr, false);
  const auto member = [&](const char* name) { return site.is_object() ? site.value(name, unknown) : unknown; };
  return {member("customer"), member("address")};
}

Result<JobAndLabel> job_and_label(const Source& source, const std::string& job) {
  auto known = find_job(source.now, job);
  if (!known) return tl::make_unexpected(std::move(known.error()));
  auto label = read_text(source, *known);
  if (!label) return tl::make_unexpected(std::move(label.error()));
  return JobAndLabel{std::move(*known), std::move(*label)};
}

Result<Label> label_of(const Source& source, const std::string& job) {
  auto both = job_and_label(source, job);
  if (!both) return tl::make_unexpected(std::move(both.error()));
  return std::move(both->label);
}

std::vector<paper::Contact> contacts_of(const Firm& firm, Language language) {
  std::vector<paper::Contact> contacts;
  for (const FirmContact& contact : firm.contacts) contacts.push_back({contact.who, contact.number});
  if (!firm.united_states) return contacts;
  contacts.push_back({word(language, Word::poison_help), "1-800-222-1222"});
  contacts.push_back({word(language, Word::emergency), "911"});
  return contacts;
}

paper::LocalTime local(const Source& source, const json& job, std::int64_t ms) {
  return source.clock(job.at("zone").get<std::string>(), ms);
}

std::string time_words(const paper::LocalTime& time, bool with_zone) {
  std::string words =
      fmt::format("{:04}-{:02}-{:02} {:02}:{:02}", time.year, time.month, time.day, time.hour, time.minute);
  if (with_zone && !time.zone.empty()) words += " " + time.zone;
  return words;
}

std::string recorded_volume(std::int64_t ul, UnitSystem units, Rounding rounding) {
  // A recorded volume has lost up to a microlitre of what was typed: a full quart is not to read "31.9 fl oz".
  const std::int64_t typed = rounding == Rounding::down && ul > 0 ? ul + 1 : ul;
  return show(LiquidVolume(static_cast<double>(typed), unit::microlitre), units, rounding);
}

std::string translated(Language language, Word line, std::string_view name) {
  const auto count = static_cast<int>(words_in(word(Language::en, line)));
  for (int n = 0; n < count; ++n)
    if (word_in(Language::en, line, n) == name) return word_in(language, line, n);
  return std::string(name);
}

}  // namespace fogwright::press
