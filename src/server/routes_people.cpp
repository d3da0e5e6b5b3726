// SPDX-License-Identifier: Apache-2.0
#include <algorithm>

#include "fogwright/desk/crew.hpp"
#include "fogwright/paper/document.hpp"
#include "server/problem.hpp"
#include "server/service.hpp"

namespace fogwright::server {
namespace {

using nlohmann::json;
using enum MemberType;

std::string cookie_text(const std::string& token, const char* more) {
  return std::string(session_cookie) + "=" + token + "; Path=/; Secure; HttpOnly; SameSite=Strict" + more;
}

json who(const SignedIn& person, const std::vector<std::string>& roles, const std::string& token) {
  return {{"handle", person.handle},
          {"roles", roles},
          {"device", person.device},
          {"session", person.session},
          {"csrf_token", Accounts::csrf_token(token)}};
}

std::string device_name(const Asked& asked) {
  const std::string given = asked.text("device");
  return given.empty() ? "browser" : given.substr(0, 64);
}

/// A session for somebody who has shown who they are.
HttpResponse signed_in(Service& service, Visit& visit, const std::string& handle,
                       const std::vector<std::string>& roles) {
  const std::string token = service.accounts().sign_in(handle, device_name(visit.asked));
  const auto person = service.accounts().signed_in(token);
  service.log({{"event", "signed-in"},
               {"handle", handle},
               {"session", person->session},
               {"remote", visit.request.remote}});
  HttpResponse response = json_response(200, who(*person, roles, token));
  response.headers.emplace_back("Set-Cookie", cookie_text(token, ""));
  return response;
}

HttpResponse sign_in(Service& service, Visit& visit) {
  const std::string handle = visit.asked.text("handle");
  if (auto refused = service.refuse_password(handle, visit.asked.text("password"), visit.request.remote))
    return std::move(*refused);
  const auto roles = service.roles_of(handle);
  if (roles.empty())
    return problem(403, "not-permitted", "the name or the password is wrong",
                   "an owner can send a new invitation");
  return signed_in(service, visit, handle, roles);
}

HttpResponse show_session(Service& service, Visit& visit) {
  (void)service;
  return json_response(200, who(*visit.person, visit.roles, visit.session_token));
}

HttpResponse sign_out(Service& service, Visit& visit) {
  service.accounts().end(visit.person->session, visit.person->handle);
  service.log({{"event", "signed-out"}, {"handle", visit.person->handle}, {"session", visit.person->session}});
  HttpResponse response = json_response(200, {{"ended", visit.person->session}});
  response.headers.emplace_back("Set-Cookie", cookie_text("", "; Max-Age=0"));
  // Not "storage": entries that the office does not have yet, and photos, live there.
  response.headers.emplace_back("Clear-Site-Data", "\"cache\", \"cookies\"");
  return response;
}

bool is_owner(const std::vector<std::string>& roles) {
  return std::find(roles.begin(), roles.end(), role_name(Role::owner)) != roles.end();
}

HttpResponse list_sessions(Service& service, Visit& visit) {
  const std::string whose = is_owner(visit.roles) ? "" : visit.person->handle;
  return json_response(200, {{"items", service.accounts().sessions(whose)}});
}

HttpResponse end_session(Service& service, Visit& visit) {
  const std::string whose = is_owner(visit.roles) ? "" : visit.person->handle;
  if (!service.accounts().end(visit.asked.name(), whose))
    return problem(404, "not-found", "there is no such session", "GET /api/v1/sessions lists them");
  service.log({{"event", "session-ended"}, {"by", visit.person->handle}, {"session", visit.asked.name()}});
  return json_response(200, {{"ended", visit.asked.name()}});
}

/// A one-time token as a link and as the modules of its QR code, for a phone to look at. The token stands
/// behind the #, so that no server and no log sees it.
HttpResponse one_time_link(const Visit& visit, const std::string& handle, const std::string& token,
                           const std::string& fragment, std::int64_t until_ms) {
  const std::string link = std::string(visit.request.secure ? "https" : "http") + "://" +
                           visit.request.header("host") + "/welcome#" + fragment + token;
  const auto code = paper::make_qr(link);
  if (!code) return problem(code.error());
  return json_response(
      200,
      {{"handle", handle}, {"token", token}, {"until_ms", until_ms}, {"link", link}, {"qr", code->modules}});
}

HttpResponse invite(Service& service, Visit& visit) {
  const std::string& handle = visit.asked.name();
  if (service.roles_of(handle).empty())
    return problem(404, "not-found", "nobody in the active crew goes by that name", "enrol them first");
  const std::string token = service.accounts().invite(handle);
  service.log({{"event", "invited"}, {"by", visit.person->handle}, {"handle", handle}});
  return one_time_link(visit, handle, token, "", service.world().now_ms() + invitation_ms);
}

HttpResponse link_device(Service& service, Visit& visit) {
  const std::string& handle = visit.person->handle;
  const std::string token = service.accounts().link_device(handle);
  service.log({{"event", "device-link-made"}, {"handle", handle}});
  return one_time_link(visit, handle, token, "device-", service.world().now_ms() + device_link_ms);
}

HttpResponse enrol_device(Service& service, Visit& visit) {
  const auto handle = service.accounts().use_device_link(visit.asked.text("token"));
  const auto roles = handle ? service.roles_of(*handle) : std::vector<std::string>();
  if (roles.empty())
    return problem(403, "not-permitted", "this link was used or has run out",
                   "make a new one on the device that is signed in");
  return signed_in(service, visit, *handle, roles);
}

/// The first of a book's crew enrols as its owner; where there is a crew already, an owner of it comes first.
Result<void> become_owner(Service& service, const std::string& handle) {
  UuidRandom random{};
  service.world().random(random);
  const Uuid id = uuid_v7(service.world().now_ms(), random);
  Result<void> done;
  service.books().write([&](Store& store) {
    const auto receipts = store.append([&](const Documents& now, const Head&) -> Result<std::vector<NewEntry>> {
      bool anybody = false;
      now.each("person", false, [&](const std::string&, const json&) { anybody = true; });
      if (!anybody)
        return enrol_person(service.context(now, handle, "server", id), {handle, {Role::owner}, {}});
      const auto person = now.get("person", handle);
      if (person && person->value("active", false) &&
          is_owner(person->at("roles").get<std::vector<std::string>>()))
        return std::vector<NewEntry>();
      return fail(ErrorCode::not_permitted, "the first to choose a password is an owner of the crew", "handle",
                  "give the handle of an owner");
    });
    if (!receipts) done = tl::make_unexpected(receipts.error());
  });
  return done;
}

HttpResponse choose_password(Service& service, Visit& visit) {
  const std::string token = visit.asked.text("token");
  const auto invited = service.accounts().invited(token);
  if (!invited)
    return problem(403, "not-permitted", "this invitation was used or has run out",
                   "ask an owner for a new one");
  const std::string handle = invited->empty() ? visit.asked.text("handle") : *invited;
  const std::string password = visit.asked.text("password");
  // Before anything is written: an invitation is not used up by a password that will not do.
  if (auto ok = check_password_choice(password, handle); !ok) return problem(ok.error());
  if (invited->empty())
    if (auto ok = become_owner(service, handle); !ok) return problem(ok.error());
  if (auto ok = service.accounts().redeem(token, handle, password); !ok) return problem(ok.error());
  service.log({{"event", "password-chosen"}, {"handle", handle}, {"remote", visit.request.remote}});
  if (visit.asked.has("device")) return signed_in(service, visit, handle, service.roles_of(handle));
  return json_response(200, {{"handle", handle}});
}

HttpResponse change_password(Service& service, Visit& visit) {
  const SignedIn& person = *visit.person;
  if (auto ok =
          service.accounts().change_password(person.handle, visit.asked.text("new_password"), person.session);
      !ok)
    return problem(ok.error());
  service.log({{"event", "password-changed"}, {"handle", person.handle}});
  return json_response(200, {{"handle", person.handle}});
}

}  // namespace

std::vector<Route> people_routes() {
  const Member password{"password", text, true, "12 to 256 characters"};
  return {
      {.method = "POST",
       .path = "/api/v1/password",
       .id = "choosePassword",
       .access = Access::open,
       .summary = "Choose a password by an invitation",
       .answer = "Handle",
       .members = {{"token", text, true, "of the invitation"},
                   password,
                   {"handle", text, false, "whoever becomes the first owner"},
                   {"device", text, false, "what this device is called: signs it in at once"}},
       .act = choose_password},
      {.method = "PUT",
       .path = "/api/v1/password",
       .id = "changePassword",
       .access = Access::crew,
       .summary = "Another password for oneself; ends one's other sessions",
       .answer = "Handle",
       .members = {{"new_password", text, true, "12 to 256 characters"}},
       .password = true,
       .act = change_password},
      {.method = "POST",
       .path = "/api/v1/session",
       .id = "signIn",
       .access = Access::open,
       .summary = "Sign in",
       .answer = "SignedIn",
       .members = {{"handle", text, true, "who"},
                   password,
                   {"device", text, false, "what this device is called"}},
       .act = sign_in},
      {.method = "GET",
       .path = "/api/v1/session",
       .id = "showSession",
       .access = Access::crew,
       .summary = "Who is signed in, and the token that changes must carry",
       .answer = "SignedIn",
       .act = show_session},
      {.method = "DELETE",
       .path = "/api/v1/session",
       .id = "signOut",
       .access = Access::crew,
       .summary = "Sign out",
       .answer = "Ended",
       .act = sign_out},
      {.method = "POST",
       .path = "/api/v1/devices/link",
       .id = "linkDevice",
       .access = Access::crew,
       .summary =
           "A link, and its QR code, by which another device of one's own is signed in; once, for 10 min",
       .answer = "Invitation",
       .password = true,
       .act = link_device},
      {.method = "POST",
       .path = "/api/v1/devices",
       .id = "enrolDevice",
       .access = Access::open,
       .summary = "Sign this device in by such a link",
       .answer = "SignedIn",
       .members = {{"token", text, true, "of the link"}, {"device", text, true, "what this device is called"}},
       .act = enrol_device},
      {.method = "GET",
       .path = "/api/v1/sessions",
       .id = "listSessions",
       .access = Access::crew,
       .summary = "One's own sessions; an owner sees everybody's",
       .answer = "Sessions",
       .act = list_sessions},
      {.method = "DELETE",
       .path = "/api/v1/sessions/{session}",
       .id = "endSession",
       .access = Access::crew,
       .summary = "End one of one's own sessions; an owner ends anybody's",
       .answer = "Ended",
       .act = end_session},
      {.method = "POST",
       .path = "/api/v1/crew/{handle}/invitation",
       .id = "invite",
       .access = Access::owner,
       .summary = "A one-time token by which somebody chooses a password; asks for one's own again",
       .answer = "Invitation",
       .password = true,
       .act = invite},
  };
}

}  // namespace fogwright::server
