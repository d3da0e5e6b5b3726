// SPDX-License-Identifier: Apache-2.0
#include "store/schema.hpp"

#include <fmt/format.h>

#include <array>

#include "fogwright/store.hpp"

namespace fogwright {
namespace {

// The triggers stop mistakes, not somebody who holds the file. An insert needs its own, since REPLACE deletes
// the row it collides with: on the sequence number that is stopped by demanding the next one, on the id by
// looking for it.
constexpr const char* version_1 = R"sql(
CREATE TABLE meta(
  name TEXT PRIMARY KEY NOT NULL,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE entry(
  seq INTEGER PRIMARY KEY,
  id BLOB NOT NULL UNIQUE CHECK(length(id) = 16),
  hash BLOB NOT NULL CHECK(length(hash) = 32),
  leaf BLOB NOT NULL CHECK(length(leaf) BETWEEN 1 AND 65535)
) STRICT;

CREATE TABLE node(
  level INTEGER NOT NULL CHECK(level > 0 AND level % 8 = 0),
  position INTEGER NOT NULL CHECK(position >= 0),
  hash BLOB NOT NULL CHECK(length(hash) = 32),
  PRIMARY KEY(level, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE document(
  kind TEXT NOT NULL,
  key TEXT NOT NULL,
  body TEXT NOT NULL,
  live INTEGER NOT NULL CHECK(live IN (0, 1)),
  PRIMARY KEY(kind, key)
) STRICT, WITHOUT ROWID;
CREATE INDEX document_live ON document(kind, key) WHERE live = 1;

CREATE TABLE checkpoint(
  size INTEGER PRIMARY KEY CHECK(size >= 0),
  note TEXT NOT NULL
) STRICT;

CREATE TABLE private(
  hash BLOB PRIMARY KEY NOT NULL CHECK(length(hash) = 32),
  salt BLOB NOT NULL,
  bytes BLOB NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TRIGGER meta_stays BEFORE UPDATE ON meta BEGIN SELECT RAISE(ABORT, 'what the book is never changes'); END;
CREATE TRIGGER meta_kept BEFORE DELETE ON meta BEGIN SELECT RAISE(ABORT, 'what the book is never changes'); END;
CREATE TRIGGER meta_once BEFORE INSERT ON meta WHEN EXISTS (SELECT 1 FROM meta WHERE name = NEW.name)
  BEGIN SELECT RAISE(ABORT, 'what the book is never changes'); END;

CREATE TRIGGER entry_stays BEFORE UPDATE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never changed'); END;
CREATE TRIGGER entry_kept BEFORE DELETE ON entry BEGIN SELECT RAISE(ABORT, 'entries are never deleted'); END;
CREATE TRIGGER entry_next BEFORE INSERT ON entry
  WHEN NEW.seq IS NOT (SELECT coalesce(max(seq) + 1, 0) FROM entry)
  BEGIN SELECT RAISE(ABORT, 'an entry must have the next sequence number'); END;
CREATE TRIGGER entry_once BEFORE INSERT ON entry WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id)
  BEGIN SELECT RAISE(ABORT, 'an entry of this id is there'); END;

CREATE TRIGGER node_stays BEFORE UPDATE ON node BEGIN SELECT RAISE(ABORT, 'nodes are never changed'); END;
CREATE TRIGGER node_kept BEFORE DELETE ON node BEGIN SELECT RAISE(ABORT, 'nodes are never deleted'); END;
CREATE TRIGGER node_once BEFORE INSERT ON node
  WHEN EXISTS (SELECT 1 FROM node WHERE level = NEW.level AND position = NEW.position)
  BEGIN SELECT RAISE(ABORT, 'this node is there'); END;

CREATE TRIGGER checkpoint_grows BEFORE UPDATE ON checkpoint
  WHEN NEW.size IS NOT OLD.size OR substr(NEW.note, 1, length(OLD.note)) IS NOT OLD.note
  BEGIN SELECT RAISE(ABORT, 'a checkpoint may only gain signatures'); END;
CREATE TRIGGER checkpoint_kept BEFORE DELETE ON checkpoint
  BEGIN SELECT RAISE(ABORT, 'checkpoints are never deleted'); END;
CREATE TRIGGER checkpoint_once BEFORE INSERT ON checkpoint
  WHEN EXISTS (SELECT 1 FROM checkpoint WHERE size = NEW.size)
  BEGIN SELECT RAISE(ABORT, 'a checkpoint of this size is there'); END;

CREATE TRIGGER private_stays BEFORE UPDATE ON private
  BEGIN SELECT RAISE(ABORT, 'what stands beside the record is erased, never changed'); END;
CREATE TRIGGER private_once BEFORE INSERT ON private WHEN EXISTS (SELECT 1 FROM private WHERE hash = NEW.hash)
  BEGIN SELECT RAISE(ABORT, 'what stands beside the record is erased, never changed'); END;
)sql";

constexpr std::array steps_of_this_version{version_1};

void take_steps(sqlite::Connection& connection, std::span<const char* const> steps, int from) {
  for (std::size_t i = static_cast<std::size_t>(from); i < steps.size(); ++i) connection.execute(steps[i]);
  connection.execute(fmt::format("PRAGMA user_version={}", steps.size()));
}

}  // namespace

std::span<const char* const> schema_steps() { return steps_of_this_version; }

int book_version(const sqlite::Connection& connection, std::span<const char* const> steps) {
  if (connection.value("PRAGMA application_id") != std::to_string(book_application_id)) {
    throw StorageFault(ErrorCode::bad_book, "this is not a book", "name the file that was made as a book");
  }
  const int version = std::stoi(connection.value("PRAGMA user_version"));
  if (version > static_cast<int>(steps.size())) {
    throw StorageFault(
        ErrorCode::newer_book,
        fmt::format("the book has version {}, this program knows versions up to {}", version, steps.size()),
        "use a newer version of this program");
  }
  return version;
}

void bring_up_to_date(sqlite::Connection& connection, std::span<const char* const> steps) {
  sqlite::Transaction transaction(connection, sqlite::Transaction::Kind::write);
  take_steps(connection, steps, book_version(connection, steps));  // another process may just have done it
  transaction.commit();
}

void make_tables(sqlite::Connection& connection, std::string_view origin, std::int64_t created_ms) {
  sqlite::Transaction transaction(connection, sqlite::Transaction::Kind::write);
  take_steps(connection, schema_steps(), 0);
  connection.execute(fmt::format("PRAGMA application_id={}", book_application_id));
  sqlite::Statement insert = connection.prepare("INSERT INTO meta(name, value) VALUES(?1, ?2)");
  insert.run(std::string_view("origin"), origin);
  insert.run(std::string_view("created"), std::string_view(std::to_string(created_ms)));
  transaction.commit();
}

}  // namespace fogwright
