// SPDX-License-Identifier: Apache-2.0
#include "cli/running_stretch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "cli/book_session.hpp"
#include "cli/replace_file.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/sha256.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

// Ids and origins hold characters that a file name must not.
std::string stretch_path(const Call& call, const std::string& origin, const std::string& job) {
  const auto folder = data_folder(call);
  if (!folder) return {};
  const std::string name = to_hex(as_bytes(sha256(origin + '\n' + job))).substr(0, 32);
  return fmt::format("{}/running/{}.json", *folder, name);
}

bool is_whole_stretch(const json& kept) {
  const auto has = [&](const char* member, bool (*is)(const json&)) {
    return kept.contains(member) && is(kept.at(member));
  };
  const auto texts = {"book", "job", "system", "return", "boot"};
  const auto times = {"before_ms", "opened_ms", "uptime_ms"};
  return std::all_of(texts.begin(), texts.end(),
                     [&](const char* m) { return has(m, [](const json& j) { return j.is_string(); }); }) &&
         std::all_of(times.begin(), times.end(), [&](const char* m) {
           return has(m, [](const json& j) { return j.is_number_unsigned(); });
         });
}

}  // namespace

std::int64_t open_ms(const RunningStretch& stretch, const Moment& now) noexcept {
  const Moment& then = stretch.opened;
  const bool one_boot = !then.clock.boot.empty() && then.clock.boot == now.clock.boot;
  return std::max<std::int64_t>(0, one_boot ? now.clock.uptime_ms - then.clock.uptime_ms : now.ms - then.ms);
}

StretchFile::StretchFile(const Call& call, std::string origin, std::string job)
    : origin_(std::move(origin)), job_(std::move(job)), path_(stretch_path(call, origin_, job_)) {}

void StretchFile::keep(const RunningStretch& stretch) const {
  if (path_.empty()) return;
  std::error_code ignored;  // writing says it
  std::filesystem::create_directories(std::filesystem::path(path_).parent_path(), ignored);
  const json kept = {{"book", origin_},
                     {"job", job_},
                     {"system", stretch.system},
                     {"return", stretch.name},
                     {"before_ms", stretch.before_ms},
                     {"opened_ms", stretch.opened.ms},
                     {"boot", stretch.opened.clock.boot},
                     {"uptime_ms", stretch.opened.clock.uptime_ms}};
  // The valve is open by now: nobody can mend a disk.
  (void)replace_file(path_, kept.dump() + "\n");
}

std::optional<RunningStretch> StretchFile::kept() const {
  if (path_.empty()) return std::nullopt;
  const auto text = read_file(path_, 10'000);
  if (!text) return std::nullopt;
  const json kept = json::parse(*text, nullptr, false);
  if (!is_whole_stretch(kept) || kept.at("book") != origin_ || kept.at("job") != job_) return std::nullopt;
  RunningStretch stretch;
  stretch.system = kept.at("system").get<std::string>();
  stretch.name = kept.at("return").get<std::string>();
  stretch.before_ms = kept.at("before_ms").get<std::int64_t>();
  stretch.opened.ms = kept.at("opened_ms").get<std::int64_t>();
  stretch.opened.clock = {kept.at("boot").get<std::string>(), kept.at("uptime_ms").get<std::int64_t>()};
  return stretch;
}

void StretchFile::remove() const {
  std::error_code ignored;  // one that stays is known by what the book has (before_ms)
  if (!path_.empty()) std::filesystem::remove(path_, ignored);
}

}  // namespace fogwright
