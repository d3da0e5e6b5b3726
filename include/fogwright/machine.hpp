// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What is asked of this machine at first use: modules, and the time zones that it knows.

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

#include "fogwright/error.hpp"

namespace fogwright {

// Parts of the program that are loaded at their first use, so that no other command pays for them at its start.
// A module exports functions in C, whose names end in a number that changes with their meaning.

/// A module: its file, and what it does, for the one who is told that it is missing ("makes PDFs").
struct Module {
  std::string file;
  std::string what;
  std::string hint;            ///< what goes on without it
  std::filesystem::path path;  ///< where it is; empty: beside the program, or in ../lib/fogwright
};

/// The address of a function of the module. Errors: file_fault (not found, not loadable, another version).
[[nodiscard]] Result<void*> module_symbol(const Module& module, const char* function);

template <class Function>
[[nodiscard]] Result<Function*> module_function(const Module& module, const char* function) {
  auto symbol = module_symbol(module, function);
  if (!symbol) return tl::make_unexpected(std::move(symbol.error()));
  return reinterpret_cast<Function*>(*symbol);
}

// Time zones: the tz database, through a module that links Howard Hinnant's tz library.

/// How clocks of a zone stand to UTC at one moment.
struct ZoneOffset {
  std::int64_t seconds = 0;  ///< local less UTC
  std::string abbreviation;  ///< "CST"
};

/// nullopt: this machine knows no such zone. Errors: file_fault (the module is missing).
[[nodiscard]] Result<std::optional<ZoneOffset>> zone_offset(const std::string& zone, std::int64_t utc_seconds);

/// UTC of a local time (seconds since 1970-01-01 00:00 of the zone's own clocks). Of two moments that a
/// set-back clock shows twice, the later one where `later`; a time that a set-forward clock skips is the moment
/// of the change. As for zone_offset.
[[nodiscard]] Result<std::optional<std::int64_t>> zone_utc(const std::string& zone, std::int64_t local_seconds,
                                                           bool later);

}  // namespace fogwright
