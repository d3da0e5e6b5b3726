// SPDX-License-Identifier: Apache-2.0
#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "cli/outside.hpp"
#include "cli/replace_file.hpp"

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

tl::unexpected<Error> cannot_write(const std::string& path) {
  const int code = errno;
  return fail(code == EEXIST ? ErrorCode::already_exists : ErrorCode::file_fault,
              fmt::format("{} cannot be written: {}", path, std::strerror(code)), path,
              code == EEXIST ? "choose another name; nothing is overwritten"
                             : "check the folder, the permissions and the space");
}

bool write_and_sync(int file, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = write(file, bytes.data(), bytes.size());
    if (written <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return fsync(file) == 0;
}

/// A durable file of another name beside the one that is wanted; errno tells what went wrong.
std::optional<std::string> write_draft(const std::string& path, std::string_view bytes, mode_t mode) {
  std::string draft = fmt::format("{}.{}.tmp", path, getpid());
  const int file = open(draft.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
  if (file < 0) return std::nullopt;
  const bool good = write_and_sync(file, bytes);
  close(file);
  if (good) return draft;
  unlink(draft.c_str());
  return std::nullopt;
}

// A name is durable once its folder is.
bool sync_folder_of(const std::string& path) {
  const auto folder = std::filesystem::path(path).parent_path();
  const int file = open(folder.empty() ? "." : folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  const bool good = file >= 0 && fsync(file) == 0;
  if (file >= 0) close(file);
  return good;
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

// A file of that name is whole or not there.
Result<void> write_new_file(const std::string& path, std::string_view bytes, bool only_for_owner) {
  const auto draft = write_draft(path, bytes, only_for_owner ? 0600 : 0644);
  if (!draft) return cannot_write(path);
  const bool good = link(draft->c_str(), path.c_str()) == 0;  // link refuses where the name is taken
  auto refused = good ? Result<void>() : Result<void>(cannot_write(path));
  unlink(draft->c_str());
  return refused;
}

Result<void> replace_file(const std::string& path, std::string_view bytes) {
  const auto draft = write_draft(path, bytes, 0644);
  if (!draft) return cannot_write(path);
  if (rename(draft->c_str(), path.c_str()) == 0 && sync_folder_of(path)) return {};
  auto refused = cannot_write(path);
  unlink(draft->c_str());
  return refused;
}

}  // namespace fogwright
