// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>

#include "fogwright/desk/fold.hpp"
#include "fogwright/store.hpp"
#include "ran.hpp"

namespace fogwright::test {

/// A new book in a folder of its own, and the machine that ash works at.
class BookDesk {
 public:
  BookDesk() {
    folder_ = (std::filesystem::temp_directory_path() / "fogwright-desk-XXXXXX").string();
    REQUIRE(mkdtemp(folder_.data()) != nullptr);
    machine_.environment = {{"FOGWRIGHT_BOOK", folder_ + "/book.db"}, {"FOGWRIGHT_BY", "ash"}};
    REQUIRE(create_sqlite_book(folder_ + "/book.db", "books.example/quillfen", fold,
                               [this] { return machine_.now_ms; }));
  }
  ~BookDesk() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  BookDesk(const BookDesk&) = delete;
  BookDesk& operator=(const BookDesk&) = delete;

  Ran run(std::vector<std::string> words) { return machine_.run(std::move(words)); }
  /// Runs and needs it to be done.
  Ran done(std::vector<std::string> words) {
    Ran ran = run(std::move(words));
    INFO(ran.err);
    REQUIRE(ran.status == 0);
    return ran;
  }
  [[nodiscard]] Machine& machine() { return machine_; }
  [[nodiscard]] std::string file(const std::string& name) const { return folder_ + "/" + name; }

  /// Crew, places and labels of the demo world.
  void set_up() {
    done({"crew", "enrol", "ash", "--role", "owner", "--role", "safety-officer"});
    done({"crew", "enrol", "rowan", "--role", "technician"});
    done({"place", "add", "shop", "--type", "shop"});
    done({"place", "add", "heron", "--type", "van"});
    done({"product", "adopt", fenmist});
    done({"product", "adopt", brackwater});
  }
  void receive(const std::string& id, const std::string& expires) {
    done({"stock", "receive", "fenmist-rtu", "--id", id, "--lot", "A1", "--size", "1 gal", "--expires", expires,
          "--place", "heron", "--cost", "84.50"});
  }

 private:
  std::string folder_;
  Machine machine_;
};

}  // namespace fogwright::test
