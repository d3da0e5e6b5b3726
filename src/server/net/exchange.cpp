// SPDX-License-Identifier: Apache-2.0
#include "server/net/exchange.hpp"

#include <chrono>

namespace fogwright::server {

HttpResponse Exchange::answer(const HttpRequest& request) {
  const auto begin = std::chrono::steady_clock::now();
  HttpResponse response = handler_(request);
  tell(request, response, std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
  add_security_headers(response, request.secure);
  return response;
}

// The path alone: a query may hold what somebody searched for, a header or body secrets.
void Exchange::tell(const HttpRequest& request, const HttpResponse& response, double seconds) {
  metrics_.count(response.operation, response.status, seconds);
  nlohmann::json line = {{"event", "request"},
                         {"method", request.method},
                         {"path", request.target.substr(0, request.target.find('?')).substr(0, 300)},
                         {"operation", response.operation},
                         {"status", response.status},
                         {"ms", static_cast<std::int64_t>(seconds * 1'000)},
                         {"remote", request.remote}};
  if (!response.actor.empty()) line["actor"] = response.actor;
  log_(line);
}

bool Exchange::rest(Resting& resting) {
  const std::lock_guard lock(mutex_);
  if (stopping_) return false;
  resting.place = resting_.insert(resting_.end(), &resting);
  return true;
}

void Exchange::wake(Resting& resting) {
  const std::lock_guard lock(mutex_);
  resting_.erase(resting.place);
}

void Exchange::stop() {
  const std::lock_guard lock(mutex_);
  stopping_ = true;
  for (Resting* one : resting_) one->wake();
}

}  // namespace fogwright::server
