// SPDX-License-Identifier: Apache-2.0
#include "server/metrics.hpp"

#include <fmt/format.h>

namespace fogwright::server {
namespace {

void add(std::string& out, std::string_view name, std::string_view type, std::string_view help,
         std::int64_t value) {
  out += fmt::format("# HELP fogwright_{0} {2}\n# TYPE fogwright_{0} {1}\nfogwright_{0} {3}\n", name, type,
                     help, value);
}

}  // namespace

void Metrics::count(const std::string& route, int status, double seconds) {
  const std::lock_guard lock(mutex_);
  Route& row = routes_[{route, status}];
  ++row.count;
  row.seconds += seconds;
}

std::string Metrics::text() const {
  std::string out;
  add(out, "open_connections", "gauge", "Connections that are open.", open_connections);
  add(out, "connections_total", "counter", "Connections accepted.", connections);
  add(out, "connections_refused_total", "counter", "Connections turned away because too many were open.",
      connections_refused);
  add(out, "timeouts_total", "counter", "Connections closed because a client was too slow.", timeouts);
  add(out, "sign_ins_refused_total", "counter", "Attempts to sign in that failed.", sign_ins_refused);
  const std::lock_guard lock(mutex_);
  out +=
      "# HELP fogwright_request_seconds Time to answer, by operation and status.\n"
      "# TYPE fogwright_request_seconds summary\n";
  for (const auto& [key, row] : routes_) {
    const std::string labels = fmt::format("{{operation=\"{}\",status=\"{}\"}}", key.first, key.second);
    out += fmt::format("fogwright_request_seconds_count{} {}\nfogwright_request_seconds_sum{} {:.6f}\n", labels,
                       row.count, labels, row.seconds);
  }
  return out;
}

}  // namespace fogwright::server
