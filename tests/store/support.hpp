// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>
#include <filesystem>
#include <string>
#include <vector>

#include "fogwright/book/note.hpp"
#include "fogwright/store.hpp"
#include "store/options.hpp"
#include "store/pq.hpp"
#include "store/sqlite.hpp"

/// The vocabulary of the store's tests.
namespace store_test {

using namespace fogwright;

inline const std::string origin = "books.example/heron";

/// A folder of its own that goes with it. `in_memory`: where a sync costs nothing.
class Folder {
 public:
  explicit Folder(bool in_memory = false);
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder();

  [[nodiscard]] std::string file(const std::string& name) const { return (path_ / name).string(); }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

/// Documents of three kinds: how many entries there are of each kind, the last body of each actor, and a
/// container that goes out of the live ones when it is emptied.
void fold(const Entry& entry, MutableDocuments& documents);

/// The n-th entry that the tests know: always the same one.
[[nodiscard]] NewEntry entry_number(std::int64_t n, std::size_t padding = 0);
[[nodiscard]] Uuid id_number(std::int64_t n);
/// The time that the clock below starts with.
inline constexpr std::int64_t start_ms = 1'700'000'000'000;
/// One millisecond later at each look.
[[nodiscard]] Clock ticking_clock();

/// The tests run twice: over files, and beside a PostgreSQL server (scripts/with-postgres), where a path stands
/// for a schema of its own. Tests of files alone are tagged [file], those of the server alone [server].
[[nodiscard]] bool on_server();
/// Where the book of this path is: the path itself, or an address on the server.
[[nodiscard]] std::string address_of(const std::string& path);

[[nodiscard]] std::unique_ptr<Store> created(const std::string& path);
[[nodiscard]] std::unique_ptr<Store> opened(const std::string& path, const SqliteOptions& options = {});
/// What opening is refused with.
[[nodiscard]] Error refusal(const std::string& path, const SqliteOptions& options = {});

/// Entries [from, to) as one batch.
Result<std::vector<Receipt>> append_numbers(Store& store, std::int64_t from, std::int64_t to,
                                            std::size_t padding = 0);
/// A closed book of `count` entries.
void make_book(const std::string& path, std::int64_t count);

/// The key that the tests sign checkpoints of their book with.
[[nodiscard]] const SignerKey& book_key();
/// Signs a checkpoint of the head and keeps it.
void keep_checkpoint(Store& book);

/// Findings and documents as a whole: the book holds together and has exactly the entries [0, head.size) in
/// order.
void require_sound(Store& store);
[[nodiscard]] std::string joined(const std::vector<Finding>& findings);
[[nodiscard]] Verification verified(const std::string& path, VerifyDepth depth = VerifyDepth::all,
                                    std::string_view vkey = {});

/// Runs `act` in a process of its own, which ends with 0 if nothing was thrown.
[[nodiscard]] int start(const std::function<void()>& act);
/// Waits for it: its exit status, or minus the signal that ended it.
[[nodiscard]] int outcome(int child);

/// Changes a book behind the store's back and past its triggers. On the server the head is made to fit.
void tamper(const std::string& path, const std::string& sql);
/// Bytes as a constant of SQL.
[[nodiscard]] std::string sql_bytes(std::string_view bytes);

/// A connection to the server as its superuser, in the schema of this book.
[[nodiscard]] pq::Connection superuser(const std::string& path);

}  // namespace store_test
