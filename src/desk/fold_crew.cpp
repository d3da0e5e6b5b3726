// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "desk/fold_parts.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// The person that an entry is about; a departure and nothing where nobody is called that.
std::optional<json> person_of(const Entry& entry, MutableDocuments& documents, const std::string& handle) {
  auto person = documents.get("person", handle);
  if (!person)
    raise(entry, documents, "unknown-name", fmt::format("nobody in the crew is called \"{}\"", handle));
  return person;
}

void enrolled(const Entry& entry, MutableDocuments& documents) {
  const std::string handle = entry.body.at("handle");
  json person = {
      {"handle", handle}, {"active", true}, {"roles", entry.body.at("roles")}, {"credentials", json::array()}};
  // Somebody who comes back keeps the credentials of before.
  if (const auto before = documents.get("person", handle)) person["credentials"] = before->at("credentials");
  if (entry.body.contains("details")) person["details"] = entry.body["details"];
  documents.put("person", handle, person, true);
}

void roles_changed(const Entry& entry, MutableDocuments& documents) {
  const std::string handle = entry.body.at("handle");
  auto person = person_of(entry, documents, handle);
  if (!person) return;
  (*person)["roles"] = entry.body.at("roles");
  documents.put("person", handle, *person, person->at("active"));
}

void retired(const Entry& entry, MutableDocuments& documents) {
  const std::string handle = entry.body.at("handle");
  auto person = person_of(entry, documents, handle);
  if (!person) return;
  (*person)["active"] = false;
  (*person)["retired_ms"] = entry.happened_ms;
  documents.put("person", handle, *person, false);
}

void credential_added(const Entry& entry, MutableDocuments& documents) {
  const std::string handle = entry.body.at("handle");
  auto person = person_of(entry, documents, handle);
  if (!person) return;
  json credential = entry.body;
  credential.erase("handle");
  credential["entry"] = uuid_text(entry.id);
  (*person)["credentials"].push_back(credential);
  documents.put("person", handle, *person, person->at("active"));
  documents.put("credential", uuid_text(entry.id), {{"handle", handle}}, true);
}

void credential_withdrawn(const Entry& entry, MutableDocuments& documents) {
  const std::string id = entry.body.at("credential");
  const auto whose = documents.get("credential", id);
  if (!whose) return raise(entry, documents, "unknown-name", fmt::format("no credential has the entry {}", id));
  const std::string handle = whose->at("handle");
  auto person = person_of(entry, documents, handle);
  if (!person) return;
  for (json& credential : (*person)["credentials"])
    if (credential["entry"] == id) credential["withdrawn"] = entry.body.at("why");
  documents.put("person", handle, *person, person->at("active"));
}

void firm_named(const Entry& entry, MutableDocuments& documents) {
  json firm = json::object();
  for (const char* member : {"name", "contacts", "united_states"}) firm[member] = entry.body.at(member);
  documents.put("firm", "firm", firm, true);
}

constexpr FoldRow crew_rows[] = {
    {"person-enrolled", enrolled},
    {"person-roles-changed", roles_changed},
    {"person-retired", retired},
    {"credential-added", credential_added},
    {"credential-withdrawn", credential_withdrawn},
    {"firm-named", firm_named},
};

}  // namespace

std::span<const FoldRow> crew_fold() { return crew_rows; }

}  // namespace fogwright
