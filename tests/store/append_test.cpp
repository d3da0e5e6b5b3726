// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <fstream>

#include "fogwright/book/encoding.hpp"
#include "fogwright/book/merkle.hpp"
#include "support.hpp"

using namespace store_test;
using nlohmann::json;

namespace {

Result<std::vector<Receipt>> append_one(Store& store, NewEntry entry) {
  return store.append([&](const Documents&, const Head&) -> Result<std::vector<NewEntry>> {
    return std::vector<NewEntry>{entry};
  });
}

std::int64_t counted(Store& store, const char* kind) {
  std::int64_t count = 0;
  store.read([&](const Documents& now, const Head&) {
    count = now.get("count", kind).value_or(json{{"n", 0}})["n"].get<std::int64_t>();
  });
  return count;
}

std::vector<std::string> containers(Store& store, bool live_only) {
  std::vector<std::string> keys;
  store.read([&](const Documents& now, const Head&) {
    now.each("container", live_only, [&](const std::string& key, const json&) { keys.push_back(key); });
  });
  return keys;
}

}  // namespace

TEST_CASE("entries get their numbers in order and can be read back by number and by id") {
  const Folder folder;
  const auto book = created(folder.file("book"));
  CHECK(book->origin() == origin);
  CHECK(book->head().size == 0);
  CHECK(book->head().root == empty_root());
  CHECK_FALSE(book->entry(0));

  const auto receipts = append_numbers(*book, 0, 3);
  REQUIRE(receipts);
  REQUIRE(receipts->size() == 3);
  for (std::int64_t n = 0; n < 3; ++n) {
    const Receipt& receipt = (*receipts)[static_cast<std::size_t>(n)];
    CHECK(receipt.seq == n);
    CHECK(receipt.id == id_number(n));
    CHECK_FALSE(receipt.already_there);
    CHECK(book->find(id_number(n)) == n);
    const auto entry = book->entry(n);
    REQUIRE(entry);
    CHECK(entry->id == id_number(n));
    CHECK(entry->body["microlitres"] == 946'353 + n);
    CHECK(entry->happened_ms == start_ms + n);
  }
  CHECK_FALSE(book->find(id_number(3)));
}

TEST_CASE("the head is the tree over the exact bytes that were stored, also after opening again") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 700);
  const auto book = opened(path);
  CompactRange tree;
  std::int64_t next = 0;
  book->each_leaf(0, 700, [&](std::int64_t seq, std::string_view leaf) {
    CHECK(seq == next++);
    tree.append(hash_leaf(leaf));
  });
  CHECK(next == 700);
  CHECK(book->head().size == 700);
  CHECK(book->head().root == tree.root());
  CHECK(book->head().last_received_ms == book->entry(699)->received_ms);
  REQUIRE(append_numbers(*book, 700, 701));
  std::int64_t visited = 0;
  book->each_leaf(700, 9000, [&](std::int64_t seq, std::string_view leaf) {
    CHECK(seq == 700);
    ++visited;
    tree.append(hash_leaf(leaf));
  });
  CHECK(visited == 1);
  CHECK(book->head().root == tree.root());
}

TEST_CASE("an entry that is handed in again gets its receipt again and nothing is written") {
  const Folder folder;
  const auto book = created(folder.file("book"));
  REQUIRE(append_numbers(*book, 0, 2));
  const Head before = book->head();
  const auto again = append_numbers(*book, 1, 3);
  REQUIRE(again);
  CHECK((*again)[0].already_there);
  CHECK((*again)[0].seq == 1);
  CHECK_FALSE((*again)[1].already_there);
  CHECK((*again)[1].seq == 2);
  CHECK(book->head().size == before.size + 1);
  CHECK(counted(*book, "container-opened") == 2);
  require_sound(*book);
}

