// SPDX-License-Identifier: Apache-2.0
// A firm's book and a witness at the office, through the command line.
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "ran.hpp"

using namespace fogwright::test;
namespace fs = std::filesystem;

namespace {

std::string text_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// A book with two entries, and the office's key.
class Office {
 public:
  Office() {
    folder_ = (fs::temp_directory_path() / "fogwright-witness-XXXXXX").string();
    REQUIRE(mkdtemp(folder_.data()) != nullptr);
    machine.environment = {{"FOGWRIGHT_BOOK", file("shop.db")}, {"FOGWRIGHT_BY", "ash"}};
    done({"book", "create", "--origin", "books.example/quillfen"});
    done({"crew", "enrol", "ash", "--role", "owner"});
    done({"witness", "key", "--name", "office.example/witness", "--key", file("office.key")});
    more();
  }
  ~Office() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  Office(const Office&) = delete;
  Office& operator=(const Office&) = delete;

  Ran run(std::vector<std::string> words) { return machine.run(std::move(words)); }
  Ran done(std::vector<std::string> words) {
    Ran ran = run(std::move(words));
    INFO(ran.err);
    REQUIRE(ran.status == 0);
    return ran;
  }
  void more() { done({"crew", "enrol", "tech-" + std::to_string(++enrolled_), "--role", "technician"}); }

  /// A new file name.
  std::string request() {
    std::string name = file("request-" + std::to_string(++files_));
    done({"book", "checkpoint", "--witness", office(), "--out", name});
    return name;
  }
  Ran sign(const std::string& request_file, std::vector<std::string> rest = {}) {
    std::vector<std::string> words = {
        "witness", "sign", request_file, "--vkey", file("shop.db.vkey"), "--key", file("office.key")};
    words.insert(words.end(), rest.begin(), rest.end());
    return run(words);
  }
  std::string signed_file(const std::string& request_file, std::vector<std::string> rest = {}) {
    std::string name = request_file + ".cosigned";
    rest.insert(rest.end(), {"--out", name});
    const Ran ran = sign(request_file, rest);
    INFO(ran.err);
    REQUIRE(ran.status == 0);
    return name;
  }
  void take(const std::string& name) { done({"book", "cosigned", name, "--witness", office()}); }
  Ran verify(std::vector<std::string> rest) {
    rest.insert(rest.begin(), {"book", "verify", "--json"});
    return run(rest);
  }
  [[nodiscard]] std::string office() const { return file("office.key.vkey"); }
  [[nodiscard]] std::string file(const std::string& name) const { return folder_ + "/" + name; }

  Machine machine;

 private:
  std::string folder_;
  int enrolled_ = 0, files_ = 0;
};

}  // namespace

