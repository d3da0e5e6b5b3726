// SPDX-License-Identifier: Apache-2.0
#include "office/desk_book.hpp"

#include <fmt/format.h>

#include "fogwright/desk/fold.hpp"

namespace fogwright {
namespace {

/// An empty book has no documents yet, and so none of another version.
std::int64_t derived_by(Store& store) {
  std::int64_t version = fold_version;
  store.read([&](const Documents& now, const Head& head) {
    if (head.size > 0) version = fold_version_of(now);
  });
  return version;
}

void derive_anew(Store& store, const Progress& progress) {
  std::vector<std::string> differing;
  try {
    store.rebuild(differing, progress);
  } catch (const StorageFault& fault) {
    if (fault.code() != ErrorCode::bad_book) throw;  // an entry that was changed is for verify to name
  }
}

}  // namespace

Result<std::unique_ptr<Store>> open_desk_book(const std::string& address, Clock clock,
                                              const std::function<void()>& told, const Progress& progress) {
  auto store = open_book(address, fold, std::move(clock));
  if (!store) return store;
  const std::int64_t version = derived_by(**store);
  if (version > fold_version)
    return fail(ErrorCode::newer_book,
                fmt::format("the documents of the book are of version {}, this program makes version {}",
                            version, fold_version),
                shown_address(address), "use a newer version of this program");
  if (version < fold_version) {
    told();
    derive_anew(**store, progress);
  }
  return store;
}

}  // namespace fogwright