TEST_CASE("one id for two different entries is refused, by name, and all of the batch with it") {
  const Folder folder;
  const auto book = created(folder.file("book"));
  REQUIRE(append_numbers(*book, 0, 2));
  NewEntry other = entry_number(1);
  other.body["microlitres"] = 1;
  const auto refused = book->append([&](const Documents&, const Head&) -> Result<std::vector<NewEntry>> {
    return std::vector<NewEntry>{entry_number(7), other};
  });
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::bad_entry);
  CHECK(refused.error().message.find(uuid_text(id_number(1))) != std::string::npos);
  CHECK(refused.error().where == "id of entry 2 of 2");
  CHECK(book->head().size == 2);
  CHECK_FALSE(book->find(id_number(7)));
  // In one batch, too.
  other.id = id_number(8);
  const auto twice = book->append([&](const Documents&, const Head&) -> Result<std::vector<NewEntry>> {
    return std::vector<NewEntry>{entry_number(8), other};
  });
  REQUIRE_FALSE(twice);
  CHECK(twice.error().code == ErrorCode::bad_entry);
  require_sound(*book);
}

TEST_CASE("an entry that does not follow the format is refused and changes nothing") {
  const Folder folder;
  const auto book = created(folder.file("book"));
  NewEntry bad = entry_number(0);
  bad.body["share"] = 0.5;
  const auto refused = append_one(*book, bad);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().code == ErrorCode::bad_entry);
  CHECK(refused.error().where == "/body/share");
  CHECK(book->head().size == 0);
  CHECK(counted(*book, "container-opened") == 0);
  REQUIRE(append_numbers(*book, 0, 1));
}

TEST_CASE("what decide refuses with is what append gives, and it sees documents and head as they are") {
  const Folder folder;
  const auto book = created(folder.file("book"));
  REQUIRE(append_numbers(*book, 0, 2));
  const auto refused =
      book->append([&](const Documents& now, const Head& head) -> Result<std::vector<NewEntry>> {
        CHECK(head.size == 2);
        CHECK(now.get("count", "container-opened")->at("n") == 2);
        CHECK(now.get("count", "nothing") == std::nullopt);
        return fail(ErrorCode::gate_closed, "not yet", "gate", "wait");
      });
  REQUIRE_FALSE(refused);
  CHECK(refused.error() == Error{ErrorCode::gate_closed, "not yet", "gate", "wait"});
  CHECK(book->head().size == 2);
}

TEST_CASE("an exception out of decide leaves the book as it was and usable") {
  const Folder folder;
  const auto book = created(folder.file("book"));
  CHECK_THROWS_AS(book->append([](const Documents&, const Head&) -> Result<std::vector<NewEntry>> {
    throw std::logic_error("a defect of the caller");
  }),
                  std::logic_error);
  REQUIRE(append_numbers(*book, 0, 1));
  require_sound(*book);
}

TEST_CASE("append from within decide is refused") {
  const Folder folder;
  const auto book = created(folder.file("book"));
  const auto outer = book->append([&](const Documents&, const Head&) -> Result<std::vector<NewEntry>> {
    const auto inner = append_numbers(*book, 0, 1);
    REQUIRE_FALSE(inner);
    return tl::make_unexpected(inner.error());
  });
  REQUIRE_FALSE(outer);
  CHECK(outer.error().code == ErrorCode::internal_fault);
}

TEST_CASE("a document that is not live is left out where only live ones are asked for") {
  const Folder folder;
  const auto book = created(folder.file("book"));
  REQUIRE(append_numbers(*book, 0, 600));
  // Of each three entries two open a container and one empties one of them.
  CHECK(containers(*book, false).size() == 400);
  const auto live = containers(*book, true);
  CHECK(live.size() == 200);
  CHECK(std::is_sorted(live.begin(), live.end()));
  CHECK(live.front() == "lot-000000");
  CHECK(live.back() == "lot-000597");
}

TEST_CASE("a reading view stays as it is while others write") {
  const Folder folder;
  const std::string path = folder.file("book");
  const auto book = created(path);
  const auto other = opened(path);
  REQUIRE(append_numbers(*book, 0, 4));
  book->read([&](const Documents& now, const Head& head) {
    CHECK(head.size == 4);
    REQUIRE(append_numbers(*other, 4, 8));
    CHECK(now.get("count", "container-opened")->at("n") == 3);
    CHECK(book->head().size == 4);
  });
  CHECK(book->head().size == 8);
  CHECK(counted(*book, "container-opened") == 6);
  REQUIRE(append_numbers(*book, 8, 9));
  require_sound(*book);
}

