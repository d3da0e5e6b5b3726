// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "desk/checks.hpp"
#include "fogwright/desk/firm.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

constexpr std::size_t most_contacts = 8;  // a paper has to hold them

/// Most likely the two were written the other way round.
Result<void> check_contact(const FirmContact& contact) {
  if (auto ok = first_error({check_words(contact.who, "whom to call", "--contact"),
                             check_words(contact.number, "the number to call", "--contact")});
      !ok)
    return ok;
  if (contact.number.find_first_of("0123456789") != std::string::npos) return {};
  return fail(ErrorCode::not_understood, fmt::format("\"{}\" is no number to call", contact.number),
              "--contact", "write who and the number, e.g. --contact 'Office=555-0100'");
}

Result<void> check_contacts(const std::vector<FirmContact>& contacts) {
  if (contacts.size() > most_contacts)
    return fail(ErrorCode::out_of_range, fmt::format("more than {} contacts", most_contacts), "--contact",
                "leave those who are to be called first");
  for (const FirmContact& contact : contacts)
    if (auto ok = check_contact(contact); !ok) return ok;
  return {};
}

}  // namespace

Result<Drafts> name_firm(const DeskContext& context, const Firm& firm) {
  if (auto ok =
          first_error({may_make(context, "firm-named"), check_words(firm.name, "the name of the firm", {}),
                       check_contacts(firm.contacts)});
      !ok)
    return tl::make_unexpected(ok.error());
  json contacts = json::array();
  for (const FirmContact& contact : firm.contacts)
    contacts.push_back({{"who", contact.who}, {"number", contact.number}});
  return Drafts{
      draft(context, "firm-named",
            {{"name", firm.name}, {"contacts", std::move(contacts)}, {"united_states", firm.united_states}})};
}

std::optional<Firm> firm_of(const Documents& documents) {
  const auto known = documents.get("firm", "firm");
  if (!known) return std::nullopt;
  Firm firm{known->at("name"), {}, known->at("united_states")};
  for (const json& contact : known->at("contacts"))
    firm.contacts.push_back({contact.at("who"), contact.at("number")});
  return firm;
}

}  // namespace fogwright
