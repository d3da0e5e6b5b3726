// SPDX-License-Identifier: Apache-2.0
// Bytes as a request: method, target, headers and body, a line each; the answer is never a fault of the server.

#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <string>
#include <string_view>

#include "fogwright/desk/crew.hpp"
#include "fogwright/desk/fold.hpp"
#include "server/service.hpp"

namespace {

using namespace fogwright;
using namespace fogwright::server;

/// A book with an owner who is signed in.
struct Fixture {
  std::string folder = [] {
    const auto path =
        std::filesystem::temp_directory_path() / ("fogwright-fuzz-" + std::to_string(std::random_device{}()));
    std::filesystem::create_directories(path);
    return path.string();
  }();
  World world{[] { return std::int64_t{1'772'460'000'000}; },
              [] {
                return BootClock{"boot", 1};
              },
              [](std::span<std::uint8_t> bytes) { std::fill(bytes.begin(), bytes.end(), std::uint8_t{7}); }};
  std::unique_ptr<Books> books;
  std::unique_ptr<Accounts> accounts;
  Metrics metrics;
  std::unique_ptr<Service> service;
  std::string token;

  Fixture() {
    const std::string book = folder + "/book.db";
    if (!create_sqlite_book(book, "books.example/fuzz", fold, world.now_ms)) std::abort();
    books = std::move(*Books::open([this, book] { return open_sqlite_book(book, fold, world.now_ms); }, 1));
    accounts = std::move(*Accounts::open(folder + "/accounts", world));
    service = std::make_unique<Service>(ServiceSettings{}, *books, *accounts, metrics, world,
                                        [](const nlohmann::json&) {});
    books->write([&](Store& store) {
      const auto enrolled = store.append([&](const Documents& now, const Head&) {
        return enrol_person(service->context(now, "ash", "fuzz", uuid_v7(1, {})),
                            {"ash", {Role::owner, Role::technician}, {}});
      });
      if (!enrolled) std::abort();
    });
    token = accounts->sign_in("ash", "fuzz");
  }
  ~Fixture() {
    service.reset();
    books.reset();
    std::filesystem::remove_all(folder);
  }
};

std::string line_of(std::string_view& rest) {
  const auto end = std::min(rest.find('\n'), rest.size());
  std::string line(rest.substr(0, end));
  rest.remove_prefix(std::min(end + 1, rest.size()));
  return line;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static Fixture fixture;
  std::string_view rest(reinterpret_cast<const char*>(data), size);
  HttpRequest request;
  request.method = line_of(rest);
  request.target = line_of(rest);
  request.headers = {{"host", "fog.example"},
                     {"content-type", "application/json"},
                     {"cookie", std::string(session_cookie) + "=" + fixture.token},
                     {"x-csrf-token", Accounts::csrf_token(fixture.token)}};
  request.headers["idempotency-key"] = line_of(rest);
  request.body = std::string(rest);
  request.remote = "192.0.2.7";
  if (fixture.service->handle(request).status == 500) std::abort();
  return 0;
}
