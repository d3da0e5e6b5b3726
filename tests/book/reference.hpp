// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include "fogwright/book/encoding.hpp"
#include "fogwright/book/note.hpp"
#include "fogwright/book/sha256.hpp"

/// Reading reference tables and making test keys.
namespace reference {

inline std::string file(const std::string& name) {
  std::ifstream in(std::string(FOGWRIGHT_SOURCE_DIR) + "/tests/data/" + name, std::ios::binary);
  REQUIRE(in);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// The words of each line that is not empty or a comment.
inline std::vector<std::vector<std::string>> rows(const std::string& name) {
  std::vector<std::vector<std::string>> all;
  std::istringstream lines(file(name));
  for (std::string line; std::getline(lines, line);) {
    if (line.empty() || line[0] == '#') continue;
    std::istringstream words(line);
    all.emplace_back(std::istream_iterator<std::string>(words), std::istream_iterator<std::string>());
  }
  REQUIRE_FALSE(all.empty());
  return all;
}

inline std::string unhex(const std::string& text) {
  return text == "-" ? "" : fogwright::from_hex(text).value();
}
inline fogwright::Hash hash(const std::string& hex) { return fogwright::read_hash(unhex(hex)).value(); }
inline std::string hex(const fogwright::Hash& hash) { return fogwright::to_hex(fogwright::as_bytes(hash)); }

/// Seed number N of RFC 8032 section 7.1, from 1.
inline fogwright::KeyBytes seed(std::size_t number) { return hash(rows("rfc8032.txt").at(number - 1).at(0)); }

inline fogwright::SignerKey log_key() { return {"example.com/ref-log", fogwright::KeyKind::ed25519, seed(1)}; }
inline fogwright::SignerKey witness_key() {
  return {"witness.example.com/w1", fogwright::KeyKind::cosignature, seed(2)};
}

}  // namespace reference
