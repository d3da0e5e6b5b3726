// SPDX-License-Identifier: Apache-2.0
#include "cli/firm_command.hpp"

#include <fmt/format.h>

#include "cli/desk_commands.hpp"

namespace fogwright {

Result<FirmContact> read_contact(const std::string& typed) {
  const auto equals = typed.rfind('=');
  if (equals == std::string::npos)
    return fail(ErrorCode::not_understood,
                fmt::format("\"{}\" does not say whom to call at which number", typed), "--contact",
                "write e.g. --contact 'Office=555-0100'");
  return FirmContact{typed.substr(0, equals), typed.substr(equals + 1)};
}

namespace {

using nlohmann::json;

Result<Drafts> make_firm(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the name of the firm");
  Firm firm{options.operand(), {}, !options.on("no-us-numbers")};
  for (const std::string& typed : options.all("contact"))
    firm.contacts.push_back(options.take(read_contact(typed)));
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return name_firm(context, firm);
}
std::string told_firm(const Drafts& drafts) {
  const json& body = drafts.front().body;
  return fmt::format(
      "Papers are printed in the name of {}; it gives {} to call.", body.at("name").get<std::string>(),
      body.at("contacts").size() == 1 ? "1 number" : fmt::format("{} numbers", body.at("contacts").size()));
}

Outcome run_show(const Call& call) {
  return show_from_book(call, [](const Documents& now, Page& page) -> Result<json> {
    const auto known = now.get("firm", "firm");
    if (!known)
      return fail(ErrorCode::not_found, "the book does not say who the firm is", {},
                  "say so: fogwright firm set NAME --contact 'Office=NUMBER'");
    page.line(known->at("name").get<std::string>(), Emphasis::strong);
    for (const json& contact : known->at("contacts"))
      page.field(contact.at("number").get<std::string>(), contact.at("who").get<std::string>());
    if (known->at("united_states").get<bool>())
      page.paragraph("Papers add the national numbers of the United States: Poison Help 1-800-222-1222, 911.");
    return *known;
  });
}

}  // namespace

std::vector<Command> firm_commands() {
  return {
      {"firm", "set", "NAME", "who the firm is and whom to call, for its papers; replaces what was said before",
       with_book_options(
           {{"contact", "WHO=NUMBER", "whom to call, in the order to call: the office, then others", true},
            {"no-us-numbers", nullptr, "add no Poison Help 1-800-222-1222 and 911: not in the United States"}}),
       run_desk<make_firm, told_firm>,
       "fogwright firm set 'Quillfen Duct Care' --contact 'Office, day and night=555-0100'"},
      {"firm", "show", "", "what papers say of the firm", with_book_options({}), run_show,
       "fogwright firm show"},
  };
}

}  // namespace fogwright
