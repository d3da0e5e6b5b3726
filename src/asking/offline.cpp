// SPDX-License-Identifier: Apache-2.0
#include "asking/offline.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace fogwright {
namespace {

constexpr std::string_view offline_kinds[] = {"batch-mixed",
                                              "cartridge-retired",
                                              "cartridge-used",
                                              "container-moved",
                                              "container-opened",
                                              "container-received",
                                              "counted",
                                              "disposed",
                                              "drawn",
                                              "fog-ended",
                                              "fog-started",
                                              "fogger-tested",
                                              "job-cleared",
                                              "job-closed",
                                              "job-planned",
                                              "job-recorded",
                                              "job-released",
                                              "job-stopped",
                                              "note",
                                              "reading-taken",
                                              "release-refused",
                                              "requirement-lapsed",
                                              "requirement-met",
                                              "return-fogged",
                                              "returned",
                                              "spilled",
                                              "start-refused",
                                              "storage-read"};

}  // namespace

bool made_offline(std::string_view kind) {
  return std::find(std::begin(offline_kinds), std::end(offline_kinds), kind) != std::end(offline_kinds);
}

std::string name_offline(const Documents& now, const std::string& kind, const Uuid& id) {
  constexpr std::size_t digits = 6;
  const auto count = now.get("numbering", kind);
  const std::int64_t number = (count ? count->at("last").get<std::int64_t>() : 0) + 1;
  const char letter = kind == "job" ? 'J' : kind == "batch" ? 'B' : 'C';
  const std::string text = uuid_text(id);
  return fmt::format("{}{}-{}", letter, number, text.substr(text.size() - digits));
}

}  // namespace fogwright
