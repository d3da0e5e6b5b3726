// SPDX-License-Identifier: Apache-2.0
#include "server/books.hpp"

namespace fogwright::server {

Result<std::unique_ptr<Books>> Books::open(OpenBook open, int most_readers) {
  auto first = open();
  if (!first) return tl::make_unexpected(first.error());
  std::unique_ptr<Books> books(new Books(std::move(open), most_readers));
  books->writer_ = std::move(*first);
  return books;
}

std::unique_ptr<Store> Books::open_now() {
  auto store = open_();
  if (!store) throw StorageFault(store.error().code, store.error().message, store.error().hint);
  return std::move(*store);
}

Books::Lease Books::reader() {
  std::unique_lock lock(mutex_);
  freed_.wait(lock, [this] { return !idle_.empty() || free_places_ > 0; });
  if (!idle_.empty()) {
    auto store = std::move(idle_.back());
    idle_.pop_back();
    return {*this, std::move(store)};
  }
  --free_places_;
  lock.unlock();
  try {
    return {*this, open_now()};
  } catch (...) {
    give_back(nullptr);
    throw;
  }
}

void Books::give_back(std::unique_ptr<Store> store) {
  {
    const std::lock_guard lock(mutex_);
    if (store)
      idle_.push_back(std::move(store));
    else
      ++free_places_;
  }
  freed_.notify_one();
}

Books::Lease::~Lease() {
  if (store_) books_->give_back(std::move(store_));
}

void Books::write(const std::function<void(Store& store)>& work) {
  const std::lock_guard lock(writing_);
  if (!writer_) writer_ = open_now();
  try {
    work(*writer_);
  } catch (const StorageFault& fault) {
    if (fault.code() != ErrorCode::storage_busy) writer_.reset();
    throw;
  }
}

}  // namespace fogwright::server
