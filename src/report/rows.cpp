// SPDX-License-Identifier: Apache-2.0
#include "report/rows.hpp"

#include <fmt/format.h>
#include <algorithm>
#include <chrono>
#include <map>
#include <set>

#include "desk/csv.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

/// Names that end in `_ms` and tell how long, not when.
constexpr std::string_view durations[] = {"actual_ms", "elapsed_ms", "floor_ms",
                                          "total_ms",  "uptime_ms",  "time_ms"};

bool is_moment(std::string_view name) {
  name.remove_prefix(name.rfind('.') + 1);  // npos + 1 is 0
  return (name == "ms" || name.ends_with("_ms")) &&
         std::find(std::begin(durations), std::end(durations), name) == std::end(durations);
}

std::string moment_text(std::int64_t ms) {
  using namespace std::chrono;
  const auto at = floor<seconds>(sys_time<milliseconds>{milliseconds{ms}});
  const auto day = floor<days>(at);
  const year_month_day date{day};
  const hh_mm_ss time{at - day};
  return fmt::format("{:04}-{:02}-{:02} {:02}:{:02}:{:02}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                     time.hours().count(), time.minutes().count(), time.seconds().count());
}

std::string json_text(const json& value) { return value.dump(-1, ' ', false, json::error_handler_t::replace); }

bool is_word(const json& value) {
  return value.is_string() && value.get_ref<const std::string&>().find(';') == std::string::npos;
}

std::string cell(const json& value) {
  if (value.is_null()) return {};
  if (value.is_string()) return csv_guarded(value.get_ref<const std::string&>());
  if (!value.is_array() || !std::all_of(value.begin(), value.end(), is_word)) return json_text(value);
  std::string words;
  for (const json& one : value) words += (words.empty() ? "" : "; ") + one.get<std::string>();
  return csv_guarded(words);
}

using Cells = std::map<std::string, std::string>;

void flatten(const std::string& name, const json& value, Cells& cells) {
  if (value.is_object() && !name.empty() && value.empty()) return;
  if (value.is_object()) {
    for (const auto& [member, inner] : value.items())
      flatten(name.empty() ? member : name + "." + member, inner, cells);
  } else if (is_moment(name) && value.is_number_integer()) {
    cells[name.substr(0, name.size() - 2) + "utc"] = moment_text(value.get<std::int64_t>());
  } else if (is_moment(name) && value.is_null()) {
    cells[name.substr(0, name.size() - 2) + "utc"] = {};
  } else {
    cells[name] = cell(value);
  }
}

/// The members of an object that are single values.
json singles(const json& object) {
  json kept = json::object();
  for (const auto& [member, value] : object.items())
    if (value.is_primitive()) kept[member] = value;
  return kept;
}

std::vector<std::string> all_columns(const std::vector<Cells>& rows,
                                     const std::vector<std::string_view>& first) {
  std::vector<std::string> columns(first.begin(), first.end());
  std::set<std::string> more;
  for (const Cells& row : rows)
    for (const auto& [name, text] : row) more.insert(name);
  for (const std::string& name : more)
    if (std::find(first.begin(), first.end(), name) == first.end()) columns.push_back(name);
  return columns;
}

}  // namespace

json rows_at(const json& shown, std::string_view at) {
  if (at == ".") return json::array({shown});
  const auto dot = at.find('.');
  const json& list = shown.at(std::string(at.substr(0, dot)));
  if (dot == std::string_view::npos) return list;
  json rows = json::array();
  for (const json& outer : list)
    for (const json& inner : rows_at(outer, at.substr(dot + 1))) {
      json row = singles(outer);
      row.update(inner);
      rows.push_back(std::move(row));
    }
  return rows;
}

std::string rows_csv(const json& rows, const std::vector<std::string_view>& columns) {
  std::vector<Cells> cells(rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) flatten({}, rows[i], cells[i]);
  const auto names = all_columns(cells, columns);
  std::string out = csv_line(names);
  for (const Cells& row : cells) {
    std::vector<std::string> fields;
    for (const std::string& name : names) {
      const auto found = row.find(name);
      fields.push_back(found == row.end() ? std::string() : found->second);
    }
    out += csv_line(fields);
  }
  return out;
}

std::string rows_json_lines(const json& rows) {
  std::string out;
  for (const json& row : rows) out += json_text(row) + '\n';
  return out;
}

}  // namespace fogwright
