// SPDX-License-Identifier: Apache-2.0
#include "store/lock_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <thread>

#include "fogwright/store.hpp"

namespace fogwright {

using std::chrono::steady_clock;
using namespace std::chrono_literals;

LockFile::LockFile(const std::string& path)
    : descriptor_(::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600)) {
  if (descriptor_ >= 0) return;
  throw StorageFault(ErrorCode::file_fault,
                     fmt::format("the lock file {} cannot be opened: {}", path, std::strerror(errno)),
                     "check that you may write to the book's folder");
}

LockFile::~LockFile() { ::close(descriptor_); }

LockFile::Hold::~Hold() {
  if (file_ != nullptr && --file_->holds_ == 0) ::flock(file_->descriptor_, LOCK_UN);
}

LockFile::Hold LockFile::hold(std::chrono::milliseconds wait) {
  if (holds_ == 0) acquire(wait);
  ++holds_;
  return Hold(this);
}

// flock has no timeout of its own. Short naps first: most transactions take less than a millisecond.
void LockFile::acquire(std::chrono::milliseconds wait) {
  const auto until = steady_clock::now() + wait;
  for (std::chrono::microseconds nap = 50us;; nap = std::min<std::chrono::microseconds>(nap * 2, 5ms)) {
    if (::flock(descriptor_, LOCK_EX | LOCK_NB) == 0) return;
    if (errno != EWOULDBLOCK && errno != EINTR) {
      throw StorageFault(ErrorCode::storage_fault,
                         fmt::format("the book cannot be locked: {}", std::strerror(errno)),
                         "keep the book on a local disk");
    }
    if (steady_clock::now() >= until) {
      throw StorageFault(ErrorCode::storage_busy, "another process is writing to the book",
                         "wait until it is done and try again");
    }
    std::this_thread::sleep_for(nap);
  }
}

}  // namespace fogwright