TEST_CASE("A witness cosigns what goes on; the book takes it in and shows it") {
  Office office;
  office.take(office.signed_file(office.request(), {"--first"}));
  office.machine.pass(60'000);
  office.more();
  const std::string request = office.request();
  CHECK(text_of(request).starts_with("old 2\n"));
  const std::string cosigned = office.signed_file(request);
  office.take(cosigned);
  office.more();
  const Ran verified = office.verify({"--witness", office.office(), "--against", cosigned});
  CHECK(verified.status == 0);
  const auto witness = verified.json().at("witnesses").at(0);
  CHECK(witness.at("name") == "office.example/witness");
  CHECK(witness.at("size") == 3);
  CHECK(witness.at("at_ms") == 1'767'225'660'000);
  CHECK(verified.json().at("held").at(0).at("size") == 3);
}

TEST_CASE("Signing the same book once more loses no cosignature") {
  Office office;
  const std::string cosigned = office.signed_file(office.request(), {"--first"});
  office.take(cosigned);
  CHECK(office.done({"book", "checkpoint"}).out == text_of(cosigned));
  CHECK(
      office.done({"book", "cosigned", cosigned, "--witness", office.office(), "--json"}).json().at("added") ==
      0);
  CHECK(office.done({"book", "prove", "0"}).out.find("office.example/witness") != std::string::npos);
}

TEST_CASE("A firm that writes its past anew finds no witness for it, and fails against what is held") {
  Office office;
  fs::copy(office.file("shop.db"), office.file("other.db"));
  office.more();
  const std::string cosigned = office.signed_file(office.request(), {"--first"});
  // The other copy gets another second past, signed with the same key.
  office.machine.environment["FOGWRIGHT_BOOK"] = office.file("other.db");
  office.machine.environment["FOGWRIGHT_KEY"] = office.file("shop.db.key");
  fs::copy(office.file("shop.db.vkey"), office.file("other.db.vkey"));
  office.done({"crew", "enrol", "somebody", "--role", "technician"});
  office.done({"book", "checkpoint", "--out", office.file("fork")});
  const Ran forked = office.sign(office.file("fork"), {"--json"});
  CHECK(forked.status == 3);
  CHECK(forked.error().at("code") == "bad-book");
  office.more();
  office.done({"book", "checkpoint", "--since", "3", "--out", office.file("longer-fork")});
  CHECK(office.sign(office.file("longer-fork")).status == 3);
  CHECK(office.verify({"--against", cosigned}).status == 3);
  CHECK(office.run({"book", "cosigned", cosigned, "--witness", office.office()}).status == 3);
  CHECK(office.verify({}).status ==
        0);  // by its own account all is well: that is why somebody else must hold it
}

TEST_CASE("A witness tells a lost memory from a new book") {
  Office office;
  const std::string request = office.request();
  CHECK(office.sign(request).status == 1);
  office.take(office.signed_file(request, {"--first"}));
  CHECK(office.sign(request, {"--first"}).status == 1);
  CHECK(office.sign(request).status == 0);  // the same once more, at a later time
  fs::remove(office.file("office.key.cosigned"));
  office.more();
  const std::string next = office.request();
  CHECK(office.sign(next).status == 1);
  CHECK(office.sign(next, {"--first"}).status == 1);  // its proof goes on from what the memory does not have
}

TEST_CASE("A witness asks for the proof that it needs") {
  Office office;
  office.signed_file(office.request(), {"--first"});
  office.more();
  office.done({"book", "checkpoint", "--out", office.file("bare")});
  const Ran refused = office.sign(office.file("bare"), {"--json"});
  CHECK(refused.status == 2);
  CHECK(refused.error().at("hint") == "ask for: fogwright book checkpoint --since 2");
  office.done({"book", "checkpoint", "--since", "2", "--out", office.file("shown")});
  office.signed_file(office.file("shown"));
}

TEST_CASE("A damaged memory stops the witness") {
  Office office;
  const std::string request = office.request();
  office.signed_file(request, {"--first"});
  const std::string memory = office.file("office.key.cosigned");
  const std::string text = text_of(memory);
  std::ofstream(memory, std::ios::binary | std::ios::trunc) << text.substr(0, text.size() / 2);
  CHECK(office.sign(request).status == 2);
  CHECK(office.sign(request, {"--first"}).status == 2);
}

TEST_CASE("A demand for a witness who has cosigned nothing is not met") {
  Office office;
  const Ran bare = office.verify({"--witness", office.office()});
  CHECK(bare.status == 3);
  CHECK(bare.json().at("valid") == false);
  CHECK(office.run({"book", "verify", "--witness", office.file("shop.db.vkey")}).status == 2);
  CHECK(office.run({"book", "cosigned", office.request(), "--witness", office.file("shop.db.vkey")}).status ==
        2);
  CHECK(office.run({"book", "cosigned", office.request()}).status == 2);
}

TEST_CASE("One witness keeps the books of several firms apart") {
  Office office;
  office.take(office.signed_file(office.request(), {"--first"}));
  office.machine.environment["FOGWRIGHT_BOOK"] = office.file("second.db");
  office.done({"book", "create", "--origin", "books.example/second"});
  const std::string request = office.file("second-request");
  office.done({"book", "checkpoint", "--out", request});
  const std::vector<std::string> words = {
      "witness", "sign", request, "--key", office.file("office.key"), "--vkey", office.file("second.db.vkey")};
  CHECK(office.run(words).status == 1);
  std::vector<std::string> first = words;
  first.emplace_back("--first");
  office.done(first);
  office.machine.environment["FOGWRIGHT_BOOK"] = office.file("shop.db");
  office.more();
  office.take(office.signed_file(office.request()));
}
