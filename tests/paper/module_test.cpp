// SPDX-License-Identifier: Apache-2.0
#include <unistd.h>

#include "demo_papers.hpp"
#include "golden.hpp"
#include "shell.hpp"

using namespace fogwright;

TEST_CASE("a missing or foreign module is an error that says what to do") {
  const auto missing = paper::pdf_of({}, test::scratch() / "nothing.so");
  REQUIRE_FALSE(missing.has_value());
  CHECK(missing.error().code == ErrorCode::file_fault);
  CHECK_FALSE(missing.error().hint.empty());
  const auto foreign = paper::pdf_of({}, "libm.so.6");
  REQUIRE_FALSE(foreign.has_value());
  CHECK(foreign.error().message == "This module is of another version of the program.");
}

TEST_CASE("neither Pango nor Cairo nor libqrencode is loaded before a paper asks for it") {
  const auto needed = test::run("readelf -d /proc/" + std::to_string(getpid()) + "/exe");
  REQUIRE(needed.status == 0);
  CHECK(needed.out.find("libstdc++") != std::string::npos);
  for (const char* library : {"pango", "cairo", "qrencode"})
    CHECK(needed.out.find(library) == std::string::npos);
}

TEST_CASE("a QR code takes up to 2,331 bytes and no empty text") {
  CHECK(paper::make_qr(std::string(2331, 'x')).has_value());
  CHECK_FALSE(paper::make_qr(std::string(2332, 'x')).has_value());
  CHECK_FALSE(paper::make_qr("").has_value());
  const auto qr = paper::make_qr("C-104");
  REQUIRE(qr.has_value());
  CHECK(qr->modules.size() == 21);  // version 1: 21 modules a side
}
