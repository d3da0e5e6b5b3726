// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <map>
#include <string>
#include <string_view>

#include "fogwright/quantity.hpp"

namespace fogwright::testing {

/// What a reader gave, whichever its type: SI units, kelvin, or a plain number.
using ReadSi = Result<double> (*)(std::string_view text, std::string_view where);

template <auto reader>
Result<double> in_si(std::string_view text, std::string_view where) {
  return reader(text, where, {}).map([](auto q) { return q.si(); });
}

inline Result<double> in_kelvin(std::string_view text, std::string_view where) {
  return read_temperature(text, where).map([](Temperature t) { return t.in_kelvin(); });
}

/// Every reader of the face, by the name that the tables in tests/data use.
inline const std::map<std::string, ReadSi, std::less<>>& readers_by_name() {
  static const std::map<std::string, ReadSi, std::less<>> readers{
      {"floor_area", in_si<read_floor_area>},
      {"face_area", in_si<read_face_area>},
      {"length", in_si<read_length>},
      {"air_volume", in_si<read_air_volume>},
      {"liquid_volume", in_si<read_liquid_volume>},
      {"liquid_flow", in_si<read_liquid_flow>},
      {"air_flow", in_si<read_air_flow>},
      {"mass", in_si<read_mass>},
      {"liquid_density", in_si<read_liquid_density>},
      {"mass_concentration", in_si<read_mass_concentration>},
      {"fog_time", in_si<read_fog_time>},
      {"hold_time", in_si<read_hold_time>},
      {"shelf_time", in_si<read_shelf_time>},
      {"air_changes", in_si<read_air_changes>},
      {"pressure", in_si<read_pressure>},
      {"temperature", in_kelvin},
      {"mass_fraction", read_mass_fraction},
      {"number", read_number},
  };
  return readers;
}

}  // namespace fogwright::testing
