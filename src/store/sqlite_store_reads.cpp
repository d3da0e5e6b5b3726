// SPDX-License-Identifier: Apache-2.0
// What a store tells: none of it takes the writers' lock.
#include <fmt/format.h>

#include "store/audit.hpp"
#include "store/copy.hpp"
#include "store/sqlite_store.hpp"

namespace fogwright {

using sqlite::ReadScope;
using sqlite::Rows;

Head SqliteStore::head() {
  const ReadScope scope(session().reader);
  return head_seen();
}

void SqliteStore::read(const std::function<void(const Documents& now, const Head& head)>& use) {
  Session& open = session();
  const ReadScope scope(open.reader);
  const Head head = head_seen();
  use(open.seen_documents, head);
}

void SqliteStore::each_leaf(std::int64_t from, std::int64_t to,
                            const std::function<void(std::int64_t seq, std::string_view leaf)>& visit) {
  sqlite::Statement select =
      session().reader.prepare("SELECT seq, leaf FROM entry WHERE seq >= ?1 AND seq < ?2 ORDER BY seq");
  Rows rows = select.rows(from, to);
  while (rows.next()) visit(rows.integer(0), rows.blob(1));
}

std::optional<Entry> SqliteStore::entry(std::int64_t seq) {
  const auto leaf = session().seen.leaf(seq);
  if (!leaf) return std::nullopt;
  auto read = read_entry(*leaf, origin_);
  if (read) return std::move(*read);
  throw StorageFault(read.error().code, fmt::format("entry {} is damaged: {}", seq, read.error().message),
                     "verify the book; restore it from a backup");
}

std::optional<std::int64_t> SqliteStore::find(const Uuid& id) { return session().seen.find(id); }

std::optional<Hash> SqliteStore::node(std::int64_t level, std::int64_t index) {
  if (level < 0 || level > 62 || index < 0) return std::nullopt;
  return session().seen.node({static_cast<unsigned>(level), static_cast<std::uint64_t>(index)});
}

Verification SqliteStore::verify(std::string_view trusted_vkey, VerifyDepth depth, const Progress& progress) {
  return audit_book({path_, options_, origin_, fold_}, trusted_vkey, depth, progress);
}

void SqliteStore::backup_to(const std::string& path, const Progress& progress) {
  copy_book(path_, path, options_, progress);
}

}  // namespace fogwright
