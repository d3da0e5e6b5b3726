// SPDX-License-Identifier: Apache-2.0
/// 49 CFR 173.6, materials of trade.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "fogwright/stock.hpp"

namespace fogwright {
namespace {

using Findings = std::vector<CarriageFinding>;

struct PackageLimit {
  std::int64_t mass_mg, capacity_ul;
  std::string_view mass, capacity, citation;
};
// The metric figures are the standard; pounds, pints and gallons are for information (49 CFR 171.10).
constexpr PackageLimit group_one{500'000, 500'000, "0.5 kg", "0.5 L", "49 CFR 173.6(a)(1)(i)"};
constexpr PackageLimit group_two_or_three{30'000'000, 30'000'000, "30 kg", "30 L", "49 CFR 173.6(a)(1)(ii)"};
constexpr std::int64_t vehicle_limit_mg = 200'000'000;
constexpr std::int64_t heaviest_mg = 1'000'000'000'000;  // counts for more: the sum must fit
constexpr std::array<std::string_view, 7> listed_classes{"3", "4.1", "5.1", "5.2", "6.1", "8", "9"};

bool regulated(const Transport& t) {
  return !t.hazard_class.empty() || !t.packing_group.empty() || !t.un_number.empty() || t.poison_by_inhalation;
}

bool in_group_two_or_three(const Transport& t) { return t.packing_group == "II" || t.packing_group == "III"; }

std::string_view group_words(const Transport& t) {
  if (in_group_two_or_three(t)) return "in packing groups II and III";
  return t.packing_group == "I" ? "in packing group I" : "in packing group I, as which an unknown group counts";
}

std::string show_mass(std::int64_t mg) {
  return show(Mass(static_cast<double>(mg), unit::milligram), UnitSystem::metric, Rounding::up);
}
std::string show_volume(std::int64_t ul) {
  return show(LiquidVolume(static_cast<double>(ul), unit::microlitre), UnitSystem::metric, Rounding::up);
}

void check_size(const Carried& package, Findings& findings) {
  const PackageLimit& limit = in_group_two_or_three(package.transport) ? group_two_or_three : group_one;
  const auto add = [&](std::string what) {
    findings.push_back({std::move(what), std::string(limit.citation), package.id});
  };
  if (package.gross_mg <= 0) add("Its gross mass is not known.");
  if (package.gross_mg > limit.mass_mg)
    add(fmt::format("It weighs {}; a package may weigh {} {}.", show_mass(package.gross_mg), limit.mass,
                    group_words(package.transport)));
  if (package.volume_ul > limit.capacity_ul)
    add(fmt::format("It holds {}; a package may hold {} {}.", show_volume(package.volume_ul), limit.capacity,
                    group_words(package.transport)));
}

void check_package(const Carried& package, Findings& findings) {
  const std::string& hazard_class = package.transport.hazard_class;
  if (package.transport.poison_by_inhalation)
    findings.push_back(
        {"What is poisonous by inhalation is never a material of trade.", "49 CFR 173.6(a)(5)", package.id});
  if (std::find(listed_classes.begin(), listed_classes.end(), hazard_class) != listed_classes.end())
    return check_size(package, findings);
  findings.push_back(
      {fmt::format("{} is none of 3, 4.1, 5.1, 5.2, 6.1, 8 and 9, the classes that are checked here.",
                   hazard_class.empty() ? "An unknown class" : "Class " + hazard_class),
       "49 CFR 173.6(a)(1)", package.id});
}

}  // namespace

std::vector<CarriageFinding> materials_of_trade(std::span<const Carried> load) {
  Findings findings;
  std::int64_t sum_mg = 0;
  for (const Carried& package : load) {
    if (!regulated(package.transport)) continue;
    check_package(package, findings);
    sum_mg += std::clamp<std::int64_t>(package.gross_mg, 0, heaviest_mg);
  }
  if (sum_mg > vehicle_limit_mg)
    findings.push_back({fmt::format("The regulated packages weigh {} together; a vehicle may carry 200 kg.",
                                    show_mass(sum_mg)),
                        "49 CFR 173.6(d)", ""});
  return findings;
}

}  // namespace fogwright
