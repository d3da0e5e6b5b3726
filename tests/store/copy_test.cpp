// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include <fstream>

#include "support.hpp"

using namespace store_test;
namespace fs = std::filesystem;

TEST_CASE("a backup is a whole book of the moment it was made") {
  const Folder folder;
  const std::string path = folder.file("book"), copy = folder.file("copy");
  make_book(path, 400);
  const auto book = opened(path);
  keep_checkpoint(*book);
  std::int64_t last = 0, total = 0;
  book->backup_to(copy, [&](std::int64_t done, std::int64_t of) {
    CHECK(done >= last);
    last = done;
    total = of;
  });
  CHECK(last > 0);
  CHECK(last == total);
  const Head then = book->head();
  REQUIRE(append_numbers(*book, 400, 410));
  const auto restored = opened(copy);
  CHECK(restored->origin() == origin);
  CHECK(restored->head().root == then.root);
  CHECK(restored->checkpoints() == book->checkpoints());
  REQUIRE(append_numbers(*restored, 400, 401));
  CHECK((fs::status(copy).permissions() & fs::perms::mask) == (fs::perms::owner_read | fs::perms::owner_write));
}

TEST_CASE("a backup made while another process appends holds together") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 300);
  const auto book = opened(path), other = opened(path);
  std::int64_t next = 300;
  for (int round = 0; round < 5; ++round) {
    const std::string copy = folder.file(fmt::format("copy-{}", round));
    book->backup_to(copy, [&](std::int64_t, std::int64_t) {
      REQUIRE(append_numbers(*other, next, next + 2, 900));
      next += 2;
    });
    const auto restored = opened(copy);
    CHECK(restored->head().size <= next);
    require_sound(*restored);
  }
  require_sound(*book);
}

TEST_CASE("a backup overwrites nothing and leaves nothing behind when it fails") {
  const Folder folder;
  const std::string path = folder.file("book");
  make_book(path, 3);
  const auto book = opened(path);
  std::ofstream(folder.file("taken")) << "something else";
  const auto files = [&] { return std::distance(fs::directory_iterator(folder.path()), {}); };
  const auto before = files();
  const auto code_of = [&](const std::string& target) {
    try {
      book->backup_to(target, {});
    } catch (const StorageFault& fault) {
      CHECK_FALSE(fault.hint().empty());
      return fault.code();
    }
    return ErrorCode::internal_fault;
  };
  CHECK(code_of(folder.file("taken")) == ErrorCode::already_exists);
  if (!on_server()) CHECK(code_of(path) == ErrorCode::already_exists);
  CHECK(code_of(folder.file("none/copy")) == ErrorCode::file_fault);
  CHECK_THROWS_AS(
      book->backup_to(folder.file("stopped"), [](std::int64_t, std::int64_t) { throw std::logic_error(""); }),
      std::logic_error);
  CHECK(files() == before);
  CHECK(fs::file_size(folder.file("taken")) == 14);
}
