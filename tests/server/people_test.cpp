// SPDX-License-Identifier: Apache-2.0
#include <sys/stat.h>

#include <catch2/catch.hpp>

#include "golden.hpp"
#include "office.hpp"
#include "server/throttle.hpp"

using fogwright::server::Accounts;
using fogwright::server::Throttle;
using fogwright::test::Office;
using nlohmann::json;

namespace {

constexpr auto good = "heron quill marsh lantern";

json signing_in(const std::string& password) {
  return {{"handle", "rowan"}, {"password", password}, {"device", "van phone"}};
}

void give_password(Office& office, const std::string& handle) {
  REQUIRE(office.accounts->redeem(office.accounts->invite(handle), handle, good));
}

}  // namespace

TEST_CASE("an invitation lets its person choose a password, once") {
  Office office;
  const std::string token = office.accounts->invite("rowan");
  const json choosing = {{"token", token}, {"password", good}};
  CHECK(office.json_of("", "POST", "/api/v1/password", {{"token", token}, {"password", "short"}})["code"] ==
        "out-of-range");
  CHECK(office.done("", "POST", "/api/v1/password", choosing)["handle"] == "rowan");
  CHECK(office.ask("", "POST", "/api/v1/password", choosing).status == 403);
}

TEST_CASE("an invitation runs out") {
  Office office;
  const std::string token = office.accounts->invite("rowan");
  office.now_ms += fogwright::server::invitation_ms;
  CHECK(office.ask("", "POST", "/api/v1/password", {{"token", token}, {"password", good}}).status == 403);
}

TEST_CASE("the first invitation is for an owner of the crew, and for nobody else") {
  Office office;
  const std::string token = office.accounts->invite("");
  const auto choose = [&](const char* handle) {
    return office
        .ask("", "POST", "/api/v1/password", {{"token", token}, {"handle", handle}, {"password", good}})
        .status;
  };
  CHECK(choose("rowan") == 403);
  CHECK(choose("ash") == 200);
  CHECK(choose("moss") == 403);
}

// ASVS 3.3.1 to 3.3.4, 7.2.3, 7.2.4.
TEST_CASE("signing in gives a cookie that scripts and other sites do not get, new each time") {
  Office office;
  give_password(office, "rowan");
  std::string cookies[2];
  for (std::string& cookie : cookies) {
    const auto response = office.ask("", "POST", "/api/v1/session", signing_in(good));
    REQUIRE(response.status == 200);
    for (const auto& [name, value] : response.headers)
      if (name == "Set-Cookie") cookie = value;
    CHECK(json::parse(response.body)["device"] == "van phone");
  }
  CHECK(cookies[0].starts_with("__Host-fogwright="));
  CHECK(cookies[0].ends_with("; Path=/; Secure; HttpOnly; SameSite=Strict"));
  CHECK(cookies[0] != cookies[1]);
}

