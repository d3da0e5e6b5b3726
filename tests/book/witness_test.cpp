// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/witness.hpp"

#include <catch2/catch.hpp>

#include "book/reference.hpp"
#include "book/sample_book.hpp"
#include "book/stored_tree.hpp"

using namespace fogwright;

namespace {

constexpr std::uint64_t noon = 1'700'000'000;

/// A book of 20 entries as its owner sees it.
struct Book {
  std::vector<std::string> leaves = sample::leaves(20);
  SignerKey key = reference::log_key();

  [[nodiscard]] Checkpoint at(std::size_t size) const { return sample::checkpoint(leaves, size); }
  [[nodiscard]] std::string note(std::size_t size) const { return sign_checkpoint(at(size), key).value(); }
  [[nodiscard]] WitnessRequest request(std::size_t from, std::size_t to) const {
    WitnessRequest made{from, {}, note(to)};
    if (from > 0) made.proof = consistency_proof(StoredTree(leaves).source(), from, to).value();
    return made;
  }
};

Result<NoteSignature> ask(const WitnessRequest& request, const std::optional<Checkpoint>& seen) {
  return witness_checkpoint(request, reference::log_key().verifier(), seen, reference::witness_key(), noon);
}

std::string cosigned(const Book& book, std::size_t size) {
  return add_signature(book.note(size), ask(book.request(0, size), {}).value()).value();
}

const VerifierKey witness = reference::witness_key().verifier();
const VerifierKey stranger = SignerKey("else.example/w", KeyKind::cosignature, reference::seed(3)).verifier();

}  // namespace

TEST_CASE("The published example of a request is read and comes out byte for byte", "[witness]") {
  // Source: C2SP tlog-witness v1.0.0, "Example request body" of add-checkpoint.
  const std::string example =
      "old 20852014\n"
      "PlRNCrwHpqhGrupue0L7gxbjbMiKA9temvuZZDDpkaw=\n"
      "jrJZDmY8Y7SyJE0MWLpLozkIVMSMZcD5kvuKxPC3swk=\n"
      "5+pKlUdi2LeF/BcMHBn+Ku6yhPGNCswZZD1X/6QgPd8=\n"
      "/6WVhPs2CwSsb5rYBH5cjHV/wSmA79abXAwhXw3Kj/0=\n"
      "\n"
      "example.com/behind-the-sofa\n"
      "20852163\n"
      "CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n"
      "\n"
      "\xE2\x80\x94 example.com/behind-the-sofa "
      "Az3grlgtzPICa5OS8npVmf1Myq/5IZniMp+ZJurmRDeOoRDe4URYN7u5/Zhcyv2q1gGzGku9nTo+zyWE+xeMcTOAYQ8=\n"
      "\xE2\x80\x94 example.com/behind-the-sofa "
      "opLqBQsREYCgu6xQkYQwJr9fo45a62DN9EdmHXnZdXNqlcVGlCum2Wks+49/V6267UEjw6QUXTS5Rovnzv++qbSzm9Q=\n";
  const auto request = read_request(example);
  REQUIRE(request);
  CHECK(request->old_size == 20852014);
  CHECK(request->proof.size() == 4);
  const auto note = read_note(request->checkpoint);
  REQUIRE(note);
  CHECK(note->signatures.size() == 2);
  CHECK(read_checkpoint(note->text)->size == 20852163);
  CHECK(request_text(*request) == example);
}

TEST_CASE("A checkpoint alone is a request from nothing; damaged requests are refused", "[witness]") {
  const Book book;
  CHECK(read_request(book.note(5)) == WitnessRequest{0, {}, book.note(5)});
  const std::string good = request_text(book.request(5, 9));
  CHECK(read_request(good) == book.request(5, 9));
  for (const char* bad : {"old -1\n\nnote", "old 01\n\nnote", "old 5\nnot base64\n\nnote",
                          "old 5\nAAAA\n\nnote", "old 5\n\n", "old 5\n"})
    CHECK(read_request(bad).error().code == ErrorCode::not_understood);
  std::string long_one = "old 5\n";
  for (int i = 0; i < 64; ++i) long_one += to_base64(std::string(32, 'x')) + "\n";
  CHECK_FALSE(read_request(long_one + "\nnote"));
}

