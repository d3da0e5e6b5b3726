// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/uuid.hpp"

#include <rapidcheck.h>

#include <catch2/catch.hpp>

using namespace fogwright;

TEST_CASE("A UUIDv7 is that of RFC 9562 appendix A.6", "[uuid]") {
  // rand_a 0xCC3, rand_b 0b01 then 0x8C4DC0C0C07398F; the top bits of both pairs are not used.
  const UuidRandom random{0xFC, 0xC3, 0xD8, 0xC4, 0xDC, 0x0C, 0x0C, 0x07, 0x39, 0x8F};
  const Uuid id = uuid_v7(1645557742000, random);
  CHECK(uuid_text(id) == "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
  CHECK(read_uuid("017F22E2-79B0-7CC3-98C4-DC0C0C07398F") == id);
  CHECK(uuid_ms(id) == 1645557742000);
  CHECK(is_v7(id));
}

TEST_CASE("Times outside 48 bits are limited", "[uuid]") {
  CHECK(uuid_ms(uuid_v7(-1, {})) == 0);
  CHECK(uuid_ms(uuid_v7(std::int64_t{1} << 48, {})) == (std::int64_t{1} << 48) - 1);
  CHECK(uuid_text(uuid_v7(0, {})) == "00000000-0000-7000-8000-000000000000");
}

TEST_CASE("Text that is no UUID is refused", "[uuid]") {
  for (const char* wrong :
       {"", "017f22e2", "017f22e279b07cc398c4dc0c0c07398f", "017f22e2-79b0-7cc3-98c4-dc0c0c07398",
        "017f22e2-79b0-7cc3-98c4-dc0c0c07398g", "017f22e27-9b0-7cc3-98c4-dc0c0c07398f",
        "{17f22e2-79b0-7cc3-98c4-dc0c0c07398f", "017f22e2-79b0-7cc3-98c4-dc0c0c07398f0"}) {
    CHECK_FALSE(read_uuid(wrong));
  }
  CHECK_FALSE(is_v7(read_uuid("017f22e2-79b0-4cc3-98c4-dc0c0c07398f").value()));
  CHECK_FALSE(is_v7(read_uuid("017f22e2-79b0-7cc3-58c4-dc0c0c07398f").value()));
}

TEST_CASE("Each new id is greater, whatever the clock and the random source do", "[uuid][property]") {
  CHECK(rc::check("ids rise", [] {
    const auto times = *rc::gen::container<std::vector<std::int64_t>>(rc::gen::inRange<std::int64_t>(0, 5));
    const auto fill = *rc::gen::element<std::uint8_t>(0x00, 0x7F, 0xFF);
    std::size_t at = 0;
    UuidMaker maker([&] { return times[at]; },
                    [&] {
                      UuidRandom random;
                      random.fill(fill);
                      return random;
                    });
    Uuid last{};
    for (at = 0; at < times.size(); ++at) {
      const Uuid id = maker.next();
      RC_ASSERT(last < id);
      RC_ASSERT(is_v7(id));
      last = id;
    }
  }));
}

TEST_CASE("An id that runs over its random bits goes on in the next millisecond", "[uuid]") {
  UuidRandom all;
  all.fill(0xFF);
  UuidMaker maker([] { return 1000; }, [&] { return all; });
  CHECK(uuid_text(maker.next()) == "00000000-03e8-7fff-bfff-ffffffffffff");
  CHECK(uuid_text(maker.next()) == "00000000-03e9-7000-8000-000000000000");
  CHECK(uuid_text(maker.next()) == "00000000-03e9-7000-8000-000000000001");
}

TEST_CASE("A new millisecond takes fresh random bits", "[uuid]") {
  std::int64_t now = 1000;
  UuidRandom random{};
  UuidMaker maker([&] { return now; }, [&] { return random; });
  (void)maker.next();
  now = 2000;
  random.fill(0x11);
  CHECK(maker.next() == uuid_v7(2000, random));
}
