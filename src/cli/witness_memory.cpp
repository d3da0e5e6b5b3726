// SPDX-License-Identifier: Apache-2.0
#include "cli/witness_memory.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

#include "cli/outside.hpp"
#include "cli/replace_file.hpp"

namespace fogwright {
namespace {

constexpr std::string_view blank_line = "\n\n";

// A note is its text, a blank line, its signatures.
std::string_view cut_note(std::string_view& text) {
  const std::size_t middle = text.find(blank_line);
  const std::size_t end = middle == text.npos ? text.npos : text.find(blank_line, middle + blank_line.size());
  const std::string_view note = text.substr(0, end == text.npos ? end : end + 1);
  text.remove_prefix(std::min(text.size(), note.size() + 1));
  return note;
}

}  // namespace

Result<WitnessMemory> WitnessMemory::read(const std::string& path) {
  WitnessMemory memory;
  memory.path_ = path;
  std::error_code ignored;
  if (!std::filesystem::exists(path, ignored)) return memory;
  const auto text = read_file(path);
  if (!text) return tl::make_unexpected(text.error());
  for (std::string_view rest = *text; !rest.empty();) {
    const std::string note(cut_note(rest));
    auto checkpoint = read_note(note).and_then([](const Note& read) { return read_checkpoint(read.text); });
    if (!checkpoint)
      return fail(ErrorCode::not_understood,
                  fmt::format("what the witness has cosigned cannot be read: {}", checkpoint.error().message),
                  path, "restore this file: without it a fork of a book could not be seen");
    memory.kept_.push_back({std::move(*checkpoint), note});
  }
  return memory;
}

std::optional<Checkpoint> WitnessMemory::seen(std::string_view origin) const {
  for (const Kept& kept : kept_)
    if (kept.checkpoint.origin == origin) return kept.checkpoint;
  return std::nullopt;
}

Result<void> WitnessMemory::keep(const Checkpoint& checkpoint, std::string_view note) {
  std::erase_if(kept_, [&](const Kept& kept) { return kept.checkpoint.origin == checkpoint.origin; });
  kept_.push_back({checkpoint, std::string(note)});
  std::string text;
  for (const Kept& kept : kept_) text += (text.empty() ? "" : "\n") + kept.note;
  return replace_file(path_, text);
}

}  // namespace fogwright
