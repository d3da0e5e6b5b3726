// SPDX-License-Identifier: Apache-2.0
#pragma once

/// Who may sign in, and who is signed in. Beside the book and never in the record: a file of hashes that only
/// the server's user can read. Who somebody is and what roles they have stands in the book.

#include <memory>
#include <mutex>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "server/passwords.hpp"
#include "server/throttle.hpp"
#include "server/world.hpp"

namespace fogwright::server {

struct SignedIn {
  std::string handle;
  std::string device;   ///< what the person called it
  std::string session;  ///< its id, which is no secret
};

inline constexpr std::int64_t session_idle_ms = 8 * 60 * 60'000LL;
inline constexpr std::int64_t session_longest_ms = 7 * 24 * 60 * 60'000LL;
inline constexpr std::int64_t invitation_ms = 24 * 60 * 60'000LL;
inline constexpr std::int64_t device_link_ms = 10 * 60'000LL;
inline constexpr std::size_t most_sessions_each = 20;  ///< of one person; the oldest goes

/// For use from several threads.
class Accounts {
 public:
  /// Reads the file, or begins without one. Errors: file_fault, bad_book (damaged).
  [[nodiscard]] static Result<std::unique_ptr<Accounts>> open(const std::string& path, World world);

  [[nodiscard]] bool nobody_has_a_password();
  /// A one-time token for choosing a password. `handle` "" is for whoever becomes the first owner.
  [[nodiscard]] std::string invite(const std::string& handle);
  /// Whom a token is for; nullopt: it was used, has run out, or never was.
  [[nodiscard]] std::optional<std::string> invited(const std::string& token);
  /// Uses up the token, and ends the person's sessions. Errors: not_permitted (token), those of the choice.
  [[nodiscard]] Result<void> redeem(const std::string& token, const std::string& handle,
                                    const std::string& password);

  /// A one-time token by which another device of somebody who has a password is signed in; replaces the last.
  [[nodiscard]] std::string link_device(const std::string& handle);
  /// Uses up such a token and tells whose it was; nullopt: it was used, has run out, or never was.
  [[nodiscard]] std::optional<std::string> use_device_link(const std::string& token);

  enum class Check { right, wrong, wait };
  struct Checked {
    Check check = Check::wrong;
    std::int64_t wait_ms = 0;
  };
  /// Errors: storage_busy.
  [[nodiscard]] Result<Checked> check_password(const std::string& handle, const std::string& password,
                                               const std::string& remote);
  [[nodiscard]] Result<void> change_password(const std::string& handle, const std::string& password,
                                             const std::string& keep_session);

  /// A new session; returns its token, which is kept nowhere.
  [[nodiscard]] std::string sign_in(const std::string& handle, const std::string& device);
  [[nodiscard]] std::optional<SignedIn> signed_in(const std::string& token);
  /// List of {session, handle, device, created_ms, seen_ms}; an empty handle means everybody's.
  [[nodiscard]] nlohmann::json sessions(const std::string& handle);
  /// Ends one session; an empty handle means anybody's. False: there is none.
  bool end(const std::string& session, const std::string& handle);

  /// What a page sends back with each change; bound to the session.
  [[nodiscard]] static std::string csrf_token(const std::string& token);

 private:
  struct Session {
    std::string id, hash, handle, device;
    std::int64_t created_ms = 0, seen_ms = 0;
  };
  struct Invitation {
    std::string hash, handle;
    std::int64_t until_ms = 0;
    bool device = false;  ///< signs a device in, and chooses no password
  };
  Accounts(std::string path, World world) : path_(std::move(path)), world_(std::move(world)) {}
  void read(const nlohmann::json& file);
  [[nodiscard]] nlohmann::json written() const;
  void save();
  void drop_what_ran_out();
  [[nodiscard]] std::string new_invitation(const std::string& handle, bool device, std::int64_t lasts_ms);
  [[nodiscard]] std::string password_of(const std::string& handle);
  void end_all(const std::string& handle, const std::string& but);

  std::string path_;
  World world_;
  PasswordHasher hasher_;
  Throttle throttle_;
  std::mutex mutex_;
  std::map<std::string, std::string> passwords_;  // handle to hash
  std::vector<Session> sessions_;
  std::vector<Invitation> invitations_;
};

}  // namespace fogwright::server
