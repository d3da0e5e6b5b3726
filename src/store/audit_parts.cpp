// SPDX-License-Identifier: Apache-2.0
#include "store/audit_parts.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "fogwright/book/encoding.hpp"
#include "store/tables.hpp"

namespace fogwright {
namespace {

using sqlite::Rows;

Result<Checkpoint> open(std::string_view note, const std::optional<VerifierKey>& key) {
  if (key)
    return open_checkpoint(note, *key).map([](const OpenedCheckpoint& opened) { return opened.checkpoint; });
  return read_note(note).and_then([](const Note& read) { return read_checkpoint(read.text); });
}

Result<Checkpoint> of_size(std::int64_t size, Checkpoint checkpoint) {
  if (checkpoint.size == static_cast<std::uint64_t>(size)) return checkpoint;
  return fail(ErrorCode::bad_book, fmt::format("it is kept as of size {} but says {}", size, checkpoint.size));
}

std::string named_checkpoint(std::int64_t size) { return fmt::format("checkpoint {}", size); }

// The root of 2^8 hashes that stand below a node that is kept.
std::optional<Hash> from_below(BookReader& reader, std::int64_t level, std::int64_t position) {
  CompactRange part;
  const auto below = static_cast<unsigned>(level) - kept_level_step;
  const auto first = static_cast<std::uint64_t>(position) << kept_level_step;
  for (std::uint64_t i = 0; i < 1U << kept_level_step; ++i) {
    const auto hash = reader.node({below, first + i});
    if (!hash) return std::nullopt;
    part.append(*hash);
  }
  return part.root();
}

std::optional<Hash> root_of_nodes(BookReader& reader, std::uint64_t size) {
  const NodeSource nodes = [&](NodeId id) -> Result<Hash> {
    const auto hash = reader.node(id);
    if (!hash) return fail(ErrorCode::bad_book, "a node is missing");
    return *hash;
  };
  const auto root = root_from(nodes, size);
  return root ? std::optional(*root) : std::nullopt;
}

// Nodes of the lowest kept level cost a hash for each entry, so they are looked at only to find a known fault.
void compare_nodes(const sqlite::Connection& connection, bool lowest_too, std::vector<Finding>& findings) {
  BookReader reader(connection);
  sqlite::Statement select = connection.prepare("SELECT level, position, hash FROM node WHERE level >= ?1");
  Rows rows = select.rows(std::int64_t{lowest_too ? kept_level_step : 2 * kept_level_step});
  while (rows.next() && findings.size() < most_findings) {
    const std::int64_t level = rows.integer(0), position = rows.integer(1);
    const auto expected = from_below(reader, level, position);
    if (expected && rows.blob(2) == as_bytes(*expected)) continue;
    findings.push_back({std::nullopt, fmt::format("the tree node over entries {} to {} is not what they give",
                                                  position << level, ((position + 1) << level) - 1)});
  }
}

void count_nodes(const sqlite::Connection& connection, std::uint64_t size, std::vector<Finding>& findings) {
  sqlite::Statement select =
      connection.prepare("SELECT count(*), coalesce(max(position), -1) FROM node WHERE level = ?1");
  for (unsigned level = kept_level_step; level < 64; level += kept_level_step) {
    const auto wanted = static_cast<std::int64_t>(size >> level);
    Rows rows = select.rows(std::int64_t{level});
    if (!rows.next() || (rows.integer(0) == wanted && rows.integer(1) == wanted - 1)) continue;
    findings.push_back({std::nullopt, fmt::format("{} entries make {} tree nodes of level {}, {} are kept",
                                                  size, wanted, level, rows.integer(0))});
  }
}

std::vector<std::string> described(const sqlite::Connection& connection) {
  sqlite::Statement select = connection.prepare(
      "SELECT type || ' ' || name, sql FROM sqlite_schema WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\' ORDER "
      "BY 1");
  std::vector<std::string> all;
  Rows rows = select.rows();
  while (rows.next()) all.push_back(fmt::format("{}\n{}", rows.text(0), rows.text(1)));
  return all;
}

}  // namespace

CheckpointAudit::CheckpointAudit(const sqlite::Connection& connection, std::string_view trusted_vkey) {
  std::optional<VerifierKey> key;
  std::optional<Error> bad_key;
  if (!trusted_vkey.empty()) {
    auto read = read_vkey(trusted_vkey);
    if (read)
      key = std::move(*read);
    else
      bad_key = read.error();
  }
  signatures_checked_ = key.has_value();
  sqlite::Statement select = connection.prepare("SELECT size, note FROM checkpoint ORDER BY size");
  Rows rows = select.rows();
  while (rows.next()) {
    const std::int64_t size = rows.integer(0);
    auto opened = bad_key ? Result<Checkpoint>(tl::make_unexpected(*bad_key)) : open(rows.text(1), key);
    kept_.push_back({size, std::move(opened).and_then([&](Checkpoint found) { return of_size(size, found); })});
  }
}

void CheckpointAudit::expect(BookVerifier& verifier) const {
  for (const Kept& kept : kept_) {
    if (kept.opened) verifier.expect(*kept.opened);
  }
}

std::vector<std::string> CheckpointAudit::outcomes(const Faults& faults, std::vector<Finding>& findings) const {
  std::vector<std::string> lines;
  for (const Kept& kept : kept_) {
    const std::string name = named_checkpoint(kept.size);
    const auto fault =
        std::find_if(faults.begin(), faults.end(), [&](const Error& f) { return f.where == name; });
    if (!kept.opened) {
      lines.push_back(fmt::format("{}: {}", name, kept.opened.error().message));
      findings.push_back({std::nullopt, lines.back()});
    } else if (fault != faults.end()) {
      lines.push_back(fmt::format("{}: {}", name, fault->message));
    } else {
      lines.push_back(name + (signatures_checked_ ? ": signature and entries hold"
                                                  : ": entries hold; no key was given to check the signature"));
    }
  }
  return lines;
}

void check_nodes(const sqlite::Connection& connection, const VerifySummary& summary,
                 std::vector<Finding>& findings) {
  const std::size_t before = findings.size();
  BookReader reader(connection);
  count_nodes(connection, summary.size, findings);
  const bool root_holds = root_of_nodes(reader, summary.size) == summary.root;
  compare_nodes(connection, !root_holds, findings);
  if (!root_holds && findings.size() == before) {
    findings.push_back({std::nullopt, "the stored tree nodes do not give the root of the entries"});
  }
}

void check_tables(const sqlite::Connection& connection, const SqliteOptions& options,
                  std::vector<Finding>& findings) {
  sqlite::Connection model(":memory:", sqlite::Access::read_write, {}, 0);
  for (const char* step : options.steps) model.execute(step);
  const auto wanted = described(model), found = described(connection);
  std::vector<std::string> odd;
  std::set_symmetric_difference(wanted.begin(), wanted.end(), found.begin(), found.end(),
                                std::back_inserter(odd));
  for (const std::string& one : odd) {
    findings.push_back({std::nullopt, one.substr(0, one.find('\n')) + " is not as this program makes it"});
  }
}

void check_file(const sqlite::Connection& connection, std::vector<Finding>& findings) {
  sqlite::Statement check = connection.prepare(fmt::format("PRAGMA integrity_check({})", most_findings));
  Rows rows = check.rows();
  while (rows.next()) {
    if (rows.text(0) != "ok") findings.push_back({std::nullopt, fmt::format("the file: {}", rows.text(0))});
  }
}

void check_private(const sqlite::Connection& connection, std::vector<Finding>& findings) {
  sqlite::Statement select = connection.prepare("SELECT hash, salt, bytes FROM private");
  Sha256 hasher;
  Rows rows = select.rows();
  while (rows.next() && findings.size() < most_findings) {
    if (as_bytes(hasher.joined(rows.blob(1), rows.blob(2))) == rows.blob(0)) continue;
    findings.push_back(
        {std::nullopt, fmt::format("the private bytes of {} were changed", to_hex(rows.blob(0)))});
  }
}

std::int64_t last_received(const sqlite::Connection& connection, std::string_view origin) {
  BookReader reader(connection);
  const std::int64_t size = reader.size();
  const auto entry = read_entry(size > 0 ? reader.leaf(size - 1).value_or("") : "", origin);
  return entry ? entry->received_ms : 0;
}

}  // namespace fogwright
