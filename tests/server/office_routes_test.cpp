// SPDX-License-Identifier: Apache-2.0
// What the office asks for: audits, retention, papers, pages of lists, links for devices.
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "fogwright/book/document_range.hpp"
#include "office.hpp"

using fogwright::test::header_of;
using fogwright::test::Office;
using nlohmann::json;

namespace {

constexpr auto passphrase = "heron marsh lantern quill";

void draw_too_much(Office& office) {
  office.done("rowan", "POST", "/api/v1/vessels/C1/draws", {{"volume", "100 fl oz"}, {"job", "J1"}});
  office.done("rowan", "POST", "/api/v1/vessels/C1/draws", {{"volume", "100 fl oz"}, {"job", "J1"}});
}

std::set<std::string> rules_in(const json& audit) {
  std::set<std::string> rules;
  for (const json& departure : audit["departures"]) rules.insert(departure["rule"]);
  return rules;
}

}  // namespace

TEST_CASE("an audit is asked for with the filters of the command, and a wrong one is told with its name") {
  Office office;
  office.open_shop();
  draw_too_much(office);
  CHECK(rules_in(office.done("fen", "GET", "/api/v1/audit")).count("over-draw") == 1);
  CHECK(rules_in(office.done("fen", "GET", "/api/v1/audit?rule=over-draw")) ==
        std::set<std::string>{"over-draw"});
  CHECK(office.done("fen", "GET", "/api/v1/audit?rule=over-draw&to=2026-03-01")["departures"].empty());
  CHECK(office.done("fen", "GET", "/api/v1/audit?rule=over-draw&from=2026-03-02&job=J1")["departures"].size() ==
        1);
  for (const auto& [query, where] : {std::pair{"severity=loud", "severity"},
                                     {"from=yesterday", "from"},
                                     {"rule=no-such", "rule"},
                                     {"job=J99", "job"},
                                     {"van=hron", "van"},
                                     {"from=2026-03-02&to=2026-03-01", "to"}}) {
    const json told = office.json_of("fen", "GET", std::string("/api/v1/audit?") + query);
    CHECK(told["where"] == where);
  }
}

TEST_CASE("an audit says whether the record was read again, and reads it again when asked to") {
  Office office;
  office.open_shop();
  CHECK(office.done("fen", "GET", "/api/v1/audit")["record"]["verified"] == false);
  const json record = office.done("fen", "GET", "/api/v1/audit?verify=true")["record"];
  CHECK(record["verified"] == true);
  CHECK(record["findings"].empty());
}

TEST_CASE("what must be kept is told, and of a job why it may not go yet") {
  Office office;
  office.open_shop();
  CHECK_FALSE(office.done("fen", "GET", "/api/v1/retention")["records"].empty());
  CHECK(office.done("fen", "GET", "/api/v1/retention?job=J1").contains("records"));
  CHECK(office.ask("fen", "GET", "/api/v1/retention?job=J9").status == 404);
  CHECK(office.ask("fen", "GET", "/api/v1/retention?job=J1&person=rowan").status == 400);
}

TEST_CASE("papers come as pages of HTML that run no script and load nothing") {
  Office office;
  office.open_shop();
  for (const char* path :
       {"/api/v1/jobs/J1/papers/record", "/api/v1/papers/inventory", "/api/v1/papers/inventory?place=heron",
        "/api/v1/papers/labels?vessel=C1", "/api/v1/papers/labels?place=heron", "/api/v1/papers/audit"}) {
    const std::string target = std::string(path) +
                               (std::string(path).find('?') == std::string::npos ? "?" : "&") +
                               "as=html&zone=America/Chicago";
    auto paper = office.ask("fen", "GET", target);
    INFO(target << paper.body.substr(0, 300));
    CHECK(paper.status == 200);
    CHECK(paper.content_type == "text/html; charset=utf-8");
    CHECK(paper.body.find("<html") != std::string::npos);
    CHECK(paper.body.find("<script") == std::string::npos);
    fogwright::server::add_security_headers(paper, true);
    const std::string policy = header_of(paper, "Content-Security-Policy");
    CHECK(policy.find("default-src 'none'; style-src 'unsafe-inline'") == 0);
    CHECK(policy.find("sandbox") != std::string::npos);
    CHECK(policy.find("script-src") == std::string::npos);
  }
}

TEST_CASE("a paper is in the language, the units and the firm's name that were asked for") {
  Office office;
  office.open_shop();
  const std::string english = office.ask("fen", "GET", "/api/v1/papers/inventory?as=html").body;
  const std::string spanish = office.ask("fen", "GET", "/api/v1/papers/inventory?as=html&language=es").body;
  CHECK(english.find("books.example/test") != std::string::npos);  // nobody has named the firm
  CHECK(english.find("lang=\"en\"") != std::string::npos);
  CHECK(spanish.find("lang=\"es\"") != std::string::npos);
  CHECK(office.ask("fen", "GET", "/api/v1/papers/inventory?as=html&units=metric").body != english);
}

