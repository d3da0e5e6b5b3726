// SPDX-License-Identifier: Apache-2.0
#include "crash_disk.hpp"

#include <sqlite3.h>

#include <algorithm>
#include <set>

namespace store_test {
namespace {

constexpr std::size_t sector = 512;

void put(std::string& content, const Operation& operation, const std::function<bool()>& sector_arrives) {
  const auto offset = static_cast<std::size_t>(operation.offset);
  if (operation.kind == Operation::Kind::truncate) {
    if (sector_arrives()) content.resize(offset);
    return;
  }
  for (std::size_t at = 0; at < operation.bytes.size();) {
    const std::size_t end = std::min(operation.bytes.size(), ((offset + at) / sector + 1) * sector - offset);
    if (sector_arrives()) {
      content.resize(std::max(content.size(), offset + end));
      content.replace(offset + at, end - at, operation.bytes, at, end - at);
    }
    at = end;
  }
}

void put_all(std::string& content, const std::vector<Operation>& operations) {
  for (const Operation& operation : operations) put(content, operation, [] { return true; });
}

void put_some(std::string& content, const std::vector<Operation>& operations, std::mt19937& dice) {
  for (const Operation& operation : operations) {
    const unsigned fate = dice() % 4;  // lost, kept, or each sector for itself
    put(content, operation, [&] { return fate == 1 || (fate >= 2 && dice() % 2 == 0); });
  }
}

}  // namespace

CrashDisk::CrashDisk(Image start) : start_(std::move(start)) {}

int CrashDisk::before(const Operation& operation) {
  if (operation.kind != Operation::Kind::sync) return SQLITE_OK;
  return ++syncs_ == failing_sync_ ? SQLITE_IOERR_FSYNC : SQLITE_OK;
}

void CrashDisk::after(const Operation& operation, bool failed) { operations_.emplace_back(operation, failed); }

void CrashDisk::carry_out(Files& files, const Operation& operation, bool failed) {
  File& file = files[operation.file];
  switch (operation.kind) {
    case Operation::Kind::create:
      // An unlink that may still be undone would bring the old file back in place of the new one.
      file.named = file.removed;
      file.removed = false;
      if (!file.named) file.durable.clear();
      file.pending = {{Operation::Kind::truncate, operation.file, 0}};
      break;
    case Operation::Kind::write:
    case Operation::Kind::truncate:
      file.pending.push_back(operation);
      break;
    case Operation::Kind::sync:
      if (failed) {
        file.doomed.insert(file.doomed.end(), file.pending.begin(), file.pending.end());
      } else {
        put_all(file.durable, file.pending);
        file.named = true;
        std::erase_if(file.doomed, [&](const Operation& lost) {
          return std::any_of(file.pending.begin(), file.pending.end(), [&](const Operation& later) {
            const auto end = later.offset + static_cast<std::int64_t>(later.bytes.size());
            return later.kind == Operation::Kind::truncate
                       ? lost.offset >= later.offset
                       : lost.offset >= later.offset &&
                             lost.offset + static_cast<std::int64_t>(lost.bytes.size()) <= end;
          });
        });
      }
      file.pending.clear();
      break;
    case Operation::Kind::remove:
      if (operation.folder_too) {
        files.erase(operation.file);
      } else {
        file.removed = true;
      }
      break;
  }
}

Image CrashDisk::image_of(const Files& files, unsigned seed, std::mt19937& dice) {
  Image image;
  for (const auto& [name, file] : files) {
    if (file.removed && (seed == 1 || (seed > 1 && dice() % 2 == 0))) continue;
    if (!file.named && (seed == 0 || (seed > 1 && dice() % 2 == 0))) continue;
    std::string content = file.durable;
    if (seed == 1) put_all(content, file.pending);
    if (seed > 1) {
      put_some(content, file.doomed, dice);
      put_some(content, file.pending, dice);
    }
    image.emplace(name, std::move(content));
  }
  return image;
}

std::int64_t CrashDisk::acknowledged_at(std::size_t point) const {
  std::int64_t entries = 0;
  for (const auto& [at, count] : acknowledged_) {
    if (at <= point) entries = count;
  }
  return entries;
}

void CrashDisk::each_image(
    unsigned seeds, const std::function<void(const Image& image, std::int64_t acknowledged)>& look) const {
  Files files;
  for (const auto& [name, content] : start_) files[name].durable = content;
  std::set<std::pair<std::int64_t, std::size_t>> seen;
  for (std::size_t point = 0;; ++point) {
    for (unsigned seed = 0; seed < seeds; ++seed) {
      std::mt19937 dice(static_cast<unsigned>(point * 1000 + seed));
      const Image image = image_of(files, seed, dice);
      std::string all;
      for (const auto& [name, content] : image) all += name + '\0' + content + '\0';
      if (seen.emplace(acknowledged_at(point), std::hash<std::string>()(all)).second) {
        look(image, acknowledged_at(point));
      }
    }
    if (point == operations_.size()) return;
    carry_out(files, operations_[point].first, operations_[point].second);
  }
}

}  // namespace store_test
