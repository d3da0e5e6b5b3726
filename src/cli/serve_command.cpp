// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <ostream>

#include "cli/book_keys.hpp"
#include "cli/desk_commands.hpp"
#include "server/settings.hpp"

namespace fogwright {
namespace {

namespace fs = std::filesystem;

/// Beside this program, as a build leaves it, or where an install puts it.
fs::path server_program() {
  std::error_code missing;
  const fs::path folder = fs::read_symlink("/proc/self/exe", missing).parent_path();
  const fs::path beside = folder / server::program_name;
  return fs::exists(beside, missing) ? beside : folder / "../lib/fogwright" / server::program_name;
}

Result<std::int64_t> whole_number(const Call& call, const char* name, std::int64_t fallback,
                                  std::int64_t most) {
  const auto typed = call.options.text(name);
  if (!typed) return fallback;
  const std::string where = fmt::format("--{}", name);
  const auto number = read_number(*typed, where);
  if (number && *number >= 0 && *number <= static_cast<double>(most)) return static_cast<std::int64_t>(*number);
  return fail(ErrorCode::out_of_range, fmt::format("\"{}\" is no whole number up to {}", *typed, most), where,
              fmt::format("write e.g. {} {}", where, fallback));
}

Result<server::ServeSettings> read_settings(const Call& call) {
  server::ServeSettings settings;
  const auto book = book_path(call);
  const auto key = key_path(call);
  const auto beside = book.and_then([&](const std::string& path) { return keys_of(call, path); });
  const auto port = whole_number(call, "port", settings.port, 65'535);
  const auto threads = whole_number(call, "threads", settings.threads, 256);
  for (const auto* fault : {!beside ? &beside.error() : nullptr, !key ? &key.error() : nullptr,
                            !port ? &port.error() : nullptr, !threads ? &threads.error() : nullptr})
    if (fault != nullptr) return tl::make_unexpected(*fault);
  settings.book = *book;
  settings.key = *key;
  settings.accounts = call.options.text("accounts").value_or(*beside + ".accounts");
  settings.address = call.options.text("address").value_or(settings.address);
  settings.port = static_cast<std::uint16_t>(*port);
  settings.threads = std::max(1, static_cast<int>(*threads));
  settings.certificate = call.options.text("certificate").value_or("");
  settings.certificate_key = call.options.text("certificate-key").value_or("");
  settings.behind_proxy = call.options.has("behind-proxy");
  settings.hosts = call.options.all("host");
  settings.invite = call.options.text("invite").value_or("");
  settings.json = call.json;
  return settings;
}

Outcome run_serve(const Call& call) {
  const auto settings = read_settings(call);
  if (!settings) return refuse(settings.error());
  if (settings->certificate.empty() != settings->certificate_key.empty())
    return refuse({ErrorCode::bad_usage, "a certificate and its key go together", "--certificate",
                   "give --certificate FILE --certificate-key FILE"});
  const fs::path program = server_program();
  const std::string words =
      nlohmann::json(*settings).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  call.outside.out.flush();
  ::setenv(server::settings_variable, words.c_str(), 1);
  // The server takes the place of this process, so that whoever started it can stop it.
  ::execl(program.c_str(), server::program_name, static_cast<char*>(nullptr));
  return refuse({ErrorCode::file_fault, fmt::format("the server cannot be started: {}", std::strerror(errno)),
                 program.string(), "install Fogwright whole, or build it again"});
}

}  // namespace

std::vector<Command> serve_commands() {
  return {
      {"serve",
       "",
       "",
       "let phones and the office work on one book, over HTTP",
       {{"book", "BOOK",
         "the book: a file, or postgresql://USER@HOST/DATABASE (default: FOGWRIGHT_BOOK, else the user's data "
         "folder)"},
        {"address", "ADDRESS", "where to listen (default 127.0.0.1: this machine alone)"},
        {"port", "PORT", "default 8443; 0 is any that is free"},
        {"certificate", "FILE", "PEM: certificate and chain; read again when it changes"},
        {"certificate-key", "FILE", "PEM: its key"},
        {"behind-proxy", nullptr, "a proxy in front encrypts and says who the client is"},
        {"host", "NAME", "a name by which the server is reached; others are refused", true},
        {"invite", "HANDLE", "print a link by which this person chooses a new password"},
        {"accounts", "FILE", "passwords and sessions (default: beside the book, or its key)"},
        {"key", "FILE", "the book's secret signing key (default: FOGWRIGHT_KEY, else beside the book)"},
        {"threads", "N", "default 8"}},
       run_serve,
       "fogwright serve --book shop.db --address 0.0.0.0 --certificate shop.pem --certificate-key shop.key"}};
}

}  // namespace fogwright
