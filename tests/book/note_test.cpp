// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/note.hpp"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

#include "book/ed25519.hpp"
#include "book/reference.hpp"

using namespace fogwright;

namespace {

struct Published {
  std::string vkey;
  std::string skey;
  std::string note;
};

std::vector<Published> published_notes() {
  std::vector<Published> notes;
  std::istringstream lines(reference::file("signed_notes.txt"));
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("#")) continue;
    if (line.starts_with("== vkey ")) {
      notes.push_back({line.substr(8), "", ""});
    } else if (line.starts_with("== skey ")) {
      notes.at(notes.size() - 1).skey = line.substr(8);
    } else {
      notes.at(notes.size() - 1).note += line + "\n";
    }
  }
  REQUIRE(notes.size() == 4);
  return notes;
}

bool verifies(std::string_view text, const std::vector<VerifierKey>& keys) {
  const auto note = read_note(text);
  return note && verify_note(*note, keys);
}

}  // namespace

TEST_CASE("Ed25519 gives the signatures of RFC 8032", "[note]") {
  const auto rows = reference::word_rows("rfc8032.txt");
  REQUIRE(rows.size() == 3);
  for (const auto& row : rows) {
    const KeyBytes seed = reference::hash(row.at(0));
    const KeyBytes open = reference::hash(row.at(1));
    const std::string message = reference::unhex(row.at(2));
    const std::string signature = reference::unhex(row.at(3));
    CHECK(ed25519::public_key(seed) == open);
    CHECK(ed25519::sign(message, seed) == signature);
    CHECK(ed25519::verify(message, signature, open));
    CHECK_FALSE(ed25519::verify(message + "x", signature, open));
    CHECK_FALSE(ed25519::verify(message, signature.substr(1), open));
  }
}

TEST_CASE("Published notes verify with their published keys, and no changed byte passes", "[note]") {
  for (const Published& published : published_notes()) {
    CAPTURE(published.note);
    const VerifierKey key = read_vkey(published.vkey).value();
    CHECK(vkey_text(key) == published.vkey);
    CHECK(note_text(read_note(published.note).value()) == published.note);
    REQUIRE(verifies(published.note, {key}));
    for (std::size_t i = 0; i < published.note.size(); ++i) {
      std::string changed = published.note;
      changed[i] = static_cast<char>(changed[i] ^ 1);
      CHECK_FALSE(verifies(changed, {key}));
      CHECK_FALSE(verifies(std::string_view(published.note).substr(0, i), {key}));
    }
  }
}

TEST_CASE("Published private keys sign their notes again byte for byte", "[note]") {
  int signed_again = 0;
  for (const Published& published : published_notes()) {
    if (published.skey.empty()) continue;
    const SignerKey key = read_skey(published.skey).value();
    const std::string text = read_note(published.note).value().text;
    CHECK(skey_text(key) == published.skey);
    CHECK(vkey_text(key.verifier()) == published.vkey);
    CHECK(note_text({text, {sign_note(text, key)}}) == published.note);
    ++signed_again;
  }
  CHECK(signed_again == 3);
}

TEST_CASE("Signatures of unknown keys are ignored, a known key that fails rejects the note", "[note]") {
  const SignerKey ours = reference::log_key();
  const SignerKey other{"example.com/other", KeyKind::ed25519, reference::seed(3)};
  const std::string text = "a text\n";
  const NoteSignature good = sign_note(text, ours);
  NoteSignature bad = sign_note("another text\n", other);
  const Note note{text, {good, bad}};
  CHECK(verify_note(note, std::vector{ours.verifier()}).value().size() == 1);
  CHECK(verify_note(note, std::vector{other.verifier()}).error().code == ErrorCode::bad_book);
  CHECK(verify_note(note, std::vector{ours.verifier(), other.verifier()}).error().code == ErrorCode::bad_book);
  CHECK(verify_note(note, {}).error().code == ErrorCode::bad_book);

  // The same name with another id, and the same id with another name, are other keys.
  bad.name = ours.name;
  CHECK(verify_note({text, {good, bad}}, std::vector{ours.verifier()}));
  NoteSignature renamed = good;
  renamed.name = "example.com/renamed";
  CHECK_FALSE(verify_note({text, {renamed}}, std::vector{ours.verifier()}));
}

