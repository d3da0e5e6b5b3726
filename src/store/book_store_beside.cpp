// SPDX-License-Identifier: Apache-2.0
// What a store tells, and what it keeps beside the entries: checkpoints, private bytes, the documents as a
// whole.
#include <fmt/format.h>

#include "fogwright/book/encoding.hpp"
#include "store/book_store.hpp"
#include "store/fresh_documents.hpp"
#include "store/import.hpp"

namespace fogwright {
namespace {

std::string hash_of_hex(std::string_view hex) {
  const auto bytes = from_hex(hex);
  if (bytes && bytes->size() == sizeof(Hash)) return *bytes;
  throw StorageFault(ErrorCode::internal_fault, fmt::format("'{}' is not the hash of private bytes", hex),
                     "report this as a defect");
}

void put_note(BookTables& tables, std::int64_t size, std::string_view note) {
  const auto kept = tables.checkpoint(size);
  if (!kept) {
    tables.add_checkpoint(size, note);
  } else if (note.starts_with(*kept)) {
    if (note != *kept) tables.extend_checkpoint(size, note);
  } else {
    throw StorageFault(ErrorCode::already_exists,
                       fmt::format("another checkpoint of size {} is kept already", size),
                       "compare the two: if their roots differ, one is of a forged book");
  }
}

}  // namespace

Head BookStore::head() {
  Head head;
  look([&](BookTables& tables) { head = head_of(tables); });
  return head;
}

void BookStore::read(const std::function<void(const Documents& now, const Head& head)>& use) {
  look([&](BookTables& tables) {
    const Head head = head_of(tables);
    use(tables.documents(), head);
  });
}

void BookStore::each_leaf(std::int64_t from, std::int64_t to,
                          const std::function<void(std::int64_t seq, std::string_view leaf)>& visit) {
  look([&](BookTables& tables) {
    tables.each_entry(from, to, [&](const BookTables::Row& row) {
      visit(row.seq, row.leaf);
      return true;
    });
  });
}

std::optional<Entry> BookStore::entry(std::int64_t seq) {
  const auto leaf = seen().leaf(seq);
  if (!leaf) return std::nullopt;
  return sound_entry(seq, *leaf, origin_);
}

std::optional<std::int64_t> BookStore::find(const Uuid& id) { return seen().find(id); }

std::optional<Hash> BookStore::node(std::int64_t level, std::int64_t index) {
  if (level < 0 || level > 62 || index < 0) return std::nullopt;
  return seen().node({static_cast<unsigned>(level), static_cast<std::uint64_t>(index)});
}

tl::expected<std::int64_t, Faults> BookStore::import_from(const ImportSource& source,
                                                          const Progress& progress) {
  tl::expected<std::int64_t, Faults> added;
  TreeState after;
  write([&](BookTables& tables) {
    Appender appender(appending(tables), state_, 0);
    added = fogwright::import_lines(appender, origin_, tables, source, progress);
    after = appender.state();
    if (!added || !source.beside) return added && appender.wrote();
    source.beside(after.head());
    return true;
  });
  if (added && *added > 0) state_ = std::move(after);
  return added;
}

void BookStore::add_checkpoint(std::int64_t size, std::string_view note) {
  write([&](BookTables& tables) {
    if (size < 0 || size > tables.size()) {
      throw StorageFault(ErrorCode::out_of_range, fmt::format("the book does not have {} entries", size),
                         "make the checkpoint of this book");
    }
    put_note(tables, size, note);
    return true;
  });
}

std::vector<std::pair<std::int64_t, std::string>> BookStore::checkpoints() { return seen().checkpoints(); }

void BookStore::keep_private(std::string_view hash_hex, std::string_view salt, std::string_view bytes) {
  const std::string hash = hash_of_hex(hash_hex);
  if (as_bytes(salted_hash(salt, bytes)) != hash) {
    throw StorageFault(ErrorCode::internal_fault, fmt::format("{} is not the hash of these bytes", hash_hex),
                       "report this as a defect");
  }
  write([&](BookTables& tables) {
    if (!tables.private_record(hash)) tables.add_private(hash, salt, bytes);
    return true;
  });
}

std::optional<std::string> BookStore::private_bytes(std::string_view hash_hex) {
  auto record = private_record(hash_hex);
  return record ? std::optional(std::move(record->bytes)) : std::nullopt;
}

std::optional<PrivateRecord> BookStore::private_record(std::string_view hash_hex) {
  return seen().private_record(hash_of_hex(hash_hex));
}

void BookStore::each_private(const std::function<void(const PrivateBytes& kept)>& visit) {
  look([&](BookTables& tables) {
    tables.each_private([&](std::string_view hash, std::string_view salt, std::string_view bytes) {
      visit({to_hex(hash), salt, bytes});
    });
  });
}

bool BookStore::erase_private(std::string_view hash_hex) {
  const std::string hash = hash_of_hex(hash_hex);
  const bool part_of_another = writing_ != nullptr;
  const auto held = hold();
  bool gone = false;
  write([&](BookTables& tables) { return gone = tables.erase_private(hash); });
  if (gone && !part_of_another) erased();
  return gone;
}

Verification BookStore::verify(std::string_view trusted_vkey, VerifyDepth depth, const Progress& progress) {
  const auto book = audited();
  return audit_book(*book, origin_, {trusted_vkey, depth, fold_}, progress);
}

std::int64_t BookStore::rebuild(std::vector<std::string>& differing, const Progress& progress) {
  std::int64_t count = 0;
  write([&](BookTables& tables) {
    count = rebuild_documents(tables, origin_, fold_, differing, progress);
    return count > 0;
  });
  return count;
}

}  // namespace fogwright
