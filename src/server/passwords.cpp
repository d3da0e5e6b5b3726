// SPDX-License-Identifier: Apache-2.0
#include "server/passwords.hpp"

#include <sodium.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <stdexcept>

namespace fogwright::server {
namespace {

constexpr int most_at_once = 2;
constexpr auto longest_wait = std::chrono::seconds(2);

/// Long passwords that are tried first (from memory: they lead published lists of leaked ones).
constexpr std::string_view common[] = {
    "123456789012",     "1234567890123",  "1234567891011",    "password1234",
    "passwordpassword", "password12345",  "qwertyuiop12",     "qwertyuiop123",
    "qwertyuiopasdf",   "1q2w3e4r5t6y",   "1qaz2wsx3edc",     "1qazxsw23edc",
    "administrator",    "administrator1", "letmeinletmein",   "iloveyou1234",
    "welcome12345",     "changeme1234",   "qwerty123456",     "abcdefghijkl",
    "abc123abc123",     "zaq12wsxcde3",   "trustno1trustno1", "correcthorsebatterystaple",
    "123123123123",     "111111111111",   "000000000000",     "q1w2e3r4t5y6",
    "fogwright1234",    "superman1234"};

std::string lower(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

bool one_character(std::string_view text) {
  return text.find_first_not_of(text.front()) == std::string_view::npos;
}

/// The hash of a password that nobody has.
const std::string& nobodys() {
  static const std::string hash = [] {
    std::array<char, crypto_pwhash_STRBYTES> out{};
    if (crypto_pwhash_str(out.data(), "nobody", 6, crypto_pwhash_OPSLIMIT_INTERACTIVE,
                          crypto_pwhash_MEMLIMIT_INTERACTIVE) != 0)
      throw std::bad_alloc();
    return std::string(out.data());
  }();
  return hash;
}

}  // namespace

Result<void> check_password_choice(std::string_view password, std::string_view handle) {
  if (password.size() < shortest_password || password.size() > longest_password)
    return fail(ErrorCode::out_of_range, "a password has 12 to 256 characters", "password",
                "four words that do not belong together are easy to remember");
  const std::string folded = lower(password);
  const bool guessed =
      one_character(password) || std::find(std::begin(common), std::end(common), folded) != std::end(common) ||
      (!handle.empty() && folded.starts_with(lower(handle)) && password.size() < handle.size() + 8);
  if (guessed)
    return fail(ErrorCode::not_understood, "this password is one of the first that are tried", "password",
                "four words that do not belong together are easy to remember");
  return {};
}

/// One of the places for hashing, while it lives.
class PasswordHasher::Turn {
 public:
  explicit Turn(PasswordHasher& hasher) : hasher_(hasher) {
    std::unique_lock lock(hasher.mutex_);
    got_ = hasher.freed_.wait_for(lock, longest_wait, [&] { return hasher.running_ < most_at_once; });
    if (got_) ++hasher.running_;
  }
  Turn(const Turn&) = delete;
  Turn& operator=(const Turn&) = delete;
  ~Turn() {
    if (!got_) return;
    {
      const std::lock_guard lock(hasher_.mutex_);
      --hasher_.running_;
    }
    hasher_.freed_.notify_one();
  }
  [[nodiscard]] Result<void> taken() const {
    if (got_) return {};
    return fail(ErrorCode::storage_busy, "many people sign in just now", {}, "try again in a moment");
  }

 private:
  PasswordHasher& hasher_;
  bool got_ = false;
};

Result<std::string> PasswordHasher::hash(const std::string& password) {
  const Turn turn(*this);
  if (auto ok = turn.taken(); !ok) return tl::make_unexpected(ok.error());
  std::array<char, crypto_pwhash_STRBYTES> out{};
  if (crypto_pwhash_str(out.data(), password.data(), password.size(), crypto_pwhash_OPSLIMIT_INTERACTIVE,
                        crypto_pwhash_MEMLIMIT_INTERACTIVE) != 0)
    throw std::bad_alloc();
  return std::string(out.data());
}

Result<bool> PasswordHasher::matches(const std::string& stored, const std::string& password) {
  const Turn turn(*this);
  if (auto ok = turn.taken(); !ok) return tl::make_unexpected(ok.error());
  const std::string& against = stored.empty() ? nobodys() : stored;
  const bool same = crypto_pwhash_str_verify(against.c_str(), password.data(), password.size()) == 0;
  return same && !stored.empty();
}

}  // namespace fogwright::server
