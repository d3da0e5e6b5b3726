// SPDX-License-Identifier: Apache-2.0
// What somebody who holds the file can do to it, and what verify() says of it.
#include <fmt/format.h>

#include <fstream>

#include "effort.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/merkle.hpp"
#include "store/session.hpp"
#include "support.hpp"

using namespace store_test;
using Catch::Matchers::Contains;

namespace {

std::string trusted() { return vkey_text(book_key().verifier()); }

// A book of 600 entries with a checkpoint at 280 and one at its end.
struct TamperedBook {
  explicit TamperedBook(const std::string& sql) : path(folder.file("book")) {
    make_book(path, 280);
    {
      const auto book = opened(path);
      keep_checkpoint(*book);
      REQUIRE(append_numbers(*book, 280, 600));
      keep_checkpoint(*book);
    }
    if (!sql.empty()) tamper(path, sql);
  }

  [[nodiscard]] Verification verify(VerifyDepth depth = VerifyDepth::all) const {
    return verified(path, depth, trusted());
  }
  [[nodiscard]] std::string findings(VerifyDepth depth = VerifyDepth::all) const {
    return joined(verify(depth).findings);
  }

  Folder folder{true};
  std::string path;
};

std::vector<std::int64_t> named(const Verification& verification) {
  std::vector<std::int64_t> numbers;
  for (const Finding& finding : verification.findings) {
    if (finding.seq) numbers.push_back(*finding.seq);
  }
  return numbers;
}

}  // namespace

TEST_CASE("an untouched book has no findings and tells how its checkpoints fare") {
  const TamperedBook book("");
  const Verification verification = book.verify();
  CHECK(joined(verification.findings) == "");
  CHECK(verification.head.size == 600);
  CHECK(verification.head.root == opened(book.path)->head().root);
  CHECK(verification.head.last_received_ms == opened(book.path)->head().last_received_ms);
  REQUIRE(verification.checkpoints.size() == 2);
  CHECK(verification.checkpoints[0] == "checkpoint 280: signature and entries hold");
  CHECK(verification.checkpoints[1] == "checkpoint 600: signature and entries hold");
  const auto unsigned_look = verified(book.path, VerifyDepth::record, "");
  CHECK(joined(unsigned_look.findings) == "");
  CHECK_THAT(unsigned_look.checkpoints[0], Contains("no key was given"));
}

TEST_CASE("progress goes up to the number of entries") {
  const TamperedBook book("");
  std::int64_t last = 0;
  (void)opened(book.path)->verify({}, VerifyDepth::all, [&](std::int64_t done, std::int64_t total) {
    CHECK(total == 600);
    CHECK(done > last);
    last = done;
  });
  CHECK(last == 600);
}

TEST_CASE("any flipped bit of any byte of an entry is found and the entry is named") {
  const Folder folder(true);
  const std::string path = folder.file("book");
  make_book(path, 5);
  const std::size_t step = on_server() ? 97 : under_sanitizers ? 7 : 1;
  const auto write = [&](std::int64_t seq, const std::string& leaf) {
    tamper(path, fmt::format("UPDATE entry SET leaf = {} WHERE seq = {}", sql_bytes(leaf), seq));
  };
  for (const std::int64_t seq : {0, 2, 4}) {
    std::string leaf;
    opened(path)->each_leaf(seq, seq + 1, [&](std::int64_t, std::string_view bytes) { leaf = bytes; });
    for (std::size_t at = 1; at <= leaf.size(); at += step) {
      CAPTURE(seq, at);
      std::string changed = leaf;
      changed[at - 1] = static_cast<char>(changed[at - 1] ^ (1 << at % 8));
      write(seq, changed);
      CHECK(named(verified(path, VerifyDepth::record)) == std::vector<std::int64_t>{seq});
      CHECK(named(verified(path, VerifyDepth::all)) == std::vector<std::int64_t>{seq});
    }
    write(seq, leaf);
  }
  CHECK(joined(verified(path).findings) == "");
}

TEST_CASE("several changed entries are each named, in order") {
  const std::string longer = on_server() ? "leaf || ' '" : "CAST(leaf || ' ' AS BLOB)";
  const TamperedBook book("UPDATE entry SET leaf = " + longer + " WHERE seq IN (3, 255, 256, 599)");
  CHECK(named(book.verify()) == std::vector<std::int64_t>{3, 255, 256, 599});
  CHECK(named(book.verify(VerifyDepth::record)) == std::vector<std::int64_t>{3, 255, 256, 599});
}

TEST_CASE("a hash that was changed beside its entry names the entry") {
  const TamperedBook book("UPDATE entry SET hash = zeroblob(32) WHERE seq = 17");
  CHECK(named(book.verify(VerifyDepth::record)) == std::vector<std::int64_t>{17});
}

