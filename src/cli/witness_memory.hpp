// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fogwright/book/checkpoint.hpp"

namespace fogwright {

/// What a witness has cosigned: of each book the last checkpoint, with its signatures, so that it can be shown
/// if the book turns out to be forked. A text file: notes with a blank line between.
class WitnessMemory {
 public:
  /// A file that is not there is an empty memory. Errors: file_fault, not_understood where it is damaged.
  [[nodiscard]] static Result<WitnessMemory> read(const std::string& path);

  /// The last checkpoint of this book; none if nothing of it was cosigned.
  [[nodiscard]] std::optional<Checkpoint> seen(std::string_view origin) const;

  /// Puts this checkpoint in the place of the book's last one, durably. Errors: file_fault.
  [[nodiscard]] Result<void> keep(const Checkpoint& checkpoint, std::string_view note);

 private:
  struct Kept {
    Checkpoint checkpoint;
    std::string note;
  };
  std::string path_;
  std::vector<Kept> kept_;
};

}  // namespace fogwright
