// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What the server answers. Knows no socket: a request goes in, an answer comes out.

#include <functional>
#include <list>
#include <map>
#include <mutex>

#include "fogwright/store.hpp"
#include "server/accounts.hpp"
#include "server/books.hpp"
#include "server/metrics.hpp"
#include "server/route.hpp"

namespace fogwright::server {

struct ServiceSettings {
  std::string book_key;            ///< file of the book's signing key; empty: no checkpoints are signed here
  std::vector<std::string> hosts;  ///< names by which the server is reached; empty: any
};

/// One request on its way through the server.
struct Visit {
  const HttpRequest& request;
  const Target& target;
  const Route& route;
  Asked asked;
  std::optional<SignedIn> person;
  std::vector<std::string> roles = {};
  std::string session_token = {};
};

class Service {
 public:
  Service(ServiceSettings settings, Books& books, Accounts& accounts, Metrics& metrics, World world,
          std::function<void(const nlohmann::json&)> log)
      : settings_(std::move(settings)),
        books_(books),
        accounts_(accounts),
        metrics_(metrics),
        world_(std::move(world)),
        log_(std::move(log)) {}

  /// Never throws: what goes wrong is a 5xx, and a line in the log.
  [[nodiscard]] HttpResponse handle(const HttpRequest& request) noexcept;

  [[nodiscard]] Books& books() { return books_; }
  [[nodiscard]] Accounts& accounts() { return accounts_; }
  [[nodiscard]] Metrics& metrics() { return metrics_; }
  [[nodiscard]] const World& world() const { return world_; }
  [[nodiscard]] const ServiceSettings& settings() const { return settings_; }
  void log(const nlohmann::json& line) { log_(line); }

  /// The person's document, where they are active in the crew; empty else.
  [[nodiscard]] std::vector<std::string> roles_of(const std::string& handle);
  [[nodiscard]] DeskContext context(const Documents& now, const std::string& actor, const std::string& device,
                                    const Uuid& first_id);
  /// The password of who is signed in, once more; an answer where it is not right.
  [[nodiscard]] std::optional<HttpResponse> refuse_password(const std::string& handle,
                                                            const std::string& password,
                                                            const std::string& remote);

 private:
  [[nodiscard]] HttpResponse dispatch(const HttpRequest& request);
  [[nodiscard]] HttpResponse enter(Visit& visit);
  [[nodiscard]] HttpResponse read(Visit& visit);
  [[nodiscard]] HttpResponse work(Visit& visit);
  [[nodiscard]] HttpResponse fault(const std::exception& what, ErrorCode code);

  ServiceSettings settings_;
  Books& books_;
  Accounts& accounts_;
  Metrics& metrics_;
  World world_;
  std::function<void(const nlohmann::json&)> log_;
};

inline constexpr const char* session_cookie = "__Host-fogwright";

/// A change that another site's page made the browser ask for. Errors: not_permitted.
[[nodiscard]] Result<void> check_same_site(const HttpRequest& request);
/// The change of somebody who is signed in carries the token of the session. Errors: not_permitted.
[[nodiscard]] Result<void> check_csrf(const HttpRequest& request, const std::string& session_token);

}  // namespace fogwright::server
