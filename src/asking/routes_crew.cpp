// SPDX-License-Identifier: Apache-2.0
#include "asking/ids.hpp"
#include "asking/route.hpp"
#include "fogwright/desk/correction.hpp"
#include "fogwright/desk/crew.hpp"
#include "fogwright/desk/equipment.hpp"

namespace fogwright {
namespace {

using enum MemberType;

std::vector<Role> roles(Asked& asked) {
  std::vector<Role> all;
  for (const std::string& name : asked.texts("roles")) all.push_back(asked.take(read_role(name, "roles")));
  return all;
}

Answer enrol(const DeskContext& context, Asked& asked) {
  const Enrolment enrolment{asked.text("handle"), roles(asked), asked.beside()};
  return after(asked, [&] { return enrol_person(context, enrolment); });
}
Answer new_roles(const DeskContext& context, Asked& asked) {
  const auto all = roles(asked);
  return after(asked, [&] { return change_roles(context, asked.name(), all, asked.text("why")); });
}
Answer leave(const DeskContext& context, Asked& asked) {
  return decided(retire_person(context, asked.name(), asked.text("why")));
}

Answer note(const DeskContext& context, Asked& asked) {
  return decided(write_note(context, asked.text("about"), asked.text("text")));
}

Answer credential(const DeskContext& context, Asked& asked) {
  Credential c;
  c.handle = asked.name();
  c.what = asked.take(read_credential_kind(asked.text("what"), "what"));
  c.issued = asked.text("issued");
  c.expires = asked.text("expires");
  if (asked.has("facepiece")) c.facepiece = asked.take(read_facepiece(asked.text("facepiece"), "facepiece"));
  c.facepiece_model = asked.text("model");
  c.facepiece_size = asked.text("size");
  c.number = asked.text("number");
  c.issuer = asked.text("issuer");
  c.result = asked.text("result");
  return after(asked, [&] { return add_credential(context, c); });
}
Answer withdraw(const DeskContext& context, Asked& asked) {
  return decided(withdraw_credential(context, asked.name(), asked.text("why")));
}

Answer new_fogger(const DeskContext& context, Asked& asked) {
  NewFogger fogger{asked.text("fogger"), {}, {}, asked.text("note")};
  if (asked.has("tank")) fogger.tank = asked.take(read_liquid_volume(asked.text("tank"), "tank"));
  if (asked.has("empty_weight"))
    fogger.empty_mass = asked.take(read_mass(asked.text("empty_weight"), "empty_weight"));
  return after(asked, [&] { return add_fogger(context, fogger); });
}
Answer no_more_fogger(const DeskContext& context, Asked& asked) {
  return decided(retire_fogger(context, asked.name(), asked.text("why")));
}

Answer new_cartridge(const DeskContext& context, Asked& asked) {
  const NewCartridge cartridge{asked.text("cartridge"), asked.text("model"), asked.texts("words"),
                               asked.minutes("schedule"), asked.text("basis")};
  return after(asked, [&] { return register_cartridge(context, cartridge); });
}
Faults check_profile(const Asked& asked) {
  const auto label = read_label(asked.text("text"), "text");
  return label ? Faults{} : label.error();
}
Answer adopt(const DeskContext& context, Asked& asked) {
  const std::string profile = asked.text("text");
  std::string product = asked.text("product");
  if (product.empty()) {
    const auto label = read_label(profile, "text");
    if (!label) return tl::make_unexpected(label.error().front());
    product = product_key(label->name);
  }
  return decided(adopt_label(context, {product, profile, "text", digest_hex(profile)}));
}
Answer no_more_label(const DeskContext& context, Asked& asked) {
  return decided(retire_label(context, asked.name(), asked.text("digest"), asked.text("why")));
}

const Member why{"why", text, true, "the reason"};

std::vector<Route> person_routes() {
  Route joining = writing("/api/v1/crew", "enrol", "person-enrolled", "Somebody joins the crew",
                          {{"handle", text, true, "a short name"},
                           {"roles", texts, true, "technician, owner, safety-officer"},
                           {"name", text, false, "kept beside the record, so that it can be erased"},
                           {"contact", text, false, "likewise"}},
                          enrol);
  joining.beside = {"name", "contact"};
  return {
      joining,
      writing("/api/v1/crew/{handle}/roles", "changeRoles", "person-roles-changed", "Other roles",
              {{"roles", texts, true, "technician, owner, safety-officer"}, why}, new_roles),
      writing("/api/v1/crew/{handle}/retirement", "retirePerson", "person-retired", "Somebody leaves", {why},
              leave),
      writing("/api/v1/crew/{handle}/credentials", "addCredential", "credential-added",
              "A credential of somebody",
              {{"what", text, true, "fit-test, medical-clearance, licence or training"},
               {"issued", text, true, "a date"},
               {"expires", text, false, "its last day"},
               {"facepiece", text, false, "half-mask, full-facepiece, ..."},
               {"model", text, false, "of the facepiece"},
               {"size", text, false, "of the facepiece"},
               {"number", text, false, "of a licence"},
               {"issuer", text, false, "who gave it"},
               {"result", text, false, "e.g. a fit factor"}},
              credential),
      writing("/api/v1/notes", "writeNote", "note", "A note about something that the book knows",
              {{"about", text, true,
                "name of a job, container, batch, person, fogger, cartridge, place or product"},
               {"text", text, true, "the note"}},
              note),
      writing("/api/v1/credentials/{credential}/withdrawal", "withdrawCredential", "credential-withdrawn",
              "A credential that no longer holds", {why}, withdraw),
  };
}

Route adopting() {
  Route route = writing("/api/v1/products", "adoptLabel", "label-adopted", "A product's label, as a profile",
                        {{"text", text, true, "the profile (docs/labels.md)"},
                         {"product", text, false, "key (else by its name)"}},
                        adopt);
  route.check = check_profile;
  return route;
}

std::vector<Route> register_routes() {
  return {
      writing("/api/v1/foggers", "addFogger", "fogger-added", "A fogger of the firm",
              {{"fogger", text, true, "its name"},
               {"tank", text, false, "what its tank holds"},
               {"empty_weight", text, false, "its weight when empty"},
               {"note", text, false, "e.g. its serial number"}},
              new_fogger),
      writing("/api/v1/foggers/{fogger}/retirement", "retireFogger", "fogger-retired", "Out of use", {why},
              no_more_fogger),
      writing("/api/v1/cartridges", "registerCartridge", "cartridge-registered",
              "A respirator cartridge with its maker's change schedule",
              {{"cartridge", text, true, "its name"},
               {"model", text, true, "maker's model"},
               {"words", texts, true, "as printed on it"},
               {"schedule", text, true, "the maker's, e.g. 8 h; never estimated"},
               {"basis", text, true, "where the schedule comes from"}},
              new_cartridge),
      adopting(),
      writing("/api/v1/products/{product}/retirement", "retireLabel", "label-retired",
              "A label that no longer holds", {why, {"digest", text, false, "else the current one"}},
              no_more_label),
  };
}

}  // namespace

std::vector<Route> crew_routes() {
  std::vector<Route> all = person_routes();
  for (Route& route : register_routes()) all.push_back(std::move(route));
  return all;
}

}  // namespace fogwright
