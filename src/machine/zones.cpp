// SPDX-License-Identifier: Apache-2.0
#include "fogwright/machine.hpp"

#include <array>

#include "machine/zone_module.hpp"

namespace fogwright {
namespace {

/// Looked up once; what failed is looked up again.
template <class Function>
Result<Function*> function_of(Function*& known, const char* name) {
  if (known == nullptr) {
    auto found = module_function<Function>({"libfogwright_zones.so", "knows time zones", {}, {}}, name);
    if (!found) return found;
    known = *found;
  }
  return known;
}

}  // namespace

Result<std::optional<ZoneOffset>> zone_offset(const std::string& zone, std::int64_t utc_seconds) {
  static ZoneOffsetFunction* known = nullptr;
  const auto function = function_of(known, zone_offset_name);
  if (!function) return tl::make_unexpected(function.error());
  ZoneOffset offset;
  std::array<char, 32> name{};
  if ((*function)(zone.c_str(), utc_seconds, &offset.seconds, name.data(), name.size()) != 0)
    return std::nullopt;
  offset.abbreviation = name.data();
  return offset;
}

Result<std::optional<std::int64_t>> zone_utc(const std::string& zone, std::int64_t local_seconds, bool later) {
  static ZoneUtcFunction* known = nullptr;
  const auto function = function_of(known, zone_utc_name);
  if (!function) return tl::make_unexpected(function.error());
  std::int64_t utc = 0;
  if ((*function)(zone.c_str(), local_seconds, later ? 1 : 0, &utc) != 0) return std::nullopt;
  return utc;
}

}  // namespace fogwright