TEST_CASE("stored nodes give the proofs of the tree") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 1337);
  const auto book = opened(path);
  const Head head = book->head();
  const NodeSource nodes = [&](NodeId id) -> Result<Hash> {
    const auto hash = book->node(id.level, static_cast<std::int64_t>(id.index));
    if (!hash) return fail(ErrorCode::bad_book, "no node");
    return *hash;
  };
  CHECK(root_from(nodes, 1337) == head.root);
  for (const std::uint64_t index : {0U, 255U, 256U, 700U, 1279U, 1280U, 1336U}) {
    Hash leaf{};
    book->each_leaf(static_cast<std::int64_t>(index), static_cast<std::int64_t>(index) + 1,
                    [&](std::int64_t, std::string_view bytes) { leaf = hash_leaf(bytes); });
    const auto proof = inclusion_proof(nodes, index, 1337);
    REQUIRE(proof);
    CHECK(verify_inclusion(index, 1337, leaf, *proof, head.root));
  }
  for (const std::uint64_t old_size : {1U, 255U, 256U, 511U, 1024U, 1336U}) {
    const auto proof = consistency_proof(nodes, old_size, 1337);
    REQUIRE(proof);
    CHECK(verify_consistency(old_size, *root_from(nodes, old_size), 1337, head.root, *proof));
  }
  CHECK_FALSE(book->node(0, 1337));
  CHECK_FALSE(book->node(11, 0));
  CHECK_FALSE(book->node(-1, 0));
  CHECK_FALSE(book->node(63, 0));
  CHECK_FALSE(book->node(8, std::int64_t{1} << 60));
}

TEST_CASE("private bytes live beside the record until they are erased, and leave no trace in the files") {
  const Folder folder;
  const std::string path = folder.file("book");
  const std::string secret = "Wrenfield Lane 12, Tarn Vale";
  const Salt salt{1, 2, 3};
  const std::string hash = to_hex(as_bytes(salted_hash(salt, secret)));
  const auto holds_secret = [&] {
    for (const char* ending : {"", "-wal"}) {
      std::ifstream file(path + ending, std::ios::binary);
      const std::string bytes{std::istreambuf_iterator<char>(file), {}};
      if (bytes.find(secret) != std::string::npos) return true;
    }
    return false;
  };
  const auto book = created(path);
  CHECK_FALSE(book->private_bytes(hash));
  book->keep_private(hash, as_bytes(salt), secret);
  book->keep_private(hash, as_bytes(salt), secret);
  CHECK(book->private_bytes(hash) == secret);
  CHECK((on_server() || holds_secret()));
  CHECK_THROWS_AS(book->keep_private(hash, as_bytes(salt), "others"), StorageFault);
  require_sound(*book);
  CHECK(book->erase_private(hash));
  CHECK_FALSE(book->erase_private(hash));
  CHECK_FALSE(book->private_bytes(hash));
  CHECK_FALSE(holds_secret());
  require_sound(*book);
}

TEST_CASE("private bytes kept while deciding stand or fall with the entries") {
  const Folder folder;
  const auto book = created(folder.file("book"));
  const std::string hash = to_hex(as_bytes(salted_hash(Salt{}, "a name")));
  for (const bool refuse : {true, false}) {
    const auto done = book->append([&](const Documents&, const Head&) -> Result<std::vector<NewEntry>> {
      book->keep_private(hash, as_bytes(Salt{}), "a name");
      if (refuse) return fail(ErrorCode::gate_closed, "no");
      return std::vector<NewEntry>{entry_number(0)};
    });
    CHECK(done.has_value() == !refuse);
    CHECK(book->private_bytes(hash).has_value() == !refuse);
  }
}
