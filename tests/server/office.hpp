// SPDX-License-Identifier: Apache-2.0
#pragma once

/// A server without a network: a book, a crew, a clock that the test sets, and requests as clients make them.

#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "server/service.hpp"

namespace fogwright::test {

struct Asking {
  std::map<std::string, std::string> headers = {};
  std::string id = {};        ///< entry id; "": a new one; "none": none is sent
  std::string raw_body = {};  ///< instead of JSON
  bool csrf = true;
};

class Office {
 public:
  Office();
  ~Office();
  Office(const Office&) = delete;
  Office& operator=(const Office&) = delete;

  /// As somebody who is signed in; "" is nobody.
  server::HttpResponse ask(const std::string& who, const std::string& method, const std::string& target,
                           const nlohmann::json& body = nullptr, const Asking& more = {});
  /// The same, and the answer read as JSON.
  nlohmann::json json_of(const std::string& who, const std::string& method, const std::string& target,
                         const nlohmann::json& body = nullptr, const Asking& more = {});
  /// The same, for what must succeed.
  nlohmann::json done(const std::string& who, const std::string& method, const std::string& target,
                      const nlohmann::json& body = nullptr, const Asking& more = {});

  [[nodiscard]] std::string new_id();
  [[nodiscard]] std::int64_t entries();
  void adopt(const std::string& product);
  /// Product, place, fogger, a container and a planned job of rowan's: J1.
  void open_shop();

  std::int64_t now_ms = 1'772'460'000'000;  ///< 2 March 2026, 08:00 in Chicago
  std::string folder;
  server::World world;
  std::vector<nlohmann::json> log;
  server::Metrics metrics;
  std::unique_ptr<server::Books> books;
  std::unique_ptr<server::Accounts> accounts;
  std::unique_ptr<server::Service> service;

 private:
  const std::string& token_of(const std::string& who);
  std::map<std::string, std::string> tokens_;
  std::uint32_t ids_ = 0;
};

/// A header of an answer; empty where it is not there.
[[nodiscard]] std::string header_of(const server::HttpResponse& response, const std::string& name);

/// A new folder of its own, in memory where there is a place for it.
[[nodiscard]] std::string new_folder();

}  // namespace fogwright::test
