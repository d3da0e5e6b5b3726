// SPDX-License-Identifier: Apache-2.0
#include "server/accounts.hpp"

#include <algorithm>

#include "asking/ids.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/sha256.hpp"
#include "server/private_file.hpp"

namespace fogwright::server {
namespace {

using nlohmann::json;

}  // namespace

std::string random_hex(const World& world, std::size_t bytes) {
  std::vector<std::uint8_t> random(bytes);
  world.random(random);
  return to_hex(as_bytes(random));
}

Result<std::unique_ptr<Accounts>> Accounts::open(const std::string& path, World world) {
  const auto text = read_private_file(path);
  if (!text) return tl::make_unexpected(text.error());
  std::unique_ptr<Accounts> accounts(new Accounts(path, std::move(world)));
  if (text->empty()) return accounts;
  try {
    accounts->read(json::parse(*text));
  } catch (const json::exception&) {
    return fail(ErrorCode::bad_book, "the file of accounts is damaged", path,
                "restore it from a backup, or move it away and invite everybody again");
  }
  return accounts;
}

void Accounts::read(const json& file) {
  for (const auto& [handle, hash] : file.at("passwords").items()) passwords_[handle] = hash;
  for (const json& one : file.at("invitations"))
    invitations_.push_back({one.at("hash"), one.at("handle"), one.at("until_ms"), one.value("device", false)});
  for (const json& one : file.at("sessions"))
    sessions_.push_back({one.at("id"), one.at("hash"), one.at("handle"), one.at("device"), one.at("created_ms"),
                         one.at("seen_ms")});
}

json Accounts::written() const {
  json file = {
      {"version", 1}, {"passwords", passwords_}, {"invitations", json::array()}, {"sessions", json::array()}};
  for (const Invitation& one : invitations_)
    file["invitations"].push_back(
        {{"hash", one.hash}, {"handle", one.handle}, {"until_ms", one.until_ms}, {"device", one.device}});
  for (const Session& one : sessions_)
    file["sessions"].push_back({{"id", one.id},
                                {"hash", one.hash},
                                {"handle", one.handle},
                                {"device", one.device},
                                {"created_ms", one.created_ms},
                                {"seen_ms", one.seen_ms}});
  return file;
}

void Accounts::save() {
  replace_private_file(path_, written().dump(1, ' ', false, json::error_handler_t::replace));
}

bool Accounts::nobody_has_a_password() {
  const std::lock_guard lock(mutex_);
  return passwords_.empty();
}

void Accounts::drop_what_ran_out() {
  const std::int64_t now = world_.now_ms();
  std::erase_if(invitations_, [now](const Invitation& one) { return one.until_ms <= now; });
  std::erase_if(sessions_, [now](const Session& one) {
    return now - one.seen_ms > session_idle_ms || now - one.created_ms > session_longest_ms;
  });
}

std::string Accounts::new_invitation(const std::string& handle, bool device, std::int64_t lasts_ms) {
  const std::lock_guard lock(mutex_);
  drop_what_ran_out();
  const std::string token = random_hex(world_, 32);
  std::erase_if(invitations_,
                [&](const Invitation& one) { return one.handle == handle && one.device == device; });
  invitations_.push_back({digest_hex(token), handle, world_.now_ms() + lasts_ms, device});
  save();
  return token;
}

std::string Accounts::invite(const std::string& handle) { return new_invitation(handle, false, invitation_ms); }

std::string Accounts::link_device(const std::string& handle) {
  return new_invitation(handle, true, device_link_ms);
}

std::optional<std::string> Accounts::use_device_link(const std::string& token) {
  const std::lock_guard lock(mutex_);
  drop_what_ran_out();
  const std::string hash = digest_hex(token);
  const auto found = std::find_if(invitations_.begin(), invitations_.end(),
                                  [&](const Invitation& one) { return one.device && one.hash == hash; });
  if (found == invitations_.end()) return std::nullopt;
  std::string handle = found->handle;
  invitations_.erase(found);
  save();
  return handle;
}

std::optional<std::string> Accounts::invited(const std::string& token) {
  const std::lock_guard lock(mutex_);
  drop_what_ran_out();
  const std::string hash = digest_hex(token);
  for (const Invitation& one : invitations_)
    if (!one.device && one.hash == hash) return one.handle;
  return std::nullopt;
}

Result<void> Accounts::redeem(const std::string& token, const std::string& handle,
                              const std::string& password) {
  if (auto ok = check_password_choice(password, handle); !ok) return ok;
  auto hash = hasher_.hash(password);
  if (!hash) return tl::make_unexpected(hash.error());
  const std::lock_guard lock(mutex_);
  const std::string used = digest_hex(token);
  if (std::erase_if(invitations_, [&](const Invitation& one) {
        return !one.device && one.hash == used && (one.handle.empty() || one.handle == handle);
      }) == 0)
    return fail(ErrorCode::not_permitted, "this invitation was used or has run out", "token",
                "ask for a new one");
  passwords_[handle] = std::move(*hash);
  end_all(handle, {});
  save();
  return {};
}

std::string Accounts::password_of(const std::string& handle) {
  const std::lock_guard lock(mutex_);
  const auto found = passwords_.find(handle);
  return found == passwords_.end() ? std::string() : found->second;
}

Result<Accounts::Checked> Accounts::check_password(const std::string& handle, const std::string& password,
                                                   const std::string& remote) {
  // A handle is kept short here so that the rows of the throttle stay small.
  const std::string account = handle.substr(0, 64);
  if (const auto wait = throttle_.wait_ms(account, remote, world_.now_ms()); wait > 0)
    return Checked{Check::wait, wait};
  const auto right = hasher_.matches(password_of(handle), password);
  if (!right) return tl::make_unexpected(right.error());
  if (*right) {
    throttle_.succeeded(account, remote);
    return Checked{Check::right, 0};
  }
  throttle_.failed(account, remote, world_.now_ms());
  return Checked{Check::wrong, 0};
}

Result<void> Accounts::change_password(const std::string& handle, const std::string& password,
                                       const std::string& keep_session) {
  if (auto ok = check_password_choice(password, handle); !ok) return ok;
  auto hash = hasher_.hash(password);
  if (!hash) return tl::make_unexpected(hash.error());
  const std::lock_guard lock(mutex_);
  passwords_[handle] = std::move(*hash);
  end_all(handle, keep_session);
  save();
  return {};
}

std::string Accounts::sign_in(const std::string& handle, const std::string& device) {
  const std::lock_guard lock(mutex_);
  drop_what_ran_out();
  const std::int64_t now = world_.now_ms();
  const std::string token = random_hex(world_, 32);
  sessions_.push_back({random_hex(world_, 8), digest_hex(token), handle, device, now, now});
  const auto of_person = [&](const Session& one) { return one.handle == handle; };
  if (static_cast<std::size_t>(std::count_if(sessions_.begin(), sessions_.end(), of_person)) >
      most_sessions_each)
    sessions_.erase(std::find_if(sessions_.begin(), sessions_.end(), of_person));
  save();
  return token;
}

std::optional<SignedIn> Accounts::signed_in(const std::string& token) {
  if (token.empty()) return std::nullopt;
  const std::string hash = digest_hex(token);
  const std::lock_guard lock(mutex_);
  drop_what_ran_out();
  for (Session& one : sessions_) {
    if (one.hash != hash) continue;
    one.seen_ms = std::max(one.seen_ms, world_.now_ms());
    return SignedIn{one.handle, one.device, one.id};
  }
  return std::nullopt;
}

json Accounts::sessions(const std::string& handle) {
  const std::lock_guard lock(mutex_);
  drop_what_ran_out();
  json list = json::array();
  for (const Session& one : sessions_)
    if (handle.empty() || one.handle == handle)
      list.push_back({{"session", one.id},
                      {"handle", one.handle},
                      {"device", one.device},
                      {"created_ms", one.created_ms},
                      {"seen_ms", one.seen_ms}});
  return list;
}

bool Accounts::end(const std::string& session, const std::string& handle) {
  const std::lock_guard lock(mutex_);
  const bool ended = std::erase_if(sessions_, [&](const Session& one) {
                       return one.id == session && (handle.empty() || one.handle == handle);
                     }) > 0;
  if (ended) save();
  return ended;
}

void Accounts::end_all(const std::string& handle, const std::string& but) {
  std::erase_if(invitations_, [&](const Invitation& one) { return one.device && one.handle == handle; });
  std::erase_if(sessions_, [&](const Session& one) { return one.handle == handle && one.id != but; });
}

std::string Accounts::csrf_token(const std::string& token) { return digest_hex("csrf\n" + token); }

}  // namespace fogwright::server
