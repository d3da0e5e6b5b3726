// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <string>

#include "fogwright/book/encoding.hpp"
#include "fogwright/book/note.hpp"
#include "fogwright/book/sha256.hpp"
#include "golden.hpp"
#include "table_file.hpp"

/// Reading reference tables and making test keys.
namespace reference {

using fogwright::testing::word_rows;

inline std::string file(const std::string& name) {
  return fogwright::test::read_file(fogwright::test::root / "tests/data" / name);
}

inline std::string unhex(const std::string& text) {
  return text == "-" ? "" : fogwright::from_hex(text).value();
}
inline fogwright::Hash hash(const std::string& hex) { return fogwright::read_hash(unhex(hex)).value(); }
inline std::string hex(const fogwright::Hash& hash) { return fogwright::to_hex(fogwright::as_bytes(hash)); }

/// Seed number N of RFC 8032 section 7.1, from 1.
inline fogwright::KeyBytes seed(std::size_t number) {
  return hash(word_rows("rfc8032.txt").at(number - 1).at(0));
}

inline fogwright::SignerKey log_key() { return {"example.com/ref-log", fogwright::KeyKind::ed25519, seed(1)}; }
inline fogwright::SignerKey witness_key() {
  return {"witness.example.com/w1", fogwright::KeyKind::cosignature, seed(2)};
}

}  // namespace reference
