// SPDX-License-Identifier: Apache-2.0
#include "office.hpp"

#include <unistd.h>

#include <atomic>
#include <catch2/catch.hpp>
#include <filesystem>
#include <random>

#include "fogwright/desk/crew.hpp"
#include "fogwright/desk/fold.hpp"
#include "golden.hpp"

namespace fogwright::test {

using nlohmann::json;
using server::HttpRequest;
using server::HttpResponse;

std::string header_of(const HttpResponse& response, const std::string& name) {
  for (const auto& [key, value] : response.headers)
    if (key == name) return value;
  return {};
}

std::string new_folder() {
  static std::atomic<int> count{0};
  const std::filesystem::path memory = "/dev/shm";
  const auto parent = access(memory.c_str(), W_OK) == 0 ? memory : std::filesystem::temp_directory_path();
  const auto own = parent / ("fogwright-server-" + std::to_string(getpid()) + "-" + std::to_string(count++));
  std::filesystem::create_directory(own);
  return own.string();
}

namespace {

server::World world_with(std::int64_t& now_ms) {
  return {[&now_ms] { return now_ms; },
          [&now_ms] {
            return BootClock{"boot", now_ms - 1'772'000'000'000};
          },
          [](std::span<std::uint8_t> bytes) {
            static std::random_device device;
            for (auto& byte : bytes) byte = static_cast<std::uint8_t>(device());
          }};
}

void enrol(server::Service& service, const std::string& handle, const std::vector<Role>& roles,
           const Uuid& id) {
  service.books().write([&](Store& store) {
    REQUIRE(store.append([&](const Documents& now, const Head&) {
      return enrol_person(service.context(now, "ash", "office", id), {handle, roles, {}});
    }));
  });
}

}  // namespace

Office::Office() : folder(new_folder()), world(world_with(now_ms)) {
  const std::string path = folder + "/book.db";
  const auto clock = [this] { return now_ms; };
  REQUIRE(create_sqlite_book(path, "books.example/test", fold, clock));
  auto opened = server::Books::open([path, clock] { return open_sqlite_book(path, fold, clock); }, 4);
  REQUIRE(opened);
  books = std::move(*opened);
  auto kept = server::Accounts::open(folder + "/accounts", world);
  REQUIRE(kept);
  accounts = std::move(*kept);
  service = std::make_unique<server::Service>(server::ServiceSettings{}, *books, *accounts, metrics, world,
                                              [this](const json& line) { log.push_back(line); });
  enrol(*service, "ash", {Role::owner, Role::safety_officer}, *read_uuid(new_id()));
  enrol(*service, "rowan", {Role::technician}, *read_uuid(new_id()));
  enrol(*service, "fen", {Role::safety_officer}, *read_uuid(new_id()));
  enrol(*service, "moss", {Role::owner}, *read_uuid(new_id()));
}

Office::~Office() {
  service.reset();
  books.reset();
  std::error_code ignored;
  std::filesystem::remove_all(folder, ignored);
}

std::string Office::new_id() {
  ++ids_;
  return uuid_text(uuid_v7(
      now_ms, {0, 0, 0, 0, 0, 0, static_cast<std::uint8_t>(ids_ >> 24U), static_cast<std::uint8_t>(ids_ >> 16U),
               static_cast<std::uint8_t>(ids_ >> 8U), static_cast<std::uint8_t>(ids_)}));
}

const std::string& Office::token_of(const std::string& who) {
  std::string& token = tokens_[who];
  if (!accounts->signed_in(token)) token = accounts->sign_in(who, "phone");
  return token;
}

HttpResponse Office::ask(const std::string& who, const std::string& method, const std::string& target,
                         const json& body, const Asking& more) {
  HttpRequest request;
  request.method = method;
  request.target = target;
  request.headers = more.headers;
  request.headers.emplace("host", "fog.example");
  request.remote = "192.0.2.7";
  if (!body.is_null()) request.body = body.dump();
  if (!more.raw_body.empty()) request.body = more.raw_body;
  if (!request.body.empty()) request.headers.emplace("content-type", "application/json");
  if (method == "POST" && more.id != "none")
    request.headers.emplace("idempotency-key", '"' + (more.id.empty() ? new_id() : more.id) + '"');
  if (!who.empty()) {
    request.headers.emplace("cookie", std::string(server::session_cookie) + "=" + token_of(who));
    if (more.csrf) request.headers.emplace("x-csrf-token", server::Accounts::csrf_token(token_of(who)));
  }
  return service->handle(request);
}

json Office::json_of(const std::string& who, const std::string& method, const std::string& target,
                     const json& body, const Asking& more) {
  return json::parse(ask(who, method, target, body, more).body);
}

json Office::done(const std::string& who, const std::string& method, const std::string& target,
                  const json& body, const Asking& more) {
  const HttpResponse response = ask(who, method, target, body, more);
  INFO(method << " " << target << ": " << response.body);
  REQUIRE(response.status < 300);
  return json::parse(response.body);
}

std::int64_t Office::entries() { return books->reader()->head().size; }

void Office::adopt(const std::string& product) {
  done("ash", "POST", "/api/v1/products",
       {{"text", read_file(root / "product_profiles_demo" / (product + ".toml"))}});
}

void Office::open_shop() {
  adopt("fenmist-rtu");
  done("ash", "POST", "/api/v1/places", {{"place", "heron"}, {"type", "van"}});
  done("ash", "POST", "/api/v1/foggers", {{"fogger", "gust"}, {"tank", "1 gal"}});
  const json run = {{"caught", "180 mL"}, {"time", "60 s"}};
  done("rowan", "POST", "/api/v1/foggers/gust/tests", {{"runs", {run, run, run}}});
  done("rowan", "POST", "/api/v1/containers",
       {{"product", "fenmist-rtu"},
        {"lot", "A17"},
        {"size", "1 gal"},
        {"expires", "2027-01-31"},
        {"place", "heron"}});
  done("rowan", "POST", "/api/v1/jobs",
       {{"product", "fenmist-rtu"},
        {"technician", "rowan"},
        {"zone", "America/Chicago"},
        {"fogger", "gust"},
        {"customer", "Wren"},
        {"site", {{"system", {{{"area", "2400 sq ft"}, {"returns", 3}}}}}}});
}

}  // namespace fogwright::test
