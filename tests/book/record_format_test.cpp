// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>

#include "book/reference.hpp"
#include "book/worked_example.hpp"
#include "fogwright/book/verifier.hpp"

using namespace fogwright;

TEST_CASE("The worked example of docs/record-format.md is what the code makes", "[format]") {
  const std::string document = reference::file("../../docs/record-format.md");
  for (const auto& [name, fragment] : worked_example::fragments()) {
    CAPTURE(name, fragment);
    CHECK(document.find("\n" + fragment) != std::string::npos);
  }
}

TEST_CASE("The worked example verifies", "[format]") {
  const auto fragments = worked_example::fragments();
  const std::vector<std::string> leaves = worked_example::leaves();
  std::string vkey = fragments.at("book.vkey");
  vkey.pop_back();
  const VerifierKey key = read_vkey(vkey).value();
  const auto opened = open_checkpoint(fragments.at("book.checkpoint"), key);
  REQUIRE(opened);
  BookVerifier verifier(worked_example::origin, {.deep = true});
  verifier.expect(opened->checkpoint);
  verifier.feed(std::vector<StoredLeaf>{{leaves[0]}, {leaves[1]}, {leaves[2]}});
  CHECK(verifier.finish().ok());
  CHECK(verify_proof(read_proof(fragments.at("entry.tlog-proof")).value(), leaves[1], key));
}
