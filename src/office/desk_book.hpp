// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <functional>
#include <memory>
#include <string>

#include "fogwright/store.hpp"

namespace fogwright {

/// Opens the book at an address for the desk. Documents that an earlier version of the program derived are
/// derived anew first: `told` is called before, and `progress` counts the entries. Where an entry cannot be
/// read they stay as they are, and `verify` says which it is. Errors: those of open_book; newer_book where a
/// later version derived them.
[[nodiscard]] Result<std::unique_ptr<Store>> open_desk_book(const std::string& address, Clock clock,
                                                            const std::function<void()>& told,
                                                            const Progress& progress);

}  // namespace fogwright
