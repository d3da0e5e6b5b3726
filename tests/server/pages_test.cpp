// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "office.hpp"

using fogwright::server::HttpResponse;
using fogwright::test::Asking;
using fogwright::test::Office;

namespace {

std::string header(const HttpResponse& response, const std::string& name) {
  for (const auto& [one, value] : response.headers)
    if (one == name) return value;
  return {};
}

HttpResponse get(Office& office, const std::string& target, std::map<std::string, std::string> headers = {}) {
  Asking more;
  more.headers = std::move(headers);
  return office.ask("", "GET", target, nullptr, more);
}

}  // namespace

TEST_CASE("an address of the app is answered with its document, whoever asks") {
  Office office;
  for (const char* target : {"/", "/index.html", "/jobs/J1/gate", "/welcome", "/more?from=menu"}) {
    INFO(target);
    const HttpResponse response = get(office, target);
    CHECK(response.status == 200);
    CHECK(response.body == "the document");
    CHECK(header(response, "Cache-Control") == "no-cache");
  }
}

TEST_CASE("nothing is made up under /api and /assets, nor for a file that is not there") {
  Office office;
  for (const char* target :
       {"/api/v1/nothing", "/api", "/assets/app-2.js", "/service_worker.js", "/jobs/J1.json"}) {
    INFO(target);
    CHECK(get(office, target).status == 404);
  }
  CHECK(office.ask("", "POST", "/jobs").status == 404);
}

TEST_CASE("what a name stands for for ever is kept for ever") {
  Office office;
  const HttpResponse response = get(office, "/assets/app-1.js");
  CHECK(response.content_type == "text/javascript; charset=utf-8");
  CHECK(header(response, "Cache-Control") == "public, max-age=31536000, immutable");
}

// RFC 9110, section 12.5.3: Accept-Encoding; a weight of 0 means not acceptable.
TEST_CASE("a page comes in the smallest coding that the client takes") {
  Office office;
  const std::pair<const char*, const char*> cases[] = {{"gzip, deflate, br", "br"},
                                                       {"gzip", "gzip"},
                                                       {"br;q=0, gzip;q=0.5", "gzip"},
                                                       {"br;q=0.000", ""},
                                                       {"gzip;q=1.0,br;q=0.1", "br"},
                                                       {"brotli", ""},
                                                       {"", ""}};
  for (const auto& [accepted, coding] : cases) {
    INFO(accepted);
    const HttpResponse response = get(office, "/", {{"accept-encoding", accepted}});
    CHECK(header(response, "Content-Encoding") == coding);
    CHECK(header(response, "Vary") == "Accept-Encoding");
    CHECK(response.body == (std::string(coding) == "br"     ? "brotli of it"
                            : std::string(coding) == "gzip" ? "gzip of it"
                                                            : "the document"));
  }
}

TEST_CASE("a page that the client has is not sent again") {
  Office office;
  const std::string etag = header(get(office, "/", {{"accept-encoding", "br"}}), "ETag");
  CHECK(etag == "\"d0c-br\"");
  const HttpResponse same = get(office, "/", {{"accept-encoding", "br"}, {"if-none-match", etag}});
  CHECK(same.status == 304);
  CHECK(same.body.empty());
  CHECK(get(office, "/", {{"accept-encoding", "gzip"}, {"if-none-match", etag}}).status == 200);
}
