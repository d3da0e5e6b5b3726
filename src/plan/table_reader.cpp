// SPDX-License-Identifier: Apache-2.0
#include "plan/table_reader.hpp"

#include <fmt/format.h>

namespace fogwright {

using nlohmann::json;

const json* TableReader::member(const char* name) {
  known_.insert(name);
  const auto found = object_.find(name);
  return found == object_.end() || found->is_null() ? nullptr : &*found;
}

std::optional<std::string> TableReader::text(const char* name) {
  const json* value = member(name);
  if (!value) return std::nullopt;
  if (value->is_string() && value->get_ref<const std::string&>().size() <= 200)
    return value->get<std::string>();
  fault(name, fmt::format("{} is not a short text", name), "write it in quotes, at most 200 characters");
  return std::nullopt;
}

std::optional<std::string> TableReader::quantity_text(const char* name) {
  const json* value = member(name);
  if (!value) return std::nullopt;
  if (value->is_string()) return value->get<std::string>();
  fault(name, fmt::format("{} has no unit", name), "write it as text with its unit, e.g. \"2,400 sq ft\"");
  return std::nullopt;
}

std::optional<bool> TableReader::flag(const char* name) {
  const json* value = member(name);
  if (!value) return std::nullopt;
  if (value->is_boolean()) return value->get<bool>();
  fault(name, fmt::format("{} is neither true nor false", name), "write true or false, without quotes");
  return std::nullopt;
}

std::optional<std::int64_t> TableReader::whole(const char* name, std::int64_t low, std::int64_t high) {
  const json* value = member(name);
  if (!value) return std::nullopt;
  if (value->is_number_integer()) {
    const bool huge =
        value->is_number_unsigned() && value->get<std::uint64_t>() > static_cast<std::uint64_t>(high);
    if (!huge && value->get<std::int64_t>() >= low && value->get<std::int64_t>() <= high)
      return value->get<std::int64_t>();
  }
  fault(name, fmt::format("{} is not a whole number from {} to {}", name, low, high),
        "write a whole number in that range");
  return std::nullopt;
}

std::optional<double> TableReader::number(const char* name, double low, double high) {
  const json* value = member(name);
  if (!value) return std::nullopt;
  if (value->is_number()) {
    const double n = value->get<double>();
    if (n >= low && n <= high) return n;
  }
  fault(name, fmt::format("{} is not a number from {} to {}", name, low, high), "write a number in that range");
  return std::nullopt;
}

std::optional<TableReader> TableReader::table(const char* name) {
  const json* value = member(name);
  if (!value) return std::nullopt;
  if (value->is_object()) return TableReader(*value, at(name), reading_);
  fault(name, fmt::format("{} is not a table", name), fmt::format("write it as a table: [{}]", name));
  return std::nullopt;
}

void TableReader::tables(const char* name, const std::function<void(TableReader&)>& read) {
  const json* value = member(name);
  if (!value) return;
  if (!value->is_array())
    return fault(name, fmt::format("{} is not a list of tables", name), fmt::format("write [[{}]]", name));
  for (std::size_t i = 0; i < value->size(); ++i) {
    const std::string pointer = fmt::format("{}/{}", at(name), i);
    if (!(*value)[i].is_object()) {
      reading_.fault(pointer, fmt::format("entry {} of {} is not a table", i + 1, name),
                     fmt::format("write [[{}]]", name));
      continue;
    }
    TableReader entry((*value)[i], pointer, reading_);
    read(entry);
    entry.finish();
  }
}

void TableReader::finish() {
  for (const auto& item : object_.items())
    if (!known_.contains(item.key())) {
      std::string accepted;
      for (const std::string& name : known_) accepted += (accepted.empty() ? "" : ", ") + name;
      fault(item.key().c_str(), fmt::format("\"{}\" is not a known member", item.key()),
            "known here: " + accepted);
    }
}

}  // namespace fogwright
