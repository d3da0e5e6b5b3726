// SPDX-License-Identifier: Apache-2.0
#include "desk/job_items.hpp"

#include <fmt/format.h>

#include "desk/readable.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::string_view fact_items[] = {"seconds-written", "hold-passed", "clear-by-time-or-readings",
                                           "clear-by-readings"};

}  // namespace

const ItemForm* find_form(std::string_view id) noexcept {
  for (const auto forms : {respirator_forms(), product_forms(), site_forms()})
    for (const ItemForm& form : forms)
      if (form.id == id) return &form;
  return nullptr;
}

bool is_yes(std::string_view typed) noexcept {
  const std::string word = plain_words(typed);
  return word == "yes" || word == "y";
}

tl::unexpected<Error> unclear(const Need& need, std::string_view typed, std::string hint) {
  return fail(ErrorCode::not_understood, fmt::format("\"{}\" does not answer {}", typed, need.id), need.id,
              std::move(hint));
}

Result<json> read_yes(const GateView&, const Need& need, const std::string& typed) {
  if (!is_yes(typed)) return unclear(need, typed, "write yes when it is done");
  return json{{"confirmed", true}};
}

Result<json> read_evidence(const GateView& view, const Need& need, const std::string& typed) {
  if (const ItemForm* form = find_form(need.id)) return form->read(view, need, typed);
  return read_yes(view, need, typed);
}

Fault evidence_fault(const GateView& view, const Need& need, const json& evidence) {
  if (const ItemForm* form = find_form(need.id)) {
    // Another program's evidence may lack a member or hold another type.
    Fault fault;
    if (why_unreadable([&] { fault = form->fault(view, need, evidence); }))
      return "its evidence cannot be read";
    return fault;
  }
  if (evidence.contains("confirmed") && evidence["confirmed"] == true) return std::nullopt;
  return "nobody has confirmed it";
}

std::string plain_words(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  std::string words(text.substr(first, text.find_last_not_of(" \t") - first + 1));
  for (char& c : words)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return words;
}

std::vector<std::string> parts_of(std::string_view text, bool blanks) {
  std::vector<std::string> parts;
  const char* const between = blanks ? ",; \t" : ",;";
  while (!text.empty()) {
    const auto end = std::min(text.find_first_of(between), text.size());
    std::string_view part = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    const auto first = part.find_first_not_of(" \t");
    if (first == std::string_view::npos) continue;
    parts.emplace_back(part.substr(first, part.find_last_not_of(" \t") - first + 1));
  }
  return parts;
}

bool is_active(const Documents& documents, const std::string& handle) {
  const auto person = documents.get("person", handle);
  return person && person->value("active", false);
}

std::string_view evidence_question(std::string_view requirement) noexcept {
  const ItemForm* form = find_form(requirement);
  return form ? form->question : std::string_view{};
}

bool decided_by_facts(std::string_view requirement) noexcept {
  return std::find(std::begin(fact_items), std::end(fact_items), requirement) != std::end(fact_items);
}

}  // namespace fogwright