// ASVS 6.3.1, and that the defence cannot be turned against the person.
TEST_CASE("who guesses waits longer each time, and the person elsewhere does not") {
  Throttle throttle;
  std::int64_t last = 0;
  for (int i = 0; i < 12; ++i) {
    throttle.failed("rowan", "203.0.113.9", 1'000'000);
    const std::int64_t wait = throttle.wait_ms("rowan", "203.0.113.9", 1'000'000);
    CHECK(wait >= last);
    last = wait;
  }
  CHECK(last == 128'000);
  CHECK(throttle.wait_ms("rowan", "192.0.2.7", 1'000'000) == 0);
  CHECK(throttle.wait_ms("fen", "203.0.113.9", 1'000'000) == 0);
}

TEST_CASE("an address that fails at many accounts is slowed down, and the rows stay few") {
  Throttle throttle;
  for (int i = 0; i < 40; ++i) throttle.failed("account" + std::to_string(i), "203.0.113.9", 1'000'000);
  const std::int64_t wait = throttle.wait_ms("rowan", "203.0.113.9", 1'000'000);
  CHECK(wait > 0);
  CHECK(wait <= Throttle::longest_address_ms);
}

TEST_CASE("a wrong password is refused and logged without the password") {
  Office office;
  give_password(office, "rowan");
  CHECK(office.ask("", "POST", "/api/v1/session", signing_in("marsh heron lantern quill")).status == 403);
  CHECK(office.metrics.sign_ins_refused == 1);
  REQUIRE_FALSE(office.log.empty());
  for (const json& line : office.log) CHECK(line.dump().find("lantern") == std::string::npos);
}

TEST_CASE("passwords are long, and not the first that anybody tries") {
  for (const char* bad : {"elevenchars", "password1234", "aaaaaaaaaaaaaaa", "rowan2026!!!", "Administrator"})
    CHECK_FALSE(fogwright::server::check_password_choice(bad, "rowan"));
  for (const char* chosen : {good, "zwölf Zeichen hier", "            twelve spaces before"})
    CHECK(fogwright::server::check_password_choice(chosen, "rowan"));
}

// ASVS 7.3.1, 7.3.2.
TEST_CASE("a session ends when it is not used, and at the latest after a week") {
  Office office;
  const std::string token = office.accounts->sign_in("rowan", "phone");
  for (int hours = 0; hours < 7 * 24; hours += 7) {
    CHECK(office.accounts->signed_in(token));
    office.now_ms += 7 * 60 * 60'000;
  }
  office.now_ms += 1;
  CHECK_FALSE(office.accounts->signed_in(token));
  const std::string idle = office.accounts->sign_in("rowan", "phone");
  office.now_ms += fogwright::server::session_idle_ms + 1;
  CHECK_FALSE(office.accounts->signed_in(idle));
}

// ASVS 7.4.5, 8.2.2.
TEST_CASE("people see and end their own sessions, an owner everybody's") {
  Office office;
  const json own = office.done("rowan", "GET", "/api/v1/sessions");
  CHECK(own["items"].size() == 1);
  const std::string of_fen = office.done("fen", "GET", "/api/v1/session")["session"];
  CHECK(office.ask("rowan", "DELETE", "/api/v1/sessions/" + of_fen).status == 404);
  CHECK(office.done("ash", "GET", "/api/v1/sessions")["items"].size() == 3);
  office.done("ash", "DELETE", "/api/v1/sessions/" + of_fen);
  CHECK(office.done("ash", "GET", "/api/v1/sessions")["items"].size() == 2);
}

TEST_CASE("a release asks for the password again") {
  Office office;
  office.open_shop();
  give_password(office, "rowan");
  CHECK(office.json_of("rowan", "POST", "/api/v1/jobs/J1/release")["where"] == "password");
  CHECK(office.ask("rowan", "POST", "/api/v1/jobs/J1/release", {{"password", "not this one at all"}}).status ==
        403);
  // The right one gets as far as the state of the job.
  CHECK(office.json_of("rowan", "POST", "/api/v1/jobs/J1/release", {{"password", good}})["code"] ==
        "wrong-state");
}

// ASVS 11.4.2, 14.2.
TEST_CASE("the file of accounts is the owner's alone and holds no secret as it is") {
  Office office;
  give_password(office, "rowan");
  const std::string token = office.accounts->sign_in("rowan", "phone");
  const std::string file = office.folder + "/accounts";
  struct stat facts {};
  REQUIRE(stat(file.c_str(), &facts) == 0);
  CHECK((facts.st_mode & 0777U) == 0600U);
  const std::string text = fogwright::test::read_file(file);
  CHECK(text.find("lantern") == std::string::npos);
  CHECK(text.find(token) == std::string::npos);
  CHECK(text.find("$argon2id$") != std::string::npos);
  auto again = Accounts::open(file, office.world);
  REQUIRE(again);
  CHECK((*again)->signed_in(token)->handle == "rowan");
  chmod(file.c_str(), 0644);
  CHECK_FALSE(Accounts::open(file, office.world));
}
