// SPDX-License-Identifier: Apache-2.0
#include "store/postgres_session.hpp"

#include <fmt/format.h>

#include "fogwright/store.hpp"

namespace fogwright::pq {
namespace {

constexpr int least_server = 130'000;

// Plans are made once and go by the indexes: a table that was small when a statement was planned does not stay
// so. A transaction that stands still for a minute (a machine that went to sleep) gives the head row free.
std::string settings(const Address& address, const Options& options) {
  return fmt::format(
      "SET search_path = {}, pg_temp; SET bytea_output = hex; SET client_min_messages = warning;"
      "SET lock_timeout = {}; SET statement_timeout = 0; SET idle_in_transaction_session_timeout = 60000;"
      "SET default_transaction_isolation = 'read committed';"
      "SET jit = off; SET enable_seqscan = off; SET plan_cache_mode = force_generic_plan;"
      "SELECT set_config('synchronous_commit', CASE current_setting('synchronous_commit') WHEN 'remote_apply' "
      "THEN 'remote_apply' ELSE 'on' END, false)",
      address.schema, options.wait.count());
}

void require_durable(const Answer& answer) {
  for (const auto& [column, name] :
       {std::pair{0, "fsync"}, {1, "full_page_writes"}, {2, "synchronous_commit"}}) {
    const std::string_view now = answer.text(0, column);
    if (now == "on" || now == "remote_apply") continue;
    throw StorageFault(ErrorCode::storage_fault,
                       fmt::format("the server has {} = {}: it may lose what it acknowledged", name, now),
                       fmt::format("set {} = on in the server's configuration", name));
  }
}

void set_up(Connection& connection, const Options& options) {
  (void)connection.execute(settings(connection.address(), options));
  const Answer answer = connection.run(
      "SELECT current_setting('fsync'), current_setting('full_page_writes'), "
      "current_setting('synchronous_commit'), "
      "current_setting('server_version_num')::bigint, current_setting('server_version')");
  if (answer.integer(0, 3) < least_server) {
    throw StorageFault(ErrorCode::storage_fault, fmt::format("the server is PostgreSQL {}", answer.text(0, 4)),
                       "use PostgreSQL 13 or newer");
  }
  if (options.demand_durable) require_durable(answer);
}

}  // namespace

Connection open_connection(const Address& address, const Options& options) {
  return {address, options.wait, [options](Connection& connection) { set_up(connection, options); }};
}

}  // namespace fogwright::pq