TEST_CASE("A note may carry sixteen signatures and more", "[note]") {
  std::string text = "many signed this\n";
  Note note{text, {}};
  std::vector<VerifierKey> keys;
  for (std::size_t i = 0; i < 100; ++i) {
    const SignerKey key("signer.example/" + std::to_string(i), KeyKind::ed25519, reference::seed(1 + i % 3));
    note.signatures.push_back(sign_note(text, key));
    keys.push_back(key.verifier());
  }
  CHECK(verify_note(read_note(note_text(note)).value(), keys).value().size() == 100);
  note.signatures.push_back(note.signatures.front());
  CHECK_FALSE(read_note(note_text(note)));
}

TEST_CASE("Malformed notes are refused", "[note]") {
  const std::string line = "\xE2\x80\x94 a.example AAAAAAA=\n";
  CHECK(read_note("text\n\n" + line));
  CHECK(read_note("text\n\n\n" + line).value().text == "text\n\n");
  CHECK(read_note("first\n\nsecond\n\n" + line).value().text == "first\n\nsecond\n");
  for (const std::string& wrong : {
           std::string(),
           std::string("text\n"),
           "text\n" + line,                                           // no blank line
           std::string("text\n\n"),                                   // no signature
           "text\n\n" + line.substr(0, line.size() - 1),              // no newline at the end
           "te\rxt\n\n" + line,                                       // a control character
           "te\xFFxt\n\n" + line,                                     // not UTF-8
           "text\n\n- a.example AAAAAAA=\n" + line,                   // a hyphen is no em dash
           std::string("text\n\n\xE2\x80\x94 a.example\n"),           // no signature on the line
           std::string("text\n\n\xE2\x80\x94 a.example AAAAAA==\n"),  // only a key id
           std::string("text\n\n\xE2\x80\x94 a.example AAAAAAB=\n"),  // unused bits set
           std::string("text\n\n\xE2\x80\x94 a.example AAAAAAA\n"),   // padding left out
           std::string("text\n\n\xE2\x80\x94 a+b AAAAAAA=\n"),        // a plus sign in the name
           std::string("text\n\n\xE2\x80\x94 a\xC2\xA0"
                       "b AAAAAAA=\n"),  // a no-break space in the name
           "text\n\n" + line + "\n",
           "text\n\n" + std::string(1'000'000, 'x') + line,
       }) {
    CAPTURE(wrong.substr(0, 80));
    CHECK_FALSE(read_note(wrong));
  }
}

TEST_CASE("Malformed keys are refused", "[note]") {
  const std::string vkey = vkey_text(reference::log_key().verifier());
  CHECK(read_vkey(vkey));
  CHECK_FALSE(read_vkey(skey_text(reference::log_key())));
  CHECK_FALSE(read_skey(vkey));
  for (std::size_t length = 0; length < vkey.size(); ++length) CHECK_FALSE(read_vkey(vkey.substr(0, length)));
  CHECK_FALSE(read_vkey("example.com/ref-log+9C39E90D" + vkey.substr(vkey.find("+A"))));  // upper-case id
  CHECK_FALSE(read_vkey("example.com/other" + vkey.substr(vkey.find('+'))));
  CHECK_FALSE(key_name_ok(""));
  CHECK_FALSE(key_name_ok("two words"));
  CHECK_FALSE(key_name_ok("a+b"));
  CHECK_FALSE(
      key_name_ok("a\xE3\x80\x80"
                  "b"));  // U+3000
  CHECK(
      key_name_ok("b\xC3\xBC"
                  "cher.example"));
}

TEST_CASE("What is signed verifies and changed text does not", "[note][property]") {
  CHECK(rc::check("sign, print, read, verify", [] {
    const auto words =
        *rc::gen::container<std::string>(rc::gen::oneOf(rc::gen::inRange('a', 'z'), rc::gen::just('\n')));
    const std::string text = words + "\n";
    const Note note = read_note(note_text({text, {sign_note(text, reference::log_key())}})).value();
    RC_ASSERT(note.text == text);
    RC_ASSERT(verify_note(note, std::vector{reference::log_key().verifier()}).has_value());
    RC_ASSERT(!verify_note({text + "x\n", note.signatures}, std::vector{reference::log_key().verifier()})
                   .has_value());
  }));
}
