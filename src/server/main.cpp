// SPDX-License-Identifier: Apache-2.0
#include <sys/random.h>
#include <sys/resource.h>
#include <unistd.h>

#include <cstdlib>
#include <ctime>
#include <fstream>
#include <iostream>
#include <mutex>

#include "office/desk_book.hpp"
#include "office/exit_status.hpp"
#include "server/net/http_server.hpp"
#include "server/service.hpp"
#include "server/settings.hpp"

namespace fogwright::server {
namespace {

using nlohmann::json;

std::int64_t clock_ms(clockid_t clock) {
  timespec time{};
  clock_gettime(clock, &time);
  return static_cast<std::int64_t>(time.tv_sec) * 1000 + time.tv_nsec / 1'000'000;
}

BootClock boot_clock() {
  std::string boot;
  std::ifstream("/proc/sys/kernel/random/boot_id") >> boot;
  return {boot, clock_ms(CLOCK_BOOTTIME)};
}

void random_bytes(std::span<std::uint8_t> bytes) {
  if (getrandom(bytes.data(), bytes.size(), 0) != static_cast<ssize_t>(bytes.size()))
    throw std::runtime_error("the system gives no random bytes");
}

World this_world() {
  return {[] { return clock_ms(CLOCK_REALTIME); }, boot_clock, random_bytes};
}

/// One line of JSON an event: what somebody sent can't make a line of its own.
void write_log(const json& line) {
  static std::mutex one_at_a_time;
  json stamped = line;
  stamped["at_ms"] = clock_ms(CLOCK_REALTIME);
  const std::string text = stamped.dump(-1, ' ', false, json::error_handler_t::replace) + '\n';
  const std::lock_guard lock(one_at_a_time);
  std::cerr << text << std::flush;
}

/// Each connection is a descriptor.
void allow_many_connections() {
  rlimit limit{};
  if (getrlimit(RLIMIT_NOFILE, &limit) != 0) return;
  limit.rlim_cur = limit.rlim_max;
  setrlimit(RLIMIT_NOFILE, &limit);
}

std::string address_of(const ServeSettings& settings, std::uint16_t port) {
  const std::string scheme = settings.certificate.empty() ? "http" : "https";
  const std::string host = settings.hosts.empty() ? settings.address : settings.hosts.front();
  return scheme + "://" + host + ":" + std::to_string(port);
}

/// The token stands behind the #, so that no server and no log sees it.
void print_invitation(const std::string& base, const std::string& handle, Accounts& accounts) {
  std::cout << "Choose " << (handle.empty() ? "the owner's password" : "a password for " + handle)
            << " within a day, at this address, which works once:\n  " << base << "/welcome#"
            << accounts.invite(handle) << "\n"
            << std::flush;
}

std::vector<std::string> known_hosts(const ServeSettings& settings) {
  std::vector<std::string> hosts = settings.hosts;
  if (hosts.empty() && (settings.certificate.empty() && !settings.behind_proxy))
    hosts = {"127.0.0.1", "localhost", "::1", settings.address};
  return hosts;
}

ListenSettings listening(const ServeSettings& settings) {
  ListenSettings listen;
  listen.address = settings.address;
  listen.port = settings.port;
  listen.certificate = settings.certificate;
  listen.certificate_key = settings.certificate_key;
  listen.behind_proxy = settings.behind_proxy;
  listen.threads = settings.threads;
  return listen;
}

Result<void> serve(const ServeSettings& settings) {
  allow_many_connections();
  const World world = this_world();
  const auto told = [] { write_log({{"event", "deriving-documents"}}); };
  auto books =
      Books::open([&] { return open_desk_book(settings.book, world.now_ms, told, {}); }, settings.threads);
  if (!books) return tl::make_unexpected(books.error());
  auto accounts = Accounts::open(settings.accounts, world);
  if (!accounts) return tl::make_unexpected(accounts.error());
  Metrics metrics;
  Service service({settings.key, known_hosts(settings)}, **books, **accounts, metrics, world, write_log);
  HttpServer server(
      listening(settings), [&](const HttpRequest& request) { return service.handle(request); }, metrics,
      write_log);
  if (auto ok = server.start(); !ok) return ok;
  const std::string base = address_of(settings, server.port());
  std::cout << "Fogwright serves " << shown_address(settings.book) << " at " << base << "\n" << std::flush;
  if ((*accounts)->nobody_has_a_password()) print_invitation(base, "", **accounts);
  if (!settings.invite.empty()) print_invitation(base, settings.invite, **accounts);
  server.run(true);
  write_log({{"event", "stopped"}});
  return {};
}

int report(const Error& error, bool as_json) {
  print_faults({error}, as_json, 100, std::cerr);
  return static_cast<int>(exit_status(error.code));
}

}  // namespace
}  // namespace fogwright::server

int main() {
  using namespace fogwright;
  using namespace fogwright::server;
  ServeSettings settings;
  try {
    const char* const words = std::getenv(settings_variable);
    if (words == nullptr)
      return report({ErrorCode::bad_usage,
                     "this program is started by fogwright serve",
                     {},
                     "see fogwright serve --help"},
                    false);
    settings = nlohmann::json::parse(words).get<ServeSettings>();
    ::unsetenv(settings_variable);
    const auto served = serve(settings);
    return served ? 0 : report(served.error(), settings.json);
  } catch (const StorageFault& fault) {
    return report({fault.code(), fault.what(), {}, fault.hint()}, settings.json);
  } catch (const std::exception& fault) {
    return report(
        {ErrorCode::internal_fault, fault.what(), {}, "this is a defect of the program; please report it"},
        settings.json);
  }
}
