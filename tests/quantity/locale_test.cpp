// SPDX-License-Identifier: Apache-2.0
#include <catch2/catch.hpp>
#include <clocale>
#include <locale>
#include <string>

#include "fogwright/quantity.hpp"

using namespace fogwright;

namespace {

struct DecimalComma : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

// Sets the C++ and, where the machine has one, the C locale to one that writes 2.400,5; puts both back.
class DecimalCommaLocale {
 public:
  DecimalCommaLocale() : before_(std::locale::global(std::locale(std::locale::classic(), new DecimalComma))) {
    for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "es_ES.UTF-8", "uk_UA.UTF-8"})
      if (!has_c_locale_ && std::setlocale(LC_ALL, name) != nullptr)
        has_c_locale_ = *std::localeconv()->decimal_point == ',';
  }
  DecimalCommaLocale(const DecimalCommaLocale&) = delete;
  DecimalCommaLocale& operator=(const DecimalCommaLocale&) = delete;
  ~DecimalCommaLocale() {
    std::setlocale(LC_ALL, "C");
    std::locale::global(before_);
  }
  [[nodiscard]] bool has_c_locale() const { return has_c_locale_; }

 private:
  std::locale before_;
  bool has_c_locale_ = false;
};

}  // namespace

TEST_CASE("a locale with a decimal comma changes neither what is read nor what is printed") {
  const DecimalCommaLocale locale;
  if (!locale.has_c_locale())
    WARN("no C locale with a decimal comma on this machine: only std::locale was tested");
  CHECK(read_floor_area("2,400.5 sq ft", "").value() == FloorArea(2400.5, unit::square_foot));
  CHECK_FALSE(read_floor_area("2.400,5 sq ft", ""));
  CHECK(read_number("0.5", "").value() == 0.5);
  CHECK(read_mass_fraction("0.5 %", "").value() == 0.005);
  CHECK(show(FloorArea(2400, unit::square_foot), UnitSystem::us_customary) == "2,400 sq ft");
  CHECK(show(LiquidVolume(1234.5, unit::us_gallon), UnitSystem::us_customary) == "1,234.50 gal");
  CHECK(show(FogTime(1e6, unit::second)) == "277 h 46 min 40 s");
  CHECK(show(HoldTime(100000, unit::hour)) == "100000 h");
  CHECK(show(Length(12345, unit::foot), UnitSystem::us_customary) == "12345 ft");
  CHECK(show_number(1234.5, 5) == "1,234.5");
}
