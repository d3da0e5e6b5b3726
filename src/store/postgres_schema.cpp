// SPDX-License-Identifier: Apache-2.0
#include "store/postgres_schema.hpp"

#include <fmt/format.h>

#include <array>

#include "fogwright/store.hpp"

namespace fogwright::pq {
namespace {

// As in SQLite, but for `head`: the row that a writer locks, and that must move with the entries. The triggers
// stop mistakes of a role that owns the tables; other roles have no right to UPDATE or DELETE in the first
// place. Every function names its tables in full, so that a search path cannot lead it elsewhere.
constexpr const char* version_1 = R"sql(
CREATE TABLE {s}.version(version integer NOT NULL);
CREATE TABLE {s}.meta(name text PRIMARY KEY, value text NOT NULL);
CREATE TABLE {s}.head(
  one boolean PRIMARY KEY DEFAULT true CHECK(one),
  size bigint NOT NULL CHECK(size >= 0)
);
CREATE TABLE {s}.entry(
  seq bigint PRIMARY KEY,
  id bytea NOT NULL UNIQUE CHECK(length(id) = 16),
  hash bytea NOT NULL CHECK(length(hash) = 32),
  leaf bytea NOT NULL CHECK(length(leaf) BETWEEN 1 AND 65535)
);
CREATE TABLE {s}.node(
  level bigint NOT NULL CHECK(level > 0 AND level % 8 = 0),
  position bigint NOT NULL CHECK(position >= 0),
  hash bytea NOT NULL CHECK(length(hash) = 32),
  PRIMARY KEY(level, position)
);
CREATE TABLE {s}.document(
  kind text COLLATE "C" NOT NULL,
  key text COLLATE "C" NOT NULL,
  body text COLLATE "C" NOT NULL,
  live bigint NOT NULL CHECK(live IN (0, 1)),
  PRIMARY KEY(kind, key)
);
CREATE INDEX document_live ON {s}.document(kind, key) WHERE live = 1;
CREATE TABLE {s}.checkpoint(size bigint PRIMARY KEY CHECK(size >= 0), note text COLLATE "C" NOT NULL);
CREATE TABLE {s}.private(
  hash bytea PRIMARY KEY CHECK(length(hash) = 32),
  salt bytea NOT NULL,
  bytes bytea NOT NULL
);

CREATE FUNCTION {s}.refuse() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION '%', TG_ARGV[0];
END $$;
CREATE TRIGGER meta_stays BEFORE UPDATE OR DELETE OR TRUNCATE ON {s}.meta
  EXECUTE FUNCTION {s}.refuse('what the book is never changes');
CREATE TRIGGER entry_stays BEFORE UPDATE OR DELETE OR TRUNCATE ON {s}.entry
  EXECUTE FUNCTION {s}.refuse('entries are never changed or deleted');
CREATE TRIGGER node_stays BEFORE UPDATE OR DELETE OR TRUNCATE ON {s}.node
  EXECUTE FUNCTION {s}.refuse('nodes are never changed or deleted');
CREATE TRIGGER head_kept BEFORE DELETE OR TRUNCATE ON {s}.head
  EXECUTE FUNCTION {s}.refuse('the head is never deleted');
CREATE TRIGGER checkpoint_kept BEFORE DELETE OR TRUNCATE ON {s}.checkpoint
  EXECUTE FUNCTION {s}.refuse('checkpoints are never deleted');
CREATE TRIGGER private_stays BEFORE UPDATE OR TRUNCATE ON {s}.private
  EXECUTE FUNCTION {s}.refuse('what stands beside the record is erased one by one, never changed');

CREATE FUNCTION {s}.entry_next() RETURNS trigger LANGUAGE plpgsql AS $$
DECLARE
  low bigint;
  high bigint;
  number bigint;
BEGIN
  SELECT min(seq), max(seq), count(*) INTO low, high, number FROM added;
  IF number > 0 AND (high - low + 1 <> number OR low < 0
      OR (low > 0 AND NOT EXISTS (SELECT 1 FROM {s}.entry WHERE seq = low - 1))) THEN
    RAISE EXCEPTION 'an entry must have the next sequence number';
  END IF;
  IF number > 0 AND NOT EXISTS (SELECT 1 FROM {s}.head WHERE size = high + 1) THEN
    RAISE EXCEPTION 'the head must move with the entries';
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER entry_next AFTER INSERT ON {s}.entry REFERENCING NEW TABLE AS added
  EXECUTE FUNCTION {s}.entry_next();

CREATE FUNCTION {s}.head_follows() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF (SELECT size FROM {s}.head) IS DISTINCT FROM (SELECT coalesce(max(seq) + 1, 0) FROM {s}.entry) THEN
    RAISE EXCEPTION 'the head must stand behind the last entry';
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER head_follows AFTER UPDATE ON {s}.head EXECUTE FUNCTION {s}.head_follows();

CREATE FUNCTION {s}.checkpoint_grows() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF NEW.size <> OLD.size OR left(NEW.note, length(OLD.note)) <> OLD.note THEN
    RAISE EXCEPTION 'a checkpoint may only gain signatures';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER checkpoint_grows BEFORE UPDATE ON {s}.checkpoint FOR EACH ROW
  EXECUTE FUNCTION {s}.checkpoint_grows();
)sql";

constexpr std::array steps_of_this_version{version_1};

// All that a role needs that uses the book; docs/storage.md says what for.
constexpr const char* grants = R"sql(
GRANT USAGE ON SCHEMA {s} TO {r};
GRANT SELECT ON {s}.version, {s}.meta TO {r};
GRANT SELECT, INSERT ON {s}.entry, {s}.node TO {r};
GRANT SELECT, UPDATE (size) ON {s}.head TO {r};
GRANT SELECT, INSERT, UPDATE, DELETE ON {s}.document TO {r};
GRANT SELECT, INSERT, UPDATE (note) ON {s}.checkpoint TO {r};
GRANT SELECT, INSERT, DELETE ON {s}.private TO {r};
)sql";

