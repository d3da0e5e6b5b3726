// SPDX-License-Identifier: Apache-2.0
// What a store keeps beside the entries: checkpoints, private bytes, the documents as a whole.
#include <fmt/format.h>

#include "fogwright/book/encoding.hpp"
#include "store/rebuild.hpp"
#include "store/sqlite_store.hpp"

namespace fogwright {
namespace {

using sqlite::Blob;
using sqlite::Rows;

std::string hash_of_hex(std::string_view hex) {
  const auto bytes = from_hex(hex);
  if (bytes && bytes->size() == sizeof(Hash)) return *bytes;
  throw StorageFault(ErrorCode::internal_fault, fmt::format("'{}' is not the hash of private bytes", hex),
                     "report this as a defect");
}

std::optional<std::string> kept_note(sqlite::Connection& connection, std::int64_t size) {
  sqlite::Statement select = connection.prepare("SELECT note FROM checkpoint WHERE size = ?1");
  Rows rows = select.rows(size);
  if (!rows.next()) return std::nullopt;
  return std::string(rows.text(0));
}

void put_note(sqlite::Connection& connection, std::int64_t size, std::string_view note) {
  const auto kept = kept_note(connection, size);
  if (!kept) {
    connection.prepare("INSERT INTO checkpoint(size, note) VALUES(?1, ?2)").run(size, note);
  } else if (note.starts_with(*kept)) {
    connection.prepare("UPDATE checkpoint SET note = ?2 WHERE size = ?1").run(size, note);
  } else {
    throw StorageFault(ErrorCode::already_exists,
                       fmt::format("another checkpoint of size {} is kept already", size),
                       "compare the two: if their roots differ, one is of a forged book");
  }
}

}  // namespace

void SqliteStore::add_checkpoint(std::int64_t size, std::string_view note) {
  write([&](Session& open) {
    if (size < 0 || size > open.written.size()) {
      throw StorageFault(ErrorCode::out_of_range, fmt::format("the book does not have {} entries", size),
                         "make the checkpoint of this book");
    }
    put_note(open.writer, size, note);
    return true;
  });
}

std::vector<std::pair<std::int64_t, std::string>> SqliteStore::checkpoints() {
  sqlite::Statement select = session().reader.prepare("SELECT size, note FROM checkpoint ORDER BY size");
  std::vector<std::pair<std::int64_t, std::string>> kept;
  Rows rows = select.rows();
  while (rows.next()) kept.emplace_back(rows.integer(0), rows.text(1));
  return kept;
}

void SqliteStore::keep_private(std::string_view hash_hex, std::string_view salt, std::string_view bytes) {
  const std::string hash = hash_of_hex(hash_hex);
  if (as_bytes(Sha256().joined(salt, bytes)) != hash) {
    throw StorageFault(ErrorCode::internal_fault, fmt::format("{} is not the hash of these bytes", hash_hex),
                       "report this as a defect");
  }
  write([&](Session& open) {
    sqlite::Statement select = open.writer.prepare("SELECT 1 FROM private WHERE hash = ?1");
    if (select.rows(Blob{hash}).next()) return true;
    open.writer.prepare("INSERT INTO private(hash, salt, bytes) VALUES(?1, ?2, ?3)")
        .run(Blob{hash}, Blob{salt}, Blob{bytes});
    return true;
  });
}

std::optional<PrivateRecord> SqliteStore::private_record(std::string_view hash_hex) {
  const std::string hash = hash_of_hex(hash_hex);
  sqlite::Statement select = session().reader.prepare("SELECT salt, bytes FROM private WHERE hash = ?1");
  Rows rows = select.rows(Blob{hash});
  if (!rows.next()) return std::nullopt;
  return PrivateRecord{std::string(rows.blob(0)), std::string(rows.blob(1))};
}

std::optional<std::string> SqliteStore::private_bytes(std::string_view hash_hex) {
  auto record = private_record(hash_hex);
  return record ? std::optional(std::move(record->bytes)) : std::nullopt;
}

bool SqliteStore::erase_private(std::string_view hash_hex) {
  const std::string hash = hash_of_hex(hash_hex);
  const auto held = lock_->hold(options_.wait);
  bool erased = false;
  write([&](Session& open) {
    open.writer.prepare("DELETE FROM private WHERE hash = ?1").run(Blob{hash});
    erased = open.writer.changes() > 0;
    return erased;
  });
  if (erased && !writing_) empty_log();
  return erased;
}

// The log still holds the page with what was erased; a reader may keep it there a while.
void SqliteStore::empty_log() {
  try {
    session().writer.checkpoint_and_empty();
  } catch (const StorageFault& fault) {
    if (fault.code() == ErrorCode::storage_busy) return;
    reopen();
    throw;
  }
}

std::int64_t SqliteStore::rebuild(std::vector<std::string>& differing, const Progress& progress) {
  std::int64_t count = 0;
  write([&](Session& open) {
    count = rebuild_documents(open.writer, origin_, fold_, differing, progress);
    return count > 0;
  });
  return count;
}

}  // namespace fogwright