TEST_CASE("an entry rewritten together with its hash is found by the nodes and by the checkpoints") {
  const TamperedBook book("");
  std::string leaf;
  opened(book.path)->each_leaf(300, 301, [&](std::int64_t, std::string_view bytes) { leaf = bytes; });
  leaf.replace(leaf.find("\"plover\""), 8, "\"rookie\"");
  tamper(book.path, fmt::format("UPDATE entry SET leaf = {}, hash = {} WHERE seq = 300", sql_bytes(leaf),
                                sql_bytes(as_bytes(hash_leaf(leaf)))));
  const std::string findings = book.findings(VerifyDepth::record);
  CHECK_THAT(findings, Contains("the tree node over entries 256 to 511 is not what they give"));
  CHECK_THAT(findings, Contains("the entries from 280 to 600 are not those that the checkpoint of size 600"));
  const auto checkpoints = book.verify().checkpoints;
  CHECK_THAT(checkpoints[0], Contains("hold"));
  CHECK_THAT(checkpoints[1], Contains("are not those"));
}

TEST_CASE("truncation is found by what was left behind, and by a checkpoint if nothing was") {
  CHECK_THAT(TamperedBook("DELETE FROM entry WHERE seq >= 550").findings(VerifyDepth::record),
             Contains("the book has 550 entries, a checkpoint was made of 600"));
  const TamperedBook thorough("DELETE FROM entry WHERE seq >= 550; DELETE FROM checkpoint WHERE size > 550");
  CHECK(thorough.findings(VerifyDepth::record) == "");  // the tree nodes still fit: only the documents tell
  CHECK_THAT(thorough.findings(), Contains("document count container-emptied: differs"));
  CHECK_THAT(TamperedBook("DELETE FROM entry WHERE seq >= 400; DELETE FROM checkpoint WHERE size > 400")
                 .findings(VerifyDepth::record),
             Contains("400 entries make 1 tree nodes of level 8, 2 are kept"));
}

TEST_CASE("a deleted entry is named") {
  const TamperedBook book("DELETE FROM entry WHERE seq = 123");
  CHECK_THAT(book.findings(VerifyDepth::record), Contains("entry 123: is missing"));
  CHECK(named(book.verify()).front() == 123);
  CHECK_THAT(TamperedBook("DELETE FROM entry WHERE seq = 0").findings(), Contains("entry 0: is missing"));
}

TEST_CASE("entries that changed places are named") {
  const TamperedBook book(
      "UPDATE entry SET seq = -1 WHERE seq = 10; UPDATE entry SET seq = 10 WHERE seq = 11; "
      "UPDATE entry SET seq = 11 WHERE seq = -1");
  CHECK(named(book.verify(VerifyDepth::record)) == std::vector<std::int64_t>{10, 11});
}

TEST_CASE("an old entry that is played again at the end is named") {
  const TamperedBook book("INSERT INTO entry SELECT 600, randomblob(16), hash, leaf FROM entry WHERE seq = 5");
  CHECK(named(book.verify(VerifyDepth::record)) == std::vector<std::int64_t>{600});
}

TEST_CASE("an entry that was put under another id is named") {
  const TamperedBook book("UPDATE entry SET id = randomblob(16) WHERE seq = 42");
  CHECK(named(book.verify()) == std::vector<std::int64_t>{42});
}

TEST_CASE("changed, swapped, missing and invented documents are named, and rebuild puts them right") {
  const TamperedBook book(
      "UPDATE document SET body = (SELECT body FROM document WHERE kind = 'last' AND key = 'wren') "
      "WHERE kind = 'last' AND key = 'plover';"
      "UPDATE document SET live = 0 WHERE kind = 'container' AND key = 'lot-000000';"
      "DELETE FROM document WHERE kind = 'count' AND key = 'container-opened';"
      "INSERT INTO document VALUES('container', 'lot-free', '{}', 1)");
  CHECK(book.findings(VerifyDepth::record) == "");
  const std::string findings = book.findings();
  CHECK_THAT(findings, Contains("document last plover: differs from what the entries give"));
  CHECK_THAT(findings, Contains("document container lot-000000: differs"));
  CHECK_THAT(findings, Contains("document count container-opened: is missing"));
  CHECK_THAT(findings, Contains("document container lot-free: does not follow from the entries"));
  CHECK(book.verify().findings.size() == 4);
  std::vector<std::string> differing;
  CHECK(opened(book.path)->rebuild(differing, {}) == 4);
  CHECK(differing.size() == 4);
  CHECK(book.findings() == "");
}

