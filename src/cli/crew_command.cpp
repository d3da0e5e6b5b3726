// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/desk_call.hpp"
#include "cli/desk_commands.hpp"
#include "cli/import_call.hpp"
#include "cli/printing.hpp"
#include "fogwright/desk/crew.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

std::vector<Role> roles(OptionReader& options) {
  std::vector<Role> all;
  for (const std::string& name : options.all("role")) all.push_back(options.take(read_role(name, "--role")));
  return all;
}

/// Keeps the details before the entry that names their hash, so that no hash is ever left without them; gone
/// again where the entry is refused.
Outcome run_enrol(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the handle");
  Enrolment enrolment{options.operand(), roles(options), {}};
  if (options.fault()) return refuse(*options.fault());
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  enrolment.details =
      keep_beside(call, **store, {{"name", options.text("name")}, {"contact", options.text("contact")}});
  auto outcome = write_to_book(
      call, **store, [&](const DeskContext& context) { return enrol_person(context, enrolment); },
      [&](const Drafts&) { return fmt::format("{} is in the crew", enrolment.handle); });
  if (!outcome && !enrolment.details.empty()) (*store)->erase_private(enrolment.details);
  return outcome;
}

Result<Drafts> make_roles(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the handle");
  const auto all = roles(options);
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return change_roles(context, options.operand(), all, options.text("why"));
}
std::string told_roles(const Drafts& drafts) {
  std::string names;
  for (const json& role : drafts.front().body.at("roles"))
    names += (names.empty() ? "" : ", ") + role.get<std::string>();
  return fmt::format("{} is now {}", drafts.front().body.at("handle").get<std::string>(), names);
}

Result<Drafts> make_retire(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the handle");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return retire_person(context, options.operand(), options.text("why"));
}
std::string told_retire(const Drafts& drafts) {
  return fmt::format("{} has left the crew", drafts.front().body.at("handle").get<std::string>());
}

Result<Drafts> make_credential(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the handle");
  Credential c;
  c.handle = options.operand();
  c.what = options.take(read_credential_kind(options.needed("what", "fit-test"), "--what"));
  c.issued = options.needed("issued", "2026-03-04");
  c.expires = options.text("expires");
  if (options.on("facepiece"))
    c.facepiece = options.take(read_facepiece(options.text("facepiece"), "--facepiece"));
  c.facepiece_model = options.text("model");
  c.facepiece_size = options.text("size");
  c.number = options.text("number");
  c.issuer = options.text("issuer");
  c.result = options.text("result");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return add_credential(context, c);
}
std::string told_credential(const Drafts& drafts) {
  const json& body = drafts.front().body;
  return fmt::format("{} of {}, good through {} (id {})", body.at("what").get<std::string>(),
                     body.at("handle").get<std::string>(), body.at("expires").get<std::string>(),
                     uuid_text(drafts.front().id));
}

Result<Drafts> make_withdraw(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the id of the credential");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return withdraw_credential(context, options.operand(), options.text("why"));
}
std::string told_withdraw(const Drafts&) { return "the credential is withdrawn"; }

std::string role_words(const json& person) {
  std::string words;
  for (const json& role : person.at("roles")) words += (words.empty() ? "" : ", ") + role.get<std::string>();
  return person.at("active").get<bool>() ? words : "left the crew";
}

Outcome run_list(const Call& call) {
  return show_from_book(call, [](const Documents& now, Page& page) -> Result<json> {
    json crew = json::array();
    now.each("person", false, [&](const std::string& handle, const json& person) {
      page.field(handle, role_words(person));
      crew.push_back(person);
    });
    if (crew.empty())
      return fail(ErrorCode::not_found, "nobody is enrolled yet", {},
                  "start with the owner: fogwright crew enrol HANDLE --role owner --by HANDLE");
    return json{{"crew", crew}};
  });
}

/// "good through 2027-01-10", "expired 2025-01-10", "withdrawn: ..."
std::string standing(const json& credential, const std::string& today) {
  if (credential.contains("withdrawn"))
    return fmt::format("withdrawn: {}", credential["withdrawn"].get<std::string>());
  const std::string expires = credential.at("expires");
  return fmt::format("{} {}", expires < today ? "expired" : "good through", expires);
}

