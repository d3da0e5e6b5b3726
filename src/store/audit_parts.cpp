// SPDX-License-Identifier: Apache-2.0
#include "store/audit_parts.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "fogwright/book/encoding.hpp"

namespace fogwright {
namespace {

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
std::optional<Hash> from_below(BookTables& book, std::int64_t level, std::int64_t position) {
  const std::int64_t first = position << kept_level_step;
  const auto below = book.hashes(static_cast<unsigned>(level) - kept_level_step, first,
                                 first + (std::int64_t{1} << kept_level_step));
  if (!below) return std::nullopt;
  CompactRange part;
  for (const Hash& hash : *below) part.append(hash);
  return part.root();
}

std::optional<Hash> root_of_nodes(BookTables& book, std::uint64_t size) {
  const NodeSource nodes = [&](NodeId id) -> Result<Hash> {
    const auto hash = book.node(id);
    if (!hash) return fail(ErrorCode::bad_book, "a node is missing");
    return *hash;
  };
  const auto root = root_from(nodes, size);
  return root ? std::optional(*root) : std::nullopt;
}

// Nodes of the lowest kept level cost a hash for each entry, so they are looked at only to find a known fault.
void compare_nodes(BookTables& book, bool lowest_too, std::vector<Finding>& findings) {
  const unsigned lowest = lowest_too ? kept_level_step : 2 * kept_level_step;
  book.each_node(lowest, [&](std::int64_t level, std::int64_t position, std::string_view hash) {
    const auto expected = from_below(book, level, position);
    if (expected && hash == as_bytes(*expected)) return true;
    findings.push_back({std::nullopt, fmt::format("the tree node over entries {} to {} is not what they give",
                                                  position << level, ((position + 1) << level) - 1)});
    return findings.size() < most_findings;
  });
}

void count_nodes(BookTables& book, std::uint64_t size, std::vector<Finding>& findings) {
  for (unsigned level = kept_level_step; level < 64; level += kept_level_step) {
    const auto wanted = static_cast<std::int64_t>(size >> level);
    const BookTables::NodeCount kept = book.node_count(level);
    if (kept.count == wanted && kept.last == wanted - 1) continue;
    findings.push_back({std::nullopt, fmt::format("{} entries make {} tree nodes of level {}, {} are kept",
                                                  size, wanted, level, kept.count)});
  }
}

}  // namespace

CheckpointAudit::CheckpointAudit(const BookTables::Checkpoints& kept, std::string_view trusted_vkey) {
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
  for (const auto& [size, note] : kept) {
    auto opened = bad_key ? Result<Checkpoint>(tl::make_unexpected(*bad_key)) : open(note, key);
    kept_.push_back(
        {size, std::move(opened).and_then([&, at = size](Checkpoint found) { return of_size(at, found); })});
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

void check_nodes(BookTables& book, const VerifySummary& summary, std::vector<Finding>& findings) {
  const std::size_t before = findings.size();
  count_nodes(book, summary.size, findings);
  const bool root_holds = root_of_nodes(book, summary.size) == summary.root;
  compare_nodes(book, !root_holds, findings);
  if (!root_holds && findings.size() == before) {
    findings.push_back({std::nullopt, "the stored tree nodes do not give the root of the entries"});
  }
}

void check_private(BookTables& book, std::vector<Finding>& findings) {
  book.each_private([&](std::string_view hash, std::string_view salt, std::string_view bytes) {
    if (findings.size() >= most_findings || as_bytes(salted_hash(salt, bytes)) == hash) return;
    findings.push_back({std::nullopt, fmt::format("the private bytes of {} were changed", to_hex(hash))});
  });
}

void check_described(std::vector<std::string> wanted, std::vector<std::string> found,
                     std::vector<Finding>& findings) {
  std::sort(wanted.begin(), wanted.end());
  std::sort(found.begin(), found.end());
  std::vector<std::string> odd;
  std::set_symmetric_difference(wanted.begin(), wanted.end(), found.begin(), found.end(),
                                std::back_inserter(odd));
  for (std::string& one : odd) one.resize(std::min(one.find('\n'), one.size()));
  odd.erase(std::unique(odd.begin(), odd.end()), odd.end());
  for (const std::string& one : odd)
    findings.push_back({std::nullopt, one + " is not as this program makes it"});
}

std::int64_t last_received(BookTables& book, std::string_view origin) {
  const std::int64_t last = book.tail().seq;
  const auto entry = read_entry(last >= 0 ? book.leaf(last).value_or("") : "", origin);
  return entry ? entry->received_ms : 0;
}

}  // namespace fogwright
