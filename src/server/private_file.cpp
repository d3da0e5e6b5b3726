// SPDX-License-Identifier: Apache-2.0
#include "server/private_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

#include "fogwright/store.hpp"

namespace fogwright::server {
namespace {

class File {
 public:
  File(const std::string& path, int flags) : descriptor_(::open(path.c_str(), flags | O_CLOEXEC, 0600)) {}
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  ~File() {
    if (descriptor_ >= 0) ::close(descriptor_);
  }
  [[nodiscard]] int get() const { return descriptor_; }
  [[nodiscard]] bool is_open() const { return descriptor_ >= 0; }

 private:
  int descriptor_;
};

[[noreturn]] void give_up(const std::string& path) {
  throw StorageFault(ErrorCode::file_fault, fmt::format("{} cannot be written: {}", path, std::strerror(errno)),
                     "check the disk, and that you may write to the folder");
}

bool write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t count = ::write(descriptor, bytes.data(), bytes.size());
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

}  // namespace

Result<std::string> read_private_file(const std::string& path) {
  const File file(path, O_RDONLY | O_NOFOLLOW);
  if (!file.is_open() && errno == ENOENT) return std::string();
  struct stat facts {};
  if (!file.is_open() || ::fstat(file.get(), &facts) != 0)
    return fail(ErrorCode::file_fault, fmt::format("the file cannot be read: {}", std::strerror(errno)), path,
                "check that you may read it");
  if ((facts.st_mode & 0077U) != 0)
    return fail(ErrorCode::file_fault, "others may read this file of secrets", path,
                fmt::format("chmod 600 {}", path));
  std::string text(static_cast<std::size_t>(facts.st_size), '\0');
  if (::read(file.get(), text.data(), text.size()) != static_cast<ssize_t>(text.size()))
    return fail(ErrorCode::file_fault, "the file cannot be read whole", path, "check the disk");
  return text;
}

void replace_private_file(const std::string& path, std::string_view bytes) {
  const std::string fresh = path + ".new";
  {
    const File file(fresh, O_WRONLY | O_CREAT | O_TRUNC | O_NOFOLLOW);
    if (!file.is_open() || !write_all(file.get(), bytes) || ::fsync(file.get()) != 0) give_up(fresh);
  }
  if (std::rename(fresh.c_str(), path.c_str()) != 0) give_up(path);
  const std::filesystem::path folder = std::filesystem::absolute(path).parent_path();
  const File directory(folder.string(), O_RDONLY | O_DIRECTORY);
  if (!directory.is_open() || ::fsync(directory.get()) != 0) give_up(path);
}

}  // namespace fogwright::server