void show_credentials(const json& person, const std::string& today, Page& page) {
  for (const json& credential : person.at("credentials")) {
    std::string words = standing(credential, today);
    for (const char* member : {"facepiece", "facepiece_model", "facepiece_size", "number", "issuer", "result"})
      if (credential.contains(member)) words += ", " + credential[member].get<std::string>();
    const bool good = !credential.contains("withdrawn") && credential.at("expires") >= today;
    page.field(credential.at("what").get<std::string>(), words, good ? Emphasis::plain : Emphasis::alarm);
    page.field("", credential.at("entry").get<std::string>(), Emphasis::quiet);
  }
}

Outcome run_show(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the handle");
  if (options.fault()) return refuse(*options.fault());
  const auto store = open_book(call);
  if (!store) return tl::make_unexpected(store.error());
  std::optional<json> person;
  (*store)->read([&](const Documents& now, const Head&) { person = now.get("person", options.operand()); });
  if (!person)
    return refuse({ErrorCode::not_found,
                   fmt::format("nobody is called \"{}\"", options.operand()),
                   {},
                   "fogwright crew list shows who there is"});
  std::optional<std::string> kept;
  if (person->contains("details")) kept = (*store)->private_bytes((*person)["details"].get<std::string>());
  if (kept) (*person)["kept"] = json::parse(*kept);
  Page page(call.style);
  page.heading(options.operand());
  page.field("roles", role_words(*person));
  if (kept)
    for (const auto& [member, text] : (*person)["kept"].items()) page.field(member, text.get<std::string>());
  show_credentials(*person, day_text(call.outside.now_ms()), page);
  print_shown(call, *person, std::move(page));
  return {};
}

}  // namespace

std::vector<Command> crew_commands() {
  const OptionRow role{"role", "ROLE", "technician, owner or safety-officer; several are allowed", true};
  const OptionRow why{"why", "WORDS", "the reason"};
  return {
      {"crew", "enrol", "HANDLE", "take a person into the crew; the first one is an owner",
       with_book_options({role,
                          {"name", "NAME", "kept beside the record, so that it can be erased"},
                          {"contact", "WORDS", "kept beside the record, so that it can be erased"}}),
       run_enrol, "fogwright crew enrol ash --role owner --role safety-officer --by ash"},
      {"crew", "roles", "HANDLE", "change what a person may do", with_book_options({role, why}),
       run_desk<make_roles, told_roles>,
       "fogwright crew roles rowan --role technician --role owner --why 'runs the second van'"},
      {"crew", "retire", "HANDLE", "take a person out of the crew", with_book_options({why}),
       run_desk<make_retire, told_retire>, "fogwright crew retire rowan --why 'moved away'"},
      {"crew", "credential", "HANDLE", "add a fit test, medical clearance, licence or training",
       with_book_options({{"what", "KIND", "fit-test, medical-clearance, licence or training"},
                          {"issued", "DATE", "day of the test or of issue"},
                          {"expires", "DATE", "last day it holds; a fit test holds one year at most"},
                          {"facepiece", "KIND", "half-mask, full-facepiece, powered, ... of a fit test"},
                          {"model", "MODEL", "of the facepiece that was tested"},
                          {"size", "SIZE", "of the facepiece that was tested"},
                          {"number", "TEXT", "of the licence"},
                          {"issuer", "TEXT", "who issued it"},
                          {"result", "TEXT", "e.g. the fit factor"}}),
       run_desk<make_credential, told_credential>,
       "fogwright crew credential rowan --what fit-test --issued 2026-03-04 --facepiece full-facepiece --model "
       "FF-1 --size M"},
      {"crew", "withdraw", "CREDENTIAL", "a credential holds no longer", with_book_options({why}),
       run_desk<make_withdraw, told_withdraw>,
       "fogwright crew withdraw 017f22e2-79b0-7cc3-98c4-dc0c0c07398f --why 'lost weight'"},
      {"crew", "import", "FILE", "people and credentials from a CSV file, all or nothing",
       with_book_options({dry_run_row}), run_crew_import, "fogwright crew import crew.csv --dry-run"},
      {"crew",
       "list",
       "",
       "who is in the crew",
       with_book_options({}),
       run_list,
       "fogwright crew list",
       {"crew", {"handle", "active", "roles", "credentials"}}},
      {"crew",
       "show",
       "HANDLE",
       "a person and the standing of each credential",
       with_book_options({}),
       run_show,
       "fogwright crew show rowan",
       {"credentials", {"what", "issued", "expires", "withdrawn", "entry"}}},
  };
}

}  // namespace fogwright
