// SPDX-License-Identifier: Apache-2.0
/// What jobs used against their plan.
#include <algorithm>

#include "press/parts.hpp"

namespace fogwright::press {

using nlohmann::json;

namespace {

bool wanted(const json& job, const UsedFilter& filter) {
  const auto is = [&](const char* member, const std::string& asked) {
    return asked.empty() || job.value(member, std::string()) == asked;
  };
  return is("technician", filter.technician) && is("fogger", filter.fogger) && is("product", filter.product);
}

}  // namespace

std::vector<UsedLine> used_lines(const Source& source, const UsedFilter& filter) {
  std::vector<UsedLine> lines;
  source.now.each("job", false, [&](const std::string& id, const json& job) {
    if (!job.contains("used_ul") || !job.contains("fog_ended") || !wanted(job, filter)) return;
    UsedLine line;
    line.job = id;
    line.technician = job.at("technician");
    line.fogger = job.value("fogger", std::string());
    line.product = job.at("product");
    line.at_ms = job["fog_ended"].at("ms");
    line.planned_ul = job.at("plan").at("volume_ul").at("target");
    line.used_ul = job["used_ul"];
    if (line.planned_ul <= 0) return;
    line.off_by_percent =
        100.0 * static_cast<double>(line.used_ul - line.planned_ul) / static_cast<double>(line.planned_ul);
    lines.push_back(std::move(line));
  });
  std::stable_sort(lines.begin(), lines.end(),
                   [](const UsedLine& a, const UsedLine& b) { return a.at_ms < b.at_ms; });
  return lines;
}

}  // namespace fogwright::press
