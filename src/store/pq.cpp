// SPDX-License-Identifier: Apache-2.0
#include "store/pq.hpp"

#include <fmt/format.h>

#include <charconv>
#include <thread>
#include <utility>
#include <vector>

#include "fogwright/store.hpp"
#include "store/libpq.hpp"
#include "store/pq_fault.hpp"

namespace fogwright::pq {
namespace {

using std::chrono::steady_clock;
constexpr std::chrono::milliseconds pause{50};
constexpr int binary = 1;

// What the address does not say: a dead network is noticed within a minute.
constexpr std::pair<const char*, const char*> defaults[] = {
    {"client_encoding", "UTF8"},  {"application_name", "fogwright"}, {"connect_timeout", "10"},
    {"keepalives_idle", "20"},    {"keepalives_interval", "5"},      {"keepalives_count", "3"},
    {"tcp_user_timeout", "30000"}};

struct Parameters {
  std::vector<const char*> names, values;
};

// Points into the address.
Parameters parameters_of(const Address& address) {
  Parameters all;
  const auto add = [&](const char* name, const char* value) {
    all.names.push_back(name);
    all.values.push_back(value);
  };
  for (const auto& [name, value] : address.parameters) add(name.c_str(), value.c_str());
  for (const auto& [name, value] : defaults)
    if (address.value(name).empty()) add(name, value);
  all.names.push_back(nullptr);
  all.values.push_back(nullptr);
  return all;
}

// One line without the line feeds of libpq.
std::string line_of(const char* message) {
  std::string line = message != nullptr ? message : "";
  while (!line.empty() && line.back() == '\n') line.pop_back();
  for (char& c : line)
    if (c == '\n' || c == '\t') c = ' ';
  return line.empty() ? "no reason was given" : line;
}

std::string field(const pg_result* result, int code) {
  const char* const text = library().PQresultErrorField(result, code);
  return text != nullptr ? text : "";
}

void say_nothing(void*, const char*) {}

}  // namespace

void Answer::Clear::operator()(pg_result* result) const noexcept { library().PQclear(result); }

int Answer::rows() const { return library().PQntuples(handle()); }

std::string_view Answer::text(int row, int column) const {
  const auto size = static_cast<std::size_t>(library().PQgetlength(handle(), row, column));
  return {library().PQgetvalue(handle(), row, column), size};
}

bool Answer::is_null(int row, int column) const { return library().PQgetisnull(handle(), row, column) != 0; }

std::int64_t Answer::changes() const {
  const std::string_view text = library().PQcmdTuples(handle());
  std::int64_t count = 0;
  std::from_chars(text.data(), text.data() + text.size(), count);
  return count;
}

void Connection::Finish::operator()(pg_conn* connection) const noexcept { library().PQfinish(connection); }

Connection::Connection(const Address& address, std::chrono::milliseconds wait, Prepare prepare)
    : address_(address), wait_(wait), prepare_(std::move(prepare)) {
  reconnect();
}

bool Connection::lost() const noexcept {
  return broken_ || !handle_ || library().PQstatus(handle_.get()) != CONNECTION_OK;
}

bool Connection::try_to_connect() {
  const Parameters parameters = parameters_of(address_);
  handle_.reset(library().PQconnectdbParams(parameters.names.data(), parameters.values.data(), 0));
  if (lost()) return false;
  library().PQsetNoticeProcessor(handle_.get(), say_nothing, nullptr);
  return true;
}

// A server that starts, or one that was there before and is being restarted, is waited for.
void Connection::reconnect() {
  in_transaction_ = false;
  broken_ = false;
  prepared_.clear();
  const auto deadline = steady_clock::now() + wait_;
  bool came_up = false;
  while (!try_to_connect()) {
    const Parameters parameters = parameters_of(address_);
    const PGPing ping = library().PQpingParams(parameters.names.data(), parameters.values.data(), 0);
    // It may have begun to answer just now; only a second refusal is one.
    if (ping == PQPING_OK && !std::exchange(came_up, true)) continue;
    const bool may_come = ping == PQPING_REJECT || (connected_before_ && ping != PQPING_NO_ATTEMPT);
    if (!may_come || steady_clock::now() >= deadline) {
      const std::string why = address_.masked(line_of(library().PQerrorMessage(handle_.get())));
      if (ping == PQPING_OK)
        throw StorageFault(ErrorCode::file_fault, "the server does not let us in: " + why,
                           "check user, password (PGPASSFILE, or ~/.pgpass) and the name of the database");
      throw StorageFault(ErrorCode::storage_fault, "the database server does not answer: " + why,
                         "check that the server runs and that the address is right, then try again");
    }
    std::this_thread::sleep_for(pause);
  }
  prepare();
  connected_before_ = true;
}

// A connection that was refused, or lost, while it was being prepared is none: the next statement makes
// another.
void Connection::prepare() {
  preparing_ = true;
  try {
    prepare_(*this);
  } catch (...) {
    preparing_ = false;
    handle_.reset();
    throw;
  }
  preparing_ = false;
}

Answer Connection::checked(pg_result* result) {
  Answer answer(result);
  const ExecStatusType status = library().PQresultStatus(result);
  if (status == PGRES_COMMAND_OK || status == PGRES_TUPLES_OK || status == PGRES_EMPTY_QUERY) return answer;
  const std::string primary = field(result, PG_DIAG_MESSAGE_PRIMARY);
  const std::string why =
      address_.masked(primary.empty() ? line_of(library().PQerrorMessage(handle_.get())) : primary);
  const std::string state = field(result, PG_DIAG_SQLSTATE);
  // libpq takes a connection for good until it has read its end, and may fail before that.
  broken_ = broken_ || state.empty() || state.starts_with("57P") || state.starts_with("08");
  throw_fault(state, why);
}

Answer Connection::outside_transactions(const std::function<Answer()>& act) {
  const bool part_of_one = in_transaction_ || preparing_;
  if (!part_of_one && lost()) reconnect();
  try {
    return act();
  } catch (const StorageFault&) {
    if (part_of_one || !lost()) throw;
  }
  reconnect();
  return act();
}

Answer Connection::run_with(const std::string& sql, std::span<const Value> values) {
  return outside_transactions([&] { return run_once(sql, values); });
}

const std::string& Connection::prepared(const std::string& sql, std::span<const Value> values) {
  const auto known = prepared_.find(sql);
  if (known != prepared_.end()) return known->second;
  std::vector<Oid> types;
  for (const Value& value : values) types.push_back(value.type);
  const std::string name = fmt::format("s{}", prepared_.size());
  (void)checked(library().PQprepare(handle_.get(), name.c_str(), sql.c_str(), static_cast<int>(types.size()),
                                    types.data()));
  return prepared_.emplace(sql, name).first->second;
}

Answer Connection::run_once(const std::string& sql, std::span<const Value> values) {
  const std::string& name = prepared(sql, values);
  std::vector<const char*> data;
  std::vector<int> sizes, formats;
  for (const Value& value : values) {
    const std::string_view bytes = value.bytes();
    data.push_back(bytes.data() != nullptr ? bytes.data() : "");  // a null pointer would be NULL
    sizes.push_back(static_cast<int>(bytes.size()));
    formats.push_back(binary);
  }
  return checked(library().PQexecPrepared(handle_.get(), name.c_str(), static_cast<int>(data.size()),
                                          data.data(), sizes.data(), formats.data(), binary));
}

Answer Connection::execute(const std::string& sql) {
  return outside_transactions([&] { return checked(library().PQexec(handle_.get(), sql.c_str())); });
}

void Connection::begin(const std::string& sql) {
  try {
    (void)execute(sql);
  } catch (const StorageFault&) {
    in_transaction_ = true;  // BEGIN may have been done
    rollback();
    throw;
  }
  in_transaction_ = true;
}

void Connection::commit() {
  const Answer answer = execute("COMMIT");
  in_transaction_ = false;
  if (std::string_view(library().PQcmdStatus(answer.handle())) == "COMMIT") return;
  throw StorageFault(ErrorCode::storage_fault, "the server rolled the transaction back", "try again");
}

void Connection::rollback() noexcept {
  if (!in_transaction_) return;
  if (!lost()) library().PQclear(library().PQexec(handle_.get(), "ROLLBACK"));
  in_transaction_ = false;
}

}  // namespace fogwright::pq
