// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <vector>

#include "fogwright/store.hpp"

namespace fogwright::server {

/// Opens the book once more. Errors: those of opening it.
using OpenBook = std::function<Result<std::unique_ptr<Store>>()>;

/// One book, opened several times: a store serves one thread at a time. Those who write wait here and not at
/// the writers' lock, so that readers find a store at once.
class Books {
 public:
  /// Opens one store; others are opened when they are wanted, `most_readers` of them at most. Errors: those of
  /// opening.
  [[nodiscard]] static Result<std::unique_ptr<Books>> open(OpenBook open, int most_readers);

  /// A store that is the caller's alone while this lives.
  class Lease {
   public:
    Lease(Books& books, std::unique_ptr<Store> store) : books_(&books), store_(std::move(store)) {}
    Lease(Lease&&) noexcept = default;
    Lease& operator=(Lease&&) = delete;
    ~Lease();
    Store& operator*() const { return *store_; }
    Store* operator->() const { return store_.get(); }

   private:
    Books* books_;
    std::unique_ptr<Store> store_;
  };
  /// Waits where all are in use. Throws StorageFault where the book cannot be opened.
  [[nodiscard]] Lease reader();

  /// Runs `work` on the store that writes, one caller at a time. After a fault that was not resolved the book
  /// is opened anew for the next caller.
  void write(const std::function<void(Store& store)>& work);

 private:
  Books(OpenBook open, int most_readers) : open_(std::move(open)), free_places_(most_readers) {}
  [[nodiscard]] std::unique_ptr<Store> open_now();
  void give_back(std::unique_ptr<Store> store);

  OpenBook open_;
  std::mutex mutex_;
  std::condition_variable freed_;
  std::vector<std::unique_ptr<Store>> idle_;
  int free_places_;  ///< how many more may be opened
  std::mutex writing_;
  std::unique_ptr<Store> writer_;
};

}  // namespace fogwright::server
