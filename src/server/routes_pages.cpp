// SPDX-License-Identifier: Apache-2.0
// The one page of the server itself: where an invitation is redeemed. Its script is a file of its own, since
// the policy allows none within a page.
#include "server/service.hpp"

namespace fogwright::server {
namespace {

constexpr auto page = R"html(<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Fogwright: choose a password</title>
</head>
<body>
<main>
<h1>Choose a password</h1>
<form id="choose">
<p><label>Your handle in the crew<br><input name="handle" autocomplete="username" required></label></p>
<p><label>Password, 12 characters or more<br>
<input name="password" type="password" autocomplete="new-password" minlength="12" maxlength="256" required></label></p>
<p><button>Set the password</button></p>
</form>
<p id="said" role="status"></p>
</main>
<script src="/welcome.js"></script>
</body>
</html>
)html";

constexpr auto script = R"js("use strict";
const form = document.getElementById("choose");
const said = document.getElementById("said");
form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const fields = new FormData(form);
  const body = { token: location.hash.slice(1), handle: fields.get("handle"), password: fields.get("password") };
  try {
    const answer = await fetch("/api/v1/password", {
      method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify(body) });
    const told = await answer.json();
    if (answer.ok) form.hidden = true;
    said.textContent = answer.ok ? "Done, " + told.handle + ". You can sign in now." : told.detail + ". " + (told.hint || "");
  } catch {
    said.textContent = "The server cannot be reached. Try again.";
  }
});
)js";

HttpResponse text_of(const char* text, const char* type) {
  HttpResponse response;
  response.body = text;
  response.content_type = type;
  return response;
}

HttpResponse show_page(Service& service, Visit& visit) {
  (void)service, (void)visit;
  return text_of(page, "text/html; charset=utf-8");
}

HttpResponse show_script(Service& service, Visit& visit) {
  (void)service, (void)visit;
  return text_of(script, "text/javascript; charset=utf-8");
}

}  // namespace

std::vector<Route> page_routes() {
  return {
      {.method = "GET",
       .path = "/welcome",
       .id = "welcomePage",
       .access = Access::open,
       .summary = "A page for choosing a password by an invitation",
       .answer = nullptr,
       .act = show_page},
      {.method = "GET",
       .path = "/welcome.js",
       .id = "welcomeScript",
       .access = Access::open,
       .summary = "Its script",
       .answer = nullptr,
       .act = show_script},
  };
}

}  // namespace fogwright::server
