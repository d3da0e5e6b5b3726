// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What `fogwright serve` hands to the server's own program: a JSON object in a variable of its environment,
/// which other users of the machine cannot see as they see arguments: the address of a book may hold a
/// password. A program of its own, so that no other command pays for the libraries of the server at its start.

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace fogwright::server {

inline constexpr auto program_name = "fogwright-server";
inline constexpr auto settings_variable = "FOGWRIGHT_SERVE";

struct ServeSettings {
  std::string book;      ///< a file, or the address of a book on a server
  std::string accounts;  ///< file of passwords and sessions
  std::string key;       ///< file of the book's signing key; empty: checkpoints are not signed here
  std::string address = "127.0.0.1";
  std::uint16_t port = 8443;
  std::string certificate, certificate_key;  ///< PEM files; empty: no TLS
  bool behind_proxy = false;
  std::vector<std::string> hosts;  ///< names by which the server is reached
  int threads = 8;
  std::string invite;  ///< a handle: print an invitation for this person
  bool json = false;   ///< errors as JSON

  friend bool operator==(const ServeSettings&, const ServeSettings&) = default;
};

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(ServeSettings, book, accounts, key, address, port, certificate,
                                   certificate_key, behind_proxy, hosts, threads, invite, json)

}  // namespace fogwright::server
