// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/checkpoint.hpp"

#include <catch2/catch.hpp>
#include <map>

#include "book/reference.hpp"
#include "fogwright/book/tlog_proof.hpp"

using namespace fogwright;

namespace {

const std::string dash = "\xE2\x80\x94";

struct ReferenceLog {
  std::map<std::uint64_t, std::string> notes;  // by size
  std::string cosigned;                        // the size-8 note with the witness's line
  TlogProof proof;                             // of leaf 5 in 8
  std::string leaf;
};

ReferenceLog read_reference_log() {
  ReferenceLog log;
  std::size_t rows = 0;
  for (const auto& row : reference::word_rows("reference_log.txt")) {
    ++rows;
    if (row[0] == "vkey") CHECK(vkey_text(reference::log_key().verifier()) == row[1]);
    if (row[0] == "witness-vkey") CHECK(vkey_text(reference::witness_key().verifier()) == row[1]);
    if (row[0] == "seed") CHECK(reference::hash(row[1]) == reference::seed(1));
    if (row[0] == "witness-seed") CHECK(reference::hash(row[1]) == reference::seed(2));
    if (row[0] == "size") {
      log.notes[std::stoull(row[1])] = "example.com/ref-log\n" + row[1] + "\n" + row[2] + "\n\n" + row[3] +
                                       " " + row[4] + " " + row[5] + "\n";
    }
    if (row[0] == "cosignature") {
      log.cosigned = log.notes.at(8) + row[3] + " " + row[4] + " " + row[5] + "\n";
      CHECK(row[2] == "1700000000");
    }
    if (row[0] == "proof") {
      log.proof.index = std::stoull(row[1]);
      for (std::size_t i = 3; i < row.size(); ++i) {
        log.proof.path.push_back(read_hash(from_base64(row[i]).value()).value());
      }
      log.proof.checkpoint = log.notes.at(8);
    }
  }
  CHECK(rows == 10);
  REQUIRE(log.notes.size() == 4);
  log.leaf = reference::unhex("40414243");
  return log;
}

std::map<std::uint64_t, Hash> reference_roots() {
  std::map<std::uint64_t, Hash> roots;
  for (const auto& row : reference::word_rows("merkle_8_leaves.txt")) {
    if (row[0] == "root") roots[std::stoull(row[1])] = reference::hash(row[2]);
  }
  return roots;
}

}  // namespace

TEST_CASE("Checkpoints of the reference log come out byte for byte and open again", "[checkpoint]") {
  const ReferenceLog log = read_reference_log();
  for (const auto& [size, note] : log.notes) {
    const Checkpoint checkpoint{"example.com/ref-log", size, reference_roots().at(size)};
    CHECK(sign_checkpoint(checkpoint, reference::log_key()) == note);
    const auto opened = open_checkpoint(note, reference::log_key().verifier());
    REQUIRE(opened);
    CHECK(opened->checkpoint == checkpoint);
    CHECK(opened->witnesses.empty());
  }
}

TEST_CASE("A cosignature is that of the reference, tells its time and is checked", "[checkpoint]") {
  const ReferenceLog log = read_reference_log();
  const std::string text = read_note(log.notes.at(8)).value().text;
  const NoteSignature signature = cosign_note(text, reference::witness_key(), 1700000000);
  CHECK(add_signature(log.notes.at(8), signature) == log.cosigned);

  const VerifierKey book = reference::log_key().verifier();
  const std::vector witnesses{reference::witness_key().verifier()};
  const auto opened = open_checkpoint(log.cosigned, book, witnesses);
  REQUIRE(opened);
  REQUIRE(opened->witnesses.size() == 1);
  CHECK(opened->witnesses[0].unix_seconds == 1700000000U);
  CHECK(open_checkpoint(log.cosigned, book).value().witnesses.empty());

  NoteSignature wrong_time = signature;
  wrong_time.bytes[7] = static_cast<char>(wrong_time.bytes[7] ^ 1);
  CHECK_FALSE(open_checkpoint(add_signature(log.notes.at(8), wrong_time).value(), book, witnesses));
  const auto other_size = add_signature(log.notes.at(7), signature).value();
  CHECK_FALSE(open_checkpoint(other_size, book, witnesses));
  NoteSignature beyond = cosign_note(text, reference::witness_key(), std::uint64_t{1} << 63);
  CHECK_FALSE(open_checkpoint(add_signature(log.notes.at(8), beyond).value(), book, witnesses));
}

TEST_CASE("A checkpoint needs the signature of its own book", "[checkpoint]") {
  const ReferenceLog log = read_reference_log();
  const std::string text = read_note(log.notes.at(8)).value().text;
  const VerifierKey book = reference::log_key().verifier();
  const std::vector witnesses{reference::witness_key().verifier()};
  const std::string only_witness = note_text({text, {cosign_note(text, reference::witness_key(), 1)}});
  CHECK(open_checkpoint(only_witness, book, witnesses).error().code == ErrorCode::bad_book);

  const SignerKey other{"example.com/other", KeyKind::ed25519, reference::seed(3)};
  const Checkpoint checkpoint = read_checkpoint(text).value();
  CHECK_FALSE(sign_checkpoint(checkpoint, other));
  CHECK_FALSE(sign_checkpoint(checkpoint, {checkpoint.origin, KeyKind::cosignature, reference::seed(1)}));
  const std::string of_another_book = note_text({text, {sign_note(text, other)}});
  CHECK(open_checkpoint(of_another_book, other.verifier()).error().code == ErrorCode::bad_book);
}