TEST_CASE("changed, swapped and missing tree nodes are found") {
  CHECK_THAT(
      TamperedBook("UPDATE node SET hash = zeroblob(32) WHERE position = 1").findings(VerifyDepth::record),
      Contains("the tree node over entries 256 to 511"));
  CHECK_THAT(
      TamperedBook("CREATE TEMP TABLE old AS SELECT * FROM node;"
                   "UPDATE node SET hash = (SELECT hash FROM old WHERE old.position = 1 - node.position)")
          .findings(VerifyDepth::record),
      Contains("the tree node over entries 0 to 255"));
  CHECK_THAT(TamperedBook("DELETE FROM node WHERE position = 1").findings(VerifyDepth::record),
             Contains("1 are kept"));
}

TEST_CASE("a node deep in a large tree is checked against the one above it") {
  if (under_sanitizers) {
    SUCCEED("its size is all that it adds to the tests above");
    return;
  }
  const Folder folder(true);
  const std::string path = folder.file("book");
  make_book(path, 65'536 + 10);
  CHECK(joined(verified(path, VerifyDepth::record).findings) == "");
  tamper(path, "UPDATE node SET hash = zeroblob(32) WHERE level = 8 AND position = 77");
  CHECK_THAT(joined(verified(path, VerifyDepth::record).findings),
             Contains("the tree node over entries 0 to 65535 is not what they give"));
}

TEST_CASE("forged and misplaced checkpoints are found") {
  CHECK_THAT(
      TamperedBook("UPDATE checkpoint SET note = replace(note, '280', '281') WHERE size = 280").findings(),
      Contains("checkpoint 280"));
  CHECK_THAT(TamperedBook("UPDATE checkpoint SET size = 281 WHERE size = 280").findings(),
             Contains("it is kept as of size 281 but says 280"));
  CHECK_THAT(TamperedBook("UPDATE checkpoint SET note = 'not a note' WHERE size = 280").findings(),
             Contains("checkpoint 280"));
  const SignerKey stranger(origin, KeyKind::ed25519, KeyBytes{8});
  const TamperedBook book("");
  const auto strange = verified(book.path, VerifyDepth::record, vkey_text(stranger.verifier()));
  CHECK(strange.findings.size() == 2);
  CHECK(verified(book.path, VerifyDepth::record, "no key").findings.size() == 2);
}

TEST_CASE("a trigger that was taken away or weakened is found") {
  const TamperedBook book("");
  if (on_server())
    (void)superuser(book.path).execute("ALTER TABLE entry DISABLE TRIGGER entry_stays");
  else
    sqlite::Connection(book.path, sqlite::Access::read_write, {}, 0).execute("DROP TRIGGER entry_kept");
  CHECK_THAT(book.findings(VerifyDepth::record),
             Contains(on_server() ? "trigger entry_stays is not as this program makes it"
                                  : "trigger entry_kept is not as this program makes it"));
}

TEST_CASE("private bytes that were changed are found") {
  const Folder folder(true);
  const std::string path = folder.file("book");
  const std::string hash = to_hex(as_bytes(salted_hash(Salt{}, "a name")));
  created(path)->keep_private(hash, as_bytes(Salt{}), "a name");
  tamper(path, "UPDATE private SET bytes = " + sql_bytes("other"));
  CHECK_THAT(joined(verified(path).findings), Contains(hash));
}

TEST_CASE("entries that vanish while the book is open stop it from being written to") {
  const Folder folder(true);
  const std::string path = folder.file("book");
  make_book(path, 10);
  const auto book = opened(path);
  CHECK(book->head().size == 10);
  tamper(path, "DELETE FROM entry WHERE seq = 9");
  for (int attempt = 0; attempt < 2; ++attempt) {
    CHECK_THROWS_WITH(append_numbers(*book, 10, 11),
                      Contains("entries that were in the book are gone or changed"));
  }
}

TEST_CASE("a damaged file is a clear error or a finding, never a crash", "[file]") {
  const Folder folder(true);
  const std::string path = folder.file("book"), damaged = folder.file("damaged");
  make_book(path, 200);
  const auto size = std::filesystem::file_size(path);
  for (std::uintmax_t at = 100; at < size; at += size / (under_sanitizers ? 40 : 150)) {
    CAPTURE(at);
    std::filesystem::copy_file(path, damaged, std::filesystem::copy_options::overwrite_existing);
    {
      std::fstream file(damaged, std::ios::binary | std::ios::in | std::ios::out);
      file.seekp(static_cast<std::streamoff>(at));
      file.write("\xFF\x00\xFF\x00", 4);
    }
    const auto book = open_sqlite_book(damaged, fold, ticking_clock());
    if (!book) {
      CHECK_FALSE(book.error().message.empty());
      continue;
    }
    try {
      (void)(*book)->verify({}, VerifyDepth::all, {});
    } catch (const StorageFault& fault) {
      CHECK(fault.code() == ErrorCode::bad_book);
    }
  }
}
