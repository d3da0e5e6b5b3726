// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "cli/outside.hpp"

namespace fogwright {
namespace {

Result<std::string> read_stream(std::istream& in, const std::string& path, std::size_t largest) {
  std::string text(largest + 1, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  text.resize(static_cast<std::size_t>(in.gcount()));
  if (in.bad())
    return fail(ErrorCode::file_fault, fmt::format("{} could not be read", path), path, "check the disk");
  if (text.size() > largest)
    return fail(ErrorCode::out_of_range, fmt::format("{} is larger than {} bytes", path, largest), path,
                "this is not a file that fogwright reads");
  return text;
}

}  // namespace

Result<std::string> read_file(const std::string& path, std::size_t largest) {
  if (path == "-") return read_stream(std::cin, "standard input", largest);
  std::error_code ignored;
  if (std::filesystem::is_directory(path, ignored))
    return fail(ErrorCode::file_fault, fmt::format("{} is a folder", path), path, "name a file in it");
  errno = 0;
  std::ifstream in(path, std::ios::binary);
  if (!in)
    return fail(ErrorCode::file_fault, fmt::format("{} cannot be opened: {}", path, std::strerror(errno)), path,
                "check the name and the permissions");
  return read_stream(in, path, largest);
}

}  // namespace fogwright