TEST_CASE("Malformed checkpoint texts are refused", "[checkpoint]") {
  const std::string root = to_base64(std::string(32, 'r'));
  CHECK(read_checkpoint("o\n0\n" + root + "\n"));
  for (const std::string wrong : {"", "o\n", "o\n0\n", "\n0\n#\n", "o\n00\n#\n", "o\n01\n#\n", "o\n+1\n#\n",
                                  "o\n-1\n#\n", "o\n1 \n#\n", "o\n\n#\n", "o\n1\n#", "o\n1\n#\nextension\n",
                                  "o\n1\n#\n\n", "o\n1\n#=\n", "o\n9223372036854775808\n#\n", "o\n1\nAAAA\n"}) {
    std::string text = wrong;
    if (const auto at = text.find('#'); at != text.npos) text.replace(at, 1, root);
    CAPTURE(text);
    CHECK_FALSE(read_checkpoint(text));
  }
}

TEST_CASE("The published checkpoint without a key has the structure that is claimed", "[checkpoint]") {
  // Source: C2SP tlog-checkpoint v1.0.0, example.com/behind-the-sofa; its public key is not published.
  const std::string note =
      "example.com/behind-the-sofa\n20852163\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n\n" + dash +
      " example.com/behind-the-sofa "
      "Az3grlgtzPICa5OS8npVmf1Myq/5IZniMp+ZJurmRDeOoRDe4URYN7u5/Zhcyv2q1gGzGku9nTo+"
      "zyWE+xeMcTOAYQ8=\n" +
      dash +
      " witness.example.com/w1 "
      "jWbPPwAAAABkGFDLEZMHwSRaJNiIDoe9DYn/zXcrtPHeolMI5OWXEhZCB9dlrDJsX3b2oyin1nPZqhf5nNo0"
      "xUe+mbIUBkBIfZ+qnA==\n";
  const Note read = read_note(note).value();
  CHECK(note_text(read) == note);
  CHECK(read_checkpoint(read.text).value().size == 20852163);
  REQUIRE(read.signatures.size() == 2);
  CHECK(read.signatures[0].id == 0x033de0ae);
  CHECK(read.signatures[0].bytes.size() == 64);
  CHECK(read.signatures[1].bytes.size() == 72);
  CHECK(to_hex(read.signatures[1].bytes.substr(0, 8)) == "00000000641850cb");  // 1679315147
}

TEST_CASE("A proof file is that of the reference and verifies only with its entry", "[proof]") {
  const ReferenceLog log = read_reference_log();
  const std::string text =
      "c2sp.org/tlog-proof@v1\nindex 5\nvBoGQ7EuTS18d5GPROD095qDi2z57FtcKD4fTYhZnms=\n"
      "yoVOoSjtBQtBs1/8G4e46yveRh6eO1WW7Oa51ZdaCuA=\n037kGJdt2VdTwcc4Yrk5j6Kiz5tP8P3+izDNlSCWFLc=\n\n" +
      log.notes.at(8);
  CHECK(proof_text(log.proof) == text);
  CHECK(read_proof(text) == log.proof);
  const VerifierKey book = reference::log_key().verifier();
  CHECK(verify_proof(log.proof, log.leaf, book));
  CHECK(verify_proof(log.proof, log.leaf + "x", book).error().code == ErrorCode::bad_book);
  TlogProof moved = log.proof;
  moved.index = 4;
  CHECK_FALSE(verify_proof(moved, log.leaf, book));
  TlogProof other = log.proof;
  other.checkpoint = log.notes.at(7);
  CHECK_FALSE(verify_proof(other, log.leaf, book));
  TlogProof with_extra = log.proof;
  with_extra.extra = "anything";
  CHECK(read_proof(proof_text(with_extra)) == with_extra);
  for (std::size_t length = 0; length < text.size(); ++length) {
    const auto cut = read_proof(text.substr(0, length));
    CHECK_FALSE((cut && verify_proof(*cut, log.leaf, book)));
  }
}

TEST_CASE("Malformed proof files are refused", "[proof]") {
  for (const std::string wrong :
       {"", "c2sp.org/tlog-proof@v2\nindex 0\n\nnote\n", "c2sp.org/tlog-proof@v1\n\nnote\n",
        "c2sp.org/tlog-proof@v1\nindex 00\n\nnote\n", "c2sp.org/tlog-proof@v1\nindex -1\n\nnote\n",
        "c2sp.org/tlog-proof@v1\nindex 0\nAAAA\n\nnote\n", "c2sp.org/tlog-proof@v1\nextra !\nindex 0\n\nnote\n",
        "c2sp.org/tlog-proof@v1\nindex 0\n\n", "c2sp.org/tlog-proof@v1\nindex 0\n"}) {
    CAPTURE(wrong);
    CHECK_FALSE(read_proof(wrong));
  }
  CHECK(read_proof("c2sp.org/tlog-proof@v1\nindex 0\n\nnote\n"));
  TlogProof endless{{}, 0, std::vector<Hash>(64), "note\n"};
  CHECK_FALSE(read_proof(proof_text(endless)));
}