std::string with(std::string text, std::string_view mark, std::string_view value) {
  for (auto at = text.find(mark); at != std::string::npos; at = text.find(mark, at + value.size()))
    text.replace(at, mark.size(), value);
  return text;
}

std::string as_name(std::string_view name) { return '"' + with(std::string(name), "\"", "\"\"") + '"'; }

void take_steps(Connection& connection, std::span<const char* const> steps, std::size_t from) {
  const std::string& schema = connection.address().schema;
  for (std::size_t i = from; i < steps.size(); ++i) (void)connection.execute(with(steps[i], "{s}", schema));
  (void)connection.execute(
      fmt::format("DELETE FROM {0}.version; INSERT INTO {0}.version VALUES({1})", schema, steps.size()));
}

bool has_book(Connection& connection) {
  const Answer found = connection.run("SELECT to_regclass($1) IS NOT NULL",
                                      std::string_view(connection.address().schema + ".meta"));
  return found.integer(0, 0) != 0;
}

void require_utf8(Connection& connection) {
  const Answer encoding = connection.run("SELECT current_setting('server_encoding')");
  if (encoding.text(0, 0) == "UTF8") return;
  throw StorageFault(ErrorCode::file_fault,
                     fmt::format("the database keeps its texts in {}", encoding.text(0, 0)),
                     "make one with: createdb --encoding=UTF8 --template=template0");
}

// Names that every server gives the same thing; the schema is left out of them.
constexpr const char* description = R"sql(
WITH ours AS (SELECT c.oid, c.relname, c.relkind FROM pg_class c WHERE c.relnamespace = $1::text::regnamespace
  AND c.relkind IN ('r', 'p', 'v', 'm', 'f', 'S'))
SELECT format(E'table %s\n%s', relname, relkind) FROM ours
UNION ALL SELECT format(E'column %s.%s\n%s %s %s %s', relname, attname, format_type(atttypid, atttypmod), attnotnull,
    attcollation::regcollation, pg_get_expr(adbin, adrelid))
  FROM ours JOIN pg_attribute ON attrelid = ours.oid LEFT JOIN pg_attrdef ON adrelid = attrelid AND adnum = attnum
  WHERE attnum > 0 AND NOT attisdropped
UNION ALL SELECT format(E'constraint %s.%s\n%s %s', relname, conname, pg_get_constraintdef(c.oid), convalidated)
  FROM ours JOIN pg_constraint c ON conrelid = ours.oid
UNION ALL SELECT format(E'index %s\n%s %s', indexrelid::regclass::text, pg_get_indexdef(indexrelid), indisvalid)
  FROM ours JOIN pg_index ON indrelid = ours.oid
