// SPDX-License-Identifier: Apache-2.0
#include "label/values.hpp"

#include <algorithm>
#include <cmath>

#include "label/text.hpp"

namespace fogwright::profile {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool are_digits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), is_digit);
}

int number_of(std::string_view digits) {
  int n = 0;
  for (const char c : digits) n = n * 10 + (c - '0');
  return n;
}

int days_in(int year, int month) {
  constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
  return month == 2 && leap ? 29 : days[month - 1];
}

/// Text that passes a check, else a fault.
std::optional<std::string> read_checked(Reading& reading, const Spot& spot, bool (*check)(std::string_view),
                                        std::string_view complaint) {
  auto text = read_line(reading, spot, longest_text);
  if (!text || check(*text)) return text;
  reading.fault(spot, fmt::format("{} {}", in_quotes(*text), complaint));
  return std::nullopt;
}

bool is_un_number(std::string_view text) {
  return text.size() == 6 && text.starts_with("UN") && are_digits(text.substr(2));
}

}  // namespace

std::optional<std::string> read_line(Reading& reading, const Spot& spot, std::size_t longest) {
  const auto* string = spot.node->as_string();
  if (string == nullptr) {
    reading.wrong_type(spot, "text in double quotes");
    return std::nullopt;
  }
  const std::string& text = string->get();
  if (const auto complaint = complaint_about(text, longest)) {
    reading.fault(spot, *complaint);
    return std::nullopt;
  }
  return text;
}

std::optional<double> read_bare_number(Reading& reading, const Spot& spot) {
  const auto value = spot.node->is_number() ? spot.node->value<double>() : std::nullopt;
  if (!value) {
    reading.wrong_type(spot, "a number without quotes");
    return std::nullopt;
  }
  if (*value > 0 && *value <= 1e6) return value;
  reading.fault(spot, "the number must be above 0 and at most 1,000,000");
  return std::nullopt;
}

std::optional<bool> read_flag(Reading& reading, const Spot& spot) {
  if (const auto* flag = spot.node->as_boolean()) return flag->get();
  reading.wrong_type(spot, "true or false");
  return std::nullopt;
}

std::optional<double> read_fraction(Reading& reading, const Spot& spot) {
  const auto text = read_line(reading, spot, longest_text);
  if (!text) return std::nullopt;
  if (is_digit(text->back()) || text->back() == '.') {
    reading.fault(spot, fmt::format("{} could be a fraction or a percentage", in_quotes(*text)),
                  fmt::format("give the unit, for example {} = {}", spot.name, spot.example));
    return std::nullopt;
  }
  const auto value = read_mass_fraction(*text, reading.where(spot.at()));
  if (value && *value >= 0 && *value <= 1) return *value;
  if (value) reading.fault(spot, fmt::format("{} is not between 0 % and 100 %", in_quotes(*text)));
  if (!value) reading.fault(spot, value.error().message);
  return std::nullopt;
}

std::optional<std::string> read_date(Reading& reading, const Spot& spot) {
  if (spot.node->is_date() || spot.node->is_date_time()) {
    reading.fault(spot, "the date stands without quotes");
    return std::nullopt;
  }
  return read_checked(reading, spot, is_calendar_date,
                      "is not a date of the calendar, year-month-day, 1970 to 2099");
}

std::optional<std::string> read_cas(Reading& reading, const Spot& spot) {
  return read_checked(reading, spot, is_cas_number,
                      "is not a CAS number: digits, two digits, and a check digit that fits them");
}

std::optional<std::string> read_un_number(Reading& reading, const Spot& spot) {
  return read_checked(reading, spot, is_un_number, "is not UN and four digits");
}

void read_listed(Reading& reading, const Spot& spot, const std::vector<std::string_view>& known,
                 std::string& into) {
  const auto text = read_line(reading, spot, longest_text);
  if (!text) return;
  if (std::find(known.begin(), known.end(), *text) != known.end()) {
    into = *text;
    return;
  }
  const auto near = nearest(*text, known);
  reading.fault(spot, fmt::format("{} is not a word known here", in_quotes(*text)),
                near ? fmt::format("did you mean \"{}\"? Words here are: {}", *near, listed(known))
                     : fmt::format("words here are: {}", listed(known)));
}

std::vector<std::string_view> hazard_classes() {
  return {"2.1", "2.2", "2.3", "3", "4.1", "4.2", "4.3", "5.1", "5.2", "6.1", "6.2", "8", "9"};
}

std::vector<std::string_view> packing_groups() { return {"I", "II", "III"}; }

bool is_cas_number(std::string_view text) {
  const auto n = text.size();
  if (n < 7 || n > 12 || text[n - 2] != '-' || text[n - 5] != '-') return false;
  std::string digits(text.substr(0, n - 5));
  digits += text.substr(n - 4, 2);
  if (!are_digits(digits) || !is_digit(text.back()) || digits.front() == '0') return false;
  int sum = 0;
  for (int weight = 1; const char c : std::string(digits.rbegin(), digits.rend())) sum += weight++ * (c - '0');
  return sum % 10 == text.back() - '0';
}

bool is_calendar_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  const auto y = text.substr(0, 4), m = text.substr(5, 2), d = text.substr(8, 2);
  if (!are_digits(y) || !are_digits(m) || !are_digits(d)) return false;
  const int year = number_of(y), month = number_of(m), day = number_of(d);
  return year >= 1970 && year <= 2099 && month >= 1 && month <= 12 && day >= 1 && day <= days_in(year, month);
}

Range<LiquidVolume> range_of(LiquidVolume) {
  return {{0.01, unit::millilitre}, {10000, unit::litre}, "an amount from 0.01 mL to 10,000 L"};
}
Range<LiquidDensity> range_of(LiquidDensity) {
  return {{0.5, unit::gram_per_millilitre}, {3, unit::gram_per_millilitre}, "a density from 0.5 to 3 g/mL"};
}
Range<MassConcentration> range_of(MassConcentration) {
  return {{1e-6, unit::milligram_per_cubic_metre},
          {1e6, unit::milligram_per_cubic_metre},
          "a concentration from 0.000001 to 1,000,000 mg/m3"};
}
Range<FogTime> range_of(FogTime) { return {{1, unit::second}, {1, unit::hour}, "a time from 1 s to 1 h"}; }
Range<HoldTime> range_of(HoldTime) {
  return {{1, unit::second},
          {30, unit::day},
          "a time from 1 s to 30 days; leave the member out where the label gives none"};
}
Range<ShelfTime> range_of(ShelfTime) {
  return {{1, unit::minute}, {20 * 365.0, unit::day}, "a time from 1 min to 20 years"};
}
Range<AirChanges> range_of(AirChanges) {
  return {{0.01, unit::per_hour}, {1000, unit::per_hour}, "air changes from 0.01 to 1,000 per hour"};
}
Range<Length> range_of(Length) {
  return {{0.1, unit::micrometre}, {1, unit::millimetre}, "a droplet diameter from 0.1 um to 1 mm"};
}
Range<Temperature> range_of(Temperature) {
  return {Temperature::celsius(-60), Temperature::celsius(100), "a temperature from -60 C to 100 C"};
}

}  // namespace fogwright::profile
