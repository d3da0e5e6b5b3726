// SPDX-License-Identifier: Apache-2.0
#include "cli/progress.hpp"

#include <fmt/format.h>

#include <ostream>

namespace fogwright {

Progress progress_line(Outside& outside, std::string what) {
  if (!outside.err_is_terminal) return [](std::int64_t, std::int64_t) {};
  return [&outside, what = std::move(what), start = outside.now_ms(), shown = std::int64_t{0}](
             std::int64_t done, std::int64_t total) mutable {
    const std::int64_t now = outside.now_ms();
    const bool last = done >= total;
    if (now - start < 1000 || (!last && now - shown < 100)) return;
    shown = now;
    constexpr std::int64_t width = 30;
    const std::int64_t filled = total > 0 ? done * width / total : width;
    outside.err << fmt::format("\r{} [{}{}] {} of {}{}", what,
                               std::string(static_cast<std::size_t>(filled), '='),
                               std::string(static_cast<std::size_t>(width - filled), ' '), done, total,
                               last ? "\n" : "")
                << std::flush;
  };
}

}  // namespace fogwright
