// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <algorithm>
#include <ostream>

#include "cli/paper_call.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// Whether the terminal shows more than ASCII: the first of these that is set decides (POSIX, locale
/// variables).
bool speaks_utf8(const Outside& outside) {
  for (const char* name : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    auto value = outside.environment(name);
    if (!value || value->empty()) continue;
    std::transform(value->begin(), value->end(), value->begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return value->find("utf-8") != std::string::npos || value->find("utf8") != std::string::npos;
  }
  return false;
}

/// One chart, as it stands in the JSON of a paper.
json chart_json(const paper::Chart& chart) {
  paper::Paper paper;
  paper.blocks.push_back(chart);
  return json::parse(paper::json_of(paper)).at("blocks").at(0);
}

}  // namespace

const OptionRow& svg_row() {
  static const OptionRow row = {"svg", "FILE", "write the chart as a picture instead; nothing is overwritten"};
  return row;
}

std::string chart_on_terminal(const Call& call, const paper::Chart& chart) {
  return paper::chart_text(chart, {call.style.width, 14, !speaks_utf8(call.outside)});
}

Outcome show_chart(const Call& call, const paper::Chart& chart, const std::vector<std::string>& notes) {
  if (const auto file = call.options.text("svg"))
    if (auto written = write_new_file(*file, paper::chart_svg(chart)); !written) return refuse(written.error());
  if (call.json) {
    json out = chart_json(chart);
    out["notes"] = notes;
    call.outside.out << out.dump(2) << '\n';
    return {};
  }
  Page page(call.style);
  if (const auto file = call.options.text("svg"))
    page.line(*file);
  else
    call.outside.out << chart_on_terminal(call, chart);
  if (!chart.summary.empty()) page.paragraph(chart.summary);
  for (const std::string& note : notes) page.paragraph(note);
  call.outside.out << std::move(page).take();
  return {};
}

}  // namespace fogwright
