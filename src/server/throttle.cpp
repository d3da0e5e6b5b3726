// SPDX-License-Identifier: Apache-2.0
#include "server/throttle.hpp"

#include <algorithm>

namespace fogwright::server {
namespace {

// A newline stands in neither.
std::string both(const std::string& account, const std::string& remote) { return account + "\n" + remote; }
std::string address(const std::string& remote) { return "\n" + remote; }

}  // namespace

std::int64_t Throttle::wait_ms(const std::string& account, const std::string& remote, std::int64_t now_ms) {
  const std::lock_guard lock(mutex_);
  std::int64_t wait = 0;
  for (const std::string& key : {both(account, remote), address(remote)})
    if (const auto row = rows_.find(key); row != rows_.end())
      wait = std::max(wait, row->second.until_ms - now_ms);
  return wait;
}

void Throttle::failed(const std::string& account, const std::string& remote, std::int64_t now_ms) {
  const std::lock_guard lock(mutex_);
  add(both(account, remote), free_failures, longest_ms, now_ms);
  add(address(remote), free_address_failures, longest_address_ms, now_ms);
  if (rows_.size() > most_rows) make_room(now_ms);
}

void Throttle::succeeded(const std::string& account, const std::string& remote) {
  const std::lock_guard lock(mutex_);
  rows_.erase(both(account, remote));
}

/// A second after the free ones, then twice as long each time.
void Throttle::add(const std::string& key, int free, std::int64_t longest, std::int64_t now_ms) {
  Row& row = rows_[key];
  if (now_ms - row.last_ms > forget_ms) row.failures = 0;
  row.last_ms = now_ms;
  const int beyond = ++row.failures - free;
  if (beyond > 0) row.until_ms = now_ms + std::min(longest, std::int64_t{1'000} << std::min(beyond - 1, 20));
}

/// What no longer delays anybody goes first, then the oldest.
void Throttle::make_room(std::int64_t now_ms) {
  std::erase_if(rows_, [now_ms](const auto& row) { return now_ms - row.second.last_ms > forget_ms; });
  while (rows_.size() > most_rows)
    rows_.erase(std::min_element(rows_.begin(), rows_.end(), [](const auto& a, const auto& b) {
      return a.second.last_ms < b.second.last_ms;
    }));
}

}  // namespace fogwright::server
