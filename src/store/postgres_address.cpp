// SPDX-License-Identifier: Apache-2.0
#include "store/postgres_address.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>

#include "fogwright/store.hpp"
#include "store/libpq.hpp"

namespace fogwright::pq {
namespace {

constexpr std::string_view default_schema = "fogwright";
constexpr std::string_view hint =
    "write postgresql://USER@HOST/DATABASE, with ?schema=NAME if a database holds several books; in user and "
    "password write @ as %40, : as %3A, / as %2F";

tl::unexpected<Error> not_an_address(std::string message) {
  return fail(ErrorCode::not_understood, std::move(message), "--book", std::string(hint));
}

// A password with an @ in it would make its end the name of a host, which errors may tell.
bool has_one_host(std::string_view text) {
  const auto begin = text.find("://") + 3;
  const auto authority = text.substr(begin, text.find_first_of("?#", begin) - begin);
  return std::count(authority.begin(), authority.end(), '@') <= 1;
}

bool is_schema_name(std::string_view name) {
  return !name.empty() && name.size() <= 63 && !name.starts_with("pg_") &&
         name.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") == std::string_view::npos;
}

// Takes our own parameter out of the query of a URI.
std::optional<std::string> take_schema(std::string& text) {
  constexpr std::string_view key = "schema=";
  const auto query = text.find('?');
  if (query == std::string::npos) return std::nullopt;
  for (auto at = query + 1; at < text.size(); at = std::min(text.find('&', at), text.size()) + 1) {
    if (text.compare(at, key.size(), key) != 0) continue;
    const auto end = std::min(text.find('&', at), text.size());
    std::string name = text.substr(at + key.size(), end - at - key.size());
    text.erase(at, end == text.size() ? std::string::npos : end + 1 - at);
    if (text.back() == '?' || text.back() == '&') text.pop_back();
    return name;
  }
  return std::nullopt;
}

// What libpq says of an unknown parameter names the parameter; what it says of other faults may tell more.
std::string told(const char* message) {
  const std::string_view text = message != nullptr ? message : "";
  if (text.starts_with("invalid URI query parameter"))
    return std::string(text.substr(0, text.find_last_not_of('\n') + 1));
  return "this is no address of a PostgreSQL database";
}

std::string shown(const Address& address) {
  const auto part = [&](std::string_view before, std::string_view keyword) {
    const std::string value = address.value(keyword);
    return value.empty() ? std::string() : fmt::format("{}{}", before, value);
  };
  std::string user = part("", "user");
  if (!user.empty()) user += '@';
  std::string text = fmt::format("postgresql://{}{}{}/{}{}", user, part("", "host"), part(":", "port"),
                                 part("", "dbname"), part("?service=", "service"));
  if (address.schema != default_schema)
    text += fmt::format("{}schema={}", text.find('?') == std::string::npos ? '?' : '&', address.schema);
  return text;
}

}  // namespace

std::string Address::value(std::string_view keyword) const {
  for (const auto& [name, value] : parameters)
    if (name == keyword) return value;
  return {};
}

std::string Address::masked(std::string text) const {
  for (const char* keyword : {"password", "sslpassword"}) {
    const std::string secret = value(keyword);
    if (secret.empty()) continue;
    for (auto at = text.find(secret); at != std::string::npos; at = text.find(secret, at + 3))
      text.replace(at, secret.size(), "***");
  }
  return text;
}

Result<Address> read_address(const std::string& given) {
  if (!has_one_host(given)) return not_an_address("the address has an @ in its user or password");
  std::string text = given;
  Address address;
  address.schema = take_schema(text).value_or(std::string(default_schema));
  if (!is_schema_name(address.schema))
    return not_an_address("a schema has a name of a-z, 0-9 and _, at most 63 characters, not pg_...");

  const Library& pq = library();
  char* message = nullptr;
  const std::unique_ptr<PQconninfoOption, void (*)(PQconninfoOption*)> read(
      pq.PQconninfoParse(text.c_str(), &message), pq.PQconninfoFree);
  const std::unique_ptr<char, void (*)(void*)> owned(message, pq.PQfreemem);
  if (!read) return not_an_address(told(message));
  for (const PQconninfoOption* option = read.get(); option->keyword != nullptr; ++option)
    if (option->val != nullptr) address.parameters.emplace_back(option->keyword, option->val);
  if (address.value("port").find_first_not_of("0123456789,") != std::string::npos)
    return not_an_address("the port of the address is no number");
  address.shown = shown(address);
  return address;
}

}  // namespace fogwright::pq
