// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <vector>

#include "fogwright/store.hpp"
#include "store/tables.hpp"

namespace fogwright {

/// Writes entries one after the other inside a transaction, with the nodes and documents that follow from them.
class Appender {
 public:
  struct Place {
    BookReader& reader;
    BookWriter& writer;
    MutableDocuments& documents;
    const std::string& origin;
    Fold fold;
  };

  Appender(const Place& place, TreeState state, std::int64_t received_ms)
      : place_(place), state_(std::move(state)), received_ms_(received_ms) {}

  /// Refuses what the record format does not allow, and an id that stands for something else (bad_entry). An
  /// entry that is there already gets its receipt again.
  [[nodiscard]] Result<void> add(NewEntry entry);

  [[nodiscard]] bool wrote() const { return wrote_; }
  [[nodiscard]] const TreeState& state() const { return state_; }
  [[nodiscard]] const std::vector<Receipt>& receipts() const { return receipts_; }

 private:
  Result<void> add_again(Entry entry, std::int64_t seq);
  Result<void> add_new(Entry entry);

  Place place_;
  TreeState state_;
  std::int64_t received_ms_;
  bool wrote_ = false;
  std::vector<Receipt> receipts_;
};

}  // namespace fogwright