TEST_CASE("a paper that there is not, or not yet, is refused with the reason") {
  Office office;
  office.open_shop();
  const auto code = [&](const std::string& path) { return office.json_of("fen", "GET", path)["code"]; };
  CHECK(code("/api/v1/jobs/J1/papers/door?as=html") == "wrong-state");
  CHECK(code("/api/v1/jobs/J1/papers/poster?as=html") == "not-found");
  CHECK(code("/api/v1/jobs/J9/papers/record?as=html") == "not-found");
  CHECK(code("/api/v1/papers/inventory?place=nowhere&as=html") == "not-found");
  CHECK(code("/api/v1/papers/labels?as=html") == "missing-value");
  CHECK(code("/api/v1/papers/inventory?as=docx") == "not-understood");
  CHECK(code("/api/v1/papers/inventory?zone=Nowhere/Town") == "not-understood");
  CHECK(code("/api/v1/products/fenmist-rtu/mixing-sheet?as=html") != "");  // ready to use: nothing to mix
}

TEST_CASE("a list is read from its cursor on, and not from its beginning") {
  Office office;
  for (int i = 0; i < 25; ++i)
    office.done("ash", "POST", "/api/v1/places", {{"place", "van" + std::to_string(100 + i)}, {"type", "van"}});
  std::vector<std::string> seen;
  std::string after;
  do {
    const json page =
        office.done("fen", "GET", "/api/v1/places?limit=7" + (after.empty() ? "" : "&after=" + after));
    CHECK(page["items"].size() <= 7);
    for (const json& row : page["items"]) seen.push_back(row["place"]);
    after = page.value("next", "");
  } while (!after.empty());
  CHECK(seen.size() == 25);
  CHECK(std::is_sorted(seen.begin(), seen.end()));
  int visited = 0;
  office.books->reader()->read([&](const fogwright::Documents& now, const fogwright::Head&) {
    const auto* range = dynamic_cast<const fogwright::DocumentRange*>(&now);
    REQUIRE(range != nullptr);
    range->each_after("place", false, "van122", [&](const std::string& key, const json&) {
      CHECK(key == "van123");
      ++visited;
      return false;
    });
  });
  CHECK(visited == 1);
}

TEST_CASE("an owner's invitation is a link and a QR code, and a phone that chooses a password is signed in") {
  Office office;
  CHECK(office.ask("ash", "POST", "/api/v1/crew/rowan/invitation").status ==
        400);  // one's own password is asked for
  REQUIRE(office.accounts->redeem(office.accounts->invite("ash"), "ash", passphrase));
  const json told = office.done("ash", "POST", "/api/v1/crew/rowan/invitation", {{"password", passphrase}});
  CHECK(told["link"] == "http://fog.example/welcome#" + told["token"].get<std::string>());
  REQUIRE(told["qr"].size() >= 21);
  CHECK(told["qr"][0].get<std::string>().size() == told["qr"].size());
  const auto answer = office.ask(
      "", "POST", "/api/v1/password",
      {{"token", told["token"]}, {"password", "reeds under a slate sky"}, {"device", "heron phone"}});
  CHECK(json::parse(answer.body)["device"] == "heron phone");
  CHECK(header_of(answer, "Set-Cookie").starts_with("__Host-fogwright="));
}

TEST_CASE("another device of one's own is signed in by a link that works once and for ten minutes") {
  Office office;
  REQUIRE(office.accounts->redeem(office.accounts->invite("rowan"), "rowan", passphrase));
  const auto link = [&] {
    const json told = office.done("rowan", "POST", "/api/v1/devices/link", {{"password", passphrase}});
    CHECK(told["link"].get<std::string>().find("/welcome#device-") != std::string::npos);
    return told["token"].get<std::string>();
  };
  const auto enrol = [&](const std::string& token) {
    return office.ask("", "POST", "/api/v1/devices", {{"token", token}, {"device", "tablet"}});
  };
  const std::string token = link();
  // It chooses no password.
  CHECK(office.ask("", "POST", "/api/v1/password", {{"token", token}, {"password", passphrase}}).status == 403);
  const auto first = enrol(token);
  CHECK(first.status == 200);
  CHECK(json::parse(first.body)["handle"] == "rowan");
  CHECK(json::parse(first.body)["device"] == "tablet");
  CHECK(enrol(token).status == 403);
  const std::string late = link();
  office.now_ms += fogwright::server::device_link_ms;
  CHECK(enrol(late).status == 403);
  const std::string stale = link();
  REQUIRE(office.accounts->change_password("rowan", "reeds under a slate sky", ""));
  CHECK(enrol(stale).status == 403);
  CHECK(office.ask("rowan", "POST", "/api/v1/devices/link", {{"password", "not this one"}}).status == 403);
}
