// SPDX-License-Identifier: Apache-2.0
// The commands on a book that is kept on a PostgreSQL server; run beside one by scripts/with-postgres.
#include <unistd.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>

#include "ran.hpp"

using namespace fogwright::test;
using Catch::Matchers::Contains;
namespace fs = std::filesystem;

namespace {

/// A machine with a home folder of its own, and the address of a book that no other test has.
struct Van {
  Van() {
    std::string name = (fs::temp_directory_path() / "fogwright-van-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for the test");
    home = name;
    address = "postgresql:///?schema=van_" + std::to_string(::getpid()) + "_" + std::to_string(++count);
    machine.environment = {{"HOME", home}, {"FOGWRIGHT_BOOK", address}, {"FOGWRIGHT_BY", "owner"}};
  }
  ~Van() {
    std::error_code ignored;
    fs::remove_all(home, ignored);
  }
  Van(const Van&) = delete;
  Van& operator=(const Van&) = delete;

  Ran run(std::vector<std::string> words) { return machine.run(std::move(words)); }
  [[nodiscard]] std::vector<fs::path> keys() const {
    std::vector<fs::path> found;
    for (const auto& file : fs::directory_iterator(fs::path(home) / ".local/share/fogwright/keys"))
      found.push_back(file.path());
    return found;
  }

  inline static int count = 0;
  std::string home, address;
  Machine machine;
};

}  // namespace

TEST_CASE("a book on a server is made, written to, signed, proved and verified like any other", "[.server]") {
  Van van;
  CHECK(van.run({"book", "verify"}).status == 1);  // there is none
  const Ran made = van.run({"book", "create", "--origin", "books.example/server"});
  CHECK(made.err == "");
  REQUIRE(made.status == 0);
  CHECK_THAT(made.out, Contains("/.local/share/fogwright/keys/"));
  CHECK(van.keys().size() == 2);
  CHECK(van.run({"book", "create", "--origin", "books.example/server"}).status == 1);
  REQUIRE(van.run({"crew", "enrol", "owner", "--role", "owner"}).status == 0);
  CHECK(van.run({"book", "checkpoint"}).status == 0);
  CHECK(van.run({"book", "prove", "0"}).status == 0);
  const Ran verified = van.run({"book", "verify", "--json"});
  CHECK(verified.status == 0);
  CHECK(verified.json()["valid"] == true);
  CHECK(verified.json()["checkpoints"][0] == "checkpoint 1: signature and entries hold");
  CHECK(van.run({"book", "rebuild"}).status == 0);
}

TEST_CASE("a book is copied to a file and back to the server, and is backed up into a file", "[.server]") {
  Van van, other;
  REQUIRE(van.run({"book", "create", "--origin", "books.example/server"}).status == 0);
  REQUIRE(van.run({"crew", "enrol", "owner", "--role", "owner"}).status == 0);
  const std::string file = van.home + "/copy.db", backup = van.home + "/backup.db";
  const Ran down = van.run({"book", "copy", van.address, file, "--json"});
  CHECK(down.err == "");
  REQUIRE(down.status == 0);
  CHECK(down.json()["root"] == van.run({"book", "verify", "--json"}).json()["root"]);
  CHECK(van.run({"book", "copy", van.address, file}).status == 1);  // it is there now
  const Ran up = van.run({"book", "copy", file, other.address});
  REQUIRE(up.status == 0);
  CHECK_THAT(up.out, Contains("the keys are not copied"));
  CHECK(van.run({"book", "backup", backup}).status == 0);
  CHECK(van.run({"book", "verify", "--book", backup, "--quick"}).status == 0);
  const Ran again = van.run({"book", "backup", backup, "--json"});  // a fault of the storage, not a defect
  CHECK(again.status == 1);
  CHECK(again.error()["code"] == "already-exists");
}

TEST_CASE("a server that does not answer is a fault of the storage, told without the password", "[.server]") {
  Van van;
  van.machine.environment["FOGWRIGHT_BOOK"] = "postgresql://anna:s3cr3t@/books?host=/nowhere";
  const Ran refused = van.run({"book", "verify", "--json"});
  CHECK(refused.status == 4);
  CHECK(refused.error()["code"] == "storage-fault");
  CHECK_THAT(refused.err, !Contains("s3cr3t"));
  CHECK(van.run({"book", "create", "--origin", "books.example/server"}).status == 4);
  van.machine.environment["FOGWRIGHT_BOOK"] = "postgresql://anna:s3cr3t@x@/books";
  const Ran unreadable = van.run({"book", "verify"});
  CHECK(unreadable.status == 2);
  CHECK_THAT(unreadable.err, !Contains("s3cr3t"));
}

TEST_CASE("a book that could not be made leaves no key behind", "[.server]") {
  Van van;
  CHECK(van.run({"book", "create", "--origin", "books.example/server", "--grant-to", "no such role"}).status !=
        0);
  CHECK(van.keys().empty());
  CHECK(van.run({"book", "create", "--origin", "books.example/server", "--grant-to", "x", "--book",
                 van.home + "/b"})
            .status == 2);
}
