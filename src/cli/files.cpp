// SPDX-License-Identifier: Apache-2.0
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "cli/outside.hpp"

namespace fogwright {
namespace {

Result<std::string> read_stream(std::istream& in, const std::string& path, std::size_t largest) {
  // Piece by piece: a small file shall not pay for the largest one.
  constexpr std::size_t piece = 16'384;
  std::string text;
  while (in && text.size() <= largest) {
    const std::size_t before = text.size();
    text.resize(before + piece);
    in.read(text.data() + before, piece);
    text.resize(before + static_cast<std::size_t>(in.gcount()));
  }
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

Result<void> write_new_file(const std::string& path, std::string_view bytes, bool only_for_owner) {
  const auto fault = [&path] {
    const int code = errno;
    return fail(code == EEXIST ? ErrorCode::already_exists : ErrorCode::file_fault,
                fmt::format("{} cannot be written: {}", path, std::strerror(code)), path,
                code == EEXIST ? "choose another name; nothing is overwritten"
                               : "check the folder, the permissions and the space");
  };
  // Written and synced under another name first: a file of that name is whole or not there.
  const std::string draft = fmt::format("{}.{}.tmp", path, getpid());
  const int file = open(draft.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, only_for_owner ? 0600 : 0644);
  if (file < 0) return fault();
  bool good = true;
  for (std::size_t done = 0; good && done < bytes.size();) {
    const ssize_t written = write(file, bytes.data() + done, bytes.size() - done);
    good = written > 0;
    if (good) done += static_cast<std::size_t>(written);
  }
  good = good && fsync(file) == 0;
  close(file);
  good = good && link(draft.c_str(), path.c_str()) == 0;  // link refuses where the name is taken
  if (!good) {
    auto refused = fault();
    unlink(draft.c_str());
    return refused;
  }
  unlink(draft.c_str());
  return {};
}

}  // namespace fogwright
