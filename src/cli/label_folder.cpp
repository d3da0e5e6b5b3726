// SPDX-License-Identifier: Apache-2.0
#include "cli/label_folder.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <algorithm>
#include <filesystem>

namespace fogwright {
namespace {

bool is_file_name(const std::string& text) {
  return text.find('/') != std::string::npos || text.ends_with(".toml") || text == "-";
}

std::string folded(std::string text) {
  for (char& c : text) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    if (c == ' ' || c == '_') c = '-';
  }
  return text;
}

tl::expected<std::shared_ptr<const Label>, Faults> load_file(const std::string& path) {
  const auto text = read_file(path);
  if (!text) return tl::make_unexpected(Faults{text.error()});
  auto label = read_label(*text, path);
  if (!label) return tl::make_unexpected(std::move(label.error()));
  return std::make_shared<const Label>(std::move(*label));
}

}  // namespace

std::vector<std::string> label_folders(const Outside& outside) {
  if (const auto set = outside.environment("FOGWRIGHT_LABELS"); set && !set->empty()) return {*set};
  if (const auto data = outside.environment("XDG_DATA_HOME"); data && !data->empty())
    return {*data + "/fogwright/labels"};
  if (const auto home = outside.environment("HOME"); home && !home->empty())
    return {*home + "/.local/share/fogwright/labels"};
  return {};
}

std::vector<std::string> profile_files(const std::string& folder) {
  std::vector<std::string> files;
  std::error_code fault;
  for (std::filesystem::directory_iterator entry(folder, fault), end; !fault && entry != end;
       entry.increment(fault))
    if (entry->path().extension() == ".toml") files.push_back(entry->path().string());
  std::sort(files.begin(), files.end());
  return files;
}

tl::expected<std::shared_ptr<const Label>, Faults> load_label(const std::string& file_or_name,
                                                              const Outside& outside) {
  if (is_file_name(file_or_name)) return load_file(file_or_name);
  std::vector<std::string> known;
  for (const std::string& folder : label_folders(outside))
    for (const std::string& file : profile_files(folder)) {
      const std::string stem = std::filesystem::path(file).stem().string();
      if (folded(stem) == folded(file_or_name)) return load_file(file);
      known.push_back(stem);
    }
  return tl::make_unexpected(
      Faults{{ErrorCode::not_found, fmt::format("no profile is called \"{}\"", file_or_name), "--label",
              known.empty() ? "give a file, e.g. --label product_profiles_demo/fenmist-rtu.toml, or set "
                              "FOGWRIGHT_LABELS to the folder "
                              "that holds your profiles"
                            : fmt::format("known: {}", fmt::join(known, ", "))}});
}

}  // namespace fogwright