UNION ALL SELECT format(E'trigger %s\n%s %s', tgname, pg_get_triggerdef(t.oid), tgenabled)
  FROM ours JOIN pg_trigger t ON tgrelid = ours.oid WHERE NOT tgisinternal
UNION ALL SELECT format(E'rule %s\n%s', rulename, ev_enabled) FROM ours JOIN pg_rewrite ON ev_class = ours.oid
UNION ALL SELECT format(E'function %s\n%s %s %s %s %s', proname, prosrc, provolatile, prosecdef, proconfig,
    prorettype::regtype)
  FROM pg_proc WHERE pronamespace = $1::text::regnamespace
)sql";

// `schema` may be the one of temporary tables, which has a number in its name.
std::vector<std::string> described_in(Connection& connection, const std::string& schema) {
  std::vector<std::string> all;
  const Answer rows = connection.run(description, std::string_view(schema));
  for (int row = 0; row < rows.rows(); ++row) {
    std::string text(rows.text(row, 0));
    for (const std::string& name : {schema, std::string("pg_temp")})
      text = with(std::move(text), name + '.', "");
    all.push_back(std::move(text));
  }
  return all;
}

}  // namespace

std::span<const char* const> schema_steps() { return steps_of_this_version; }

void make_tables(Connection& connection, const NewBook& book) {
  const std::string& schema = connection.address().schema;
  require_utf8(connection);
  connection.begin("BEGIN");
  const Rollback rollback(connection);
  (void)connection.execute("CREATE SCHEMA IF NOT EXISTS " + schema);
  if (has_book(connection)) {
    throw StorageFault(ErrorCode::already_exists, "there is a book already",
                       "choose another database, or another schema: ?schema=NAME");
  }
  take_steps(connection, schema_steps(), 0);
  (void)connection.run(
      fmt::format("INSERT INTO {}.meta(name, value) VALUES('origin', $1), ('created', $2)", schema),
      book.origin, std::string_view(std::to_string(book.created_ms)));
  (void)connection.execute(fmt::format("INSERT INTO {}.head(size) VALUES(0)", schema));
  for (const std::string& role : book.grant_to)
    (void)connection.execute(with(with(grants, "{s}", schema), "{r}", as_name(role)));
  connection.commit();
}

int book_version(Connection& connection, std::span<const char* const> steps) {
  if (!has_book(connection)) {
    throw StorageFault(ErrorCode::not_found, "there is no book of this name",
                       "make one with: fogwright book create");
  }
  const Answer rows =
      connection.run(fmt::format("SELECT version FROM {}.version", connection.address().schema));
  const int version = rows.rows() == 1 ? static_cast<int>(rows.integer(0, 0)) : 0;
  if (version > static_cast<int>(steps.size())) {
    throw StorageFault(
        ErrorCode::newer_book,
        fmt::format("the book has version {}, this program knows versions up to {}", version, steps.size()),
        "use a newer version of this program");
  }
  return version;
}

void bring_up_to_date(Connection& connection, std::span<const char* const> steps) {
  const std::string& schema = connection.address().schema;
  const Answer owner =
      connection.run("SELECT pg_has_role(relowner, 'USAGE') FROM pg_class WHERE oid = to_regclass($1)",
                     std::string_view(schema + ".meta"));
  if (owner.rows() != 1 || owner.integer(0, 0) == 0) {
    throw StorageFault(ErrorCode::file_fault, "the book is of an older version, and this role does not own it",
                       "let its owner open it once, e.g. with: fogwright book verify --quick");
  }
  connection.begin(fmt::format("BEGIN; LOCK TABLE {}.version IN ACCESS EXCLUSIVE MODE", schema));
  const Rollback rollback(connection);
  // Another process may just have done it.
  take_steps(connection, steps, static_cast<std::size_t>(book_version(connection, steps)));
  connection.commit();
}

std::vector<std::string> described(Connection& connection) {
  return described_in(connection, connection.address().schema);
}

// The model is made in the schema of this session's temporary tables and rolled back.
std::vector<std::string> described_anew(Connection& connection, std::span<const char* const> steps) {
  connection.begin("BEGIN");
  const Rollback rollback(connection);
  for (const char* step : steps) (void)connection.execute(with(step, "{s}", "pg_temp"));
  const Answer name = connection.run("SELECT pg_my_temp_schema()::regnamespace::text");
  return described_in(connection, std::string(name.text(0, 0)));
}

}  // namespace fogwright::pq