TEST_CASE("A witness cosigns a book that goes on, at every pair of sizes", "[witness]") {
  const Book book;
  for (std::size_t from = 1; from <= 20; ++from) {
    for (std::size_t to = from; to <= 20; ++to) {
      const auto signature = ask(book.request(from, to), book.at(from));
      REQUIRE(signature);
      const auto note = add_signature(book.note(to), *signature);
      const auto opened = open_checkpoint(*note, book.key.verifier(), std::span(&witness, 1));
      REQUIRE(opened);
      CHECK(opened->witnesses.at(0).unix_seconds == noon);
    }
  }
  CHECK(ask(book.request(0, 7), {}));
  CHECK(ask(book.request(0, 7), book.at(0)));  // everything goes on from nothing
}

TEST_CASE("A witness refuses a book that shrank, forked, or does not show that it goes on", "[witness]") {
  const Book book;
  Book forged;
  forged.leaves.at(3) = forged.leaves.at(4);
  CHECK(ask(book.request(0, 8), book.at(9)).error().code == ErrorCode::bad_book);
  CHECK(ask(forged.request(0, 9), book.at(9)).error().code == ErrorCode::bad_book);
  CHECK(ask(forged.request(9, 12), book.at(9)).error().code == ErrorCode::bad_book);
  WitnessRequest honest_proof = book.request(9, 12);
  honest_proof.checkpoint = forged.note(12);
  CHECK(ask(honest_proof, book.at(9)).error().code == ErrorCode::bad_book);
  const auto unshown = ask(book.request(0, 12), book.at(9));
  CHECK(unshown.error().code == ErrorCode::missing_value);
  CHECK(unshown.error().hint.find("--since 9") != std::string::npos);
  CHECK(ask(book.request(8, 12), book.at(9)).error().code == ErrorCode::missing_value);
}

TEST_CASE("A witness without memory refuses a proof from what it has not seen", "[witness]") {
  CHECK(ask(Book().request(9, 12), {}).error().code == ErrorCode::not_found);
}

TEST_CASE("A witness cosigns only what the book's own key has signed", "[witness]") {
  Book other;
  other.key.seed = reference::seed(3);
  CHECK(ask(other.request(0, 5), {}).error().code == ErrorCode::bad_book);
}

TEST_CASE("A book takes in a witness's cosignature once and nobody else's", "[witness]") {
  const Book book;
  const std::string kept = book.note(9), handed_in = cosigned(book, 9);
  const auto key = book.key.verifier();
  CHECK(take_cosignatures(kept, handed_in, key, std::span(&witness, 1)) == handed_in);
  CHECK(take_cosignatures(handed_in, handed_in, key, std::span(&witness, 1)) == handed_in);
  CHECK(take_cosignatures(kept, handed_in, key, std::span(&stranger, 1)) == kept);
  CHECK(take_cosignatures(kept, handed_in, key, {}) == kept);
}

TEST_CASE("A book refuses a cosignature over something else, or a false one", "[witness]") {
  const Book book;
  const auto key = book.key.verifier();
  CHECK_FALSE(take_cosignatures(book.note(9), cosigned(book, 8), key, std::span(&witness, 1)));
  Note note = read_note(cosigned(book, 9)).value();
  note.signatures.back().bytes.back() ^= 1;
  const auto taken = take_cosignatures(book.note(9), note_text(note), key, std::span(&witness, 1));
  CHECK(taken.error().code == ErrorCode::bad_book);
}

TEST_CASE("The newest checkpoint of a witness is found among the others", "[witness]") {
  const Book book;
  const auto key = book.key.verifier();
  const std::vector<std::string> notes = {book.note(3), cosigned(book, 9), cosigned(book, 5), book.note(12)};
  CHECK(witnessed_by(witness, notes, key).value() == Witnessed{9, noon});
  CHECK_FALSE(witnessed_by(stranger, notes, key).value().has_value());
  Note false_one = read_note(cosigned(book, 9)).value();
  false_one.signatures.back().bytes.front() ^= 1;
  CHECK_FALSE(witnessed_by(witness, std::vector{note_text(false_one)}, key));
}
