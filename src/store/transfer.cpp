// SPDX-License-Identifier: Apache-2.0
#include "store/transfer.hpp"

#include <fmt/format.h>

#include <deque>

#include "store/copy.hpp"
#include "store/sqlite_store.hpp"

namespace fogwright {
namespace {

constexpr std::int64_t leaves_at_a_time = 1024;

tl::unexpected<Faults> refuse(ErrorCode code, std::string message, std::string hint) {
  return tl::make_unexpected(Faults{{code, std::move(message), "book copy", std::move(hint)}});
}

std::int64_t count_private(Store& book) {
  std::int64_t count = 0;
  book.each_private([&](const PrivateBytes&) { ++count; });
  return count;
}

// Hands out leaves one by one that the store gives piece by piece.
class Leaves {
 public:
  Leaves(Store& book, std::int64_t size) : book_(book), size_(size) {}

  std::optional<std::string_view> next() {
    if (!piece_.empty()) piece_.pop_front();
    if (piece_.empty()) refill();
    return piece_.empty() ? std::nullopt : std::optional<std::string_view>(piece_.front());
  }

 private:
  void refill() {
    const std::int64_t end = std::min(size_, at_ + leaves_at_a_time);
    if (at_ < end)
      book_.each_leaf(at_, end, [&](std::int64_t, std::string_view leaf) { piece_.emplace_back(leaf); });
    at_ = end;
  }

  Store& book_;
  std::int64_t size_, at_ = 0;
  std::deque<std::string> piece_;
};

// Writing is the first half of the way, reading again the second.
Progress half_of(const Progress& progress, bool second) {
  if (!progress) return {};
  return [&progress, second](std::int64_t done, std::int64_t total) {
    progress(second ? total + done : done, 2 * total);
  };
}

// One moment of the source, whatever is written to it meanwhile.
tl::expected<std::int64_t, Faults> write_all(Store& from, Store& to, const Head& head,
                                             const Progress& progress) {
  Leaves leaves(from, head.size);
  ImportSource source;
  source.next = [&] { return leaves.next(); };
  source.total = head.size;
  source.name = "the source";
  source.beside = [&](const Head& copied) {
    if (copied.size != head.size || copied.root != head.root)
      throw StorageFault(ErrorCode::bad_book, "the entries of the source do not give its root",
                         "verify the source");
    for (const auto& [size, note] : from.checkpoints()) to.add_checkpoint(size, note);
    from.each_private([&](const PrivateBytes& kept) { to.keep_private(kept.hash_hex, kept.salt, kept.bytes); });
  };
  return to.import_from(source, progress);
}

Faults faults_of(const Verification& verification) {
  Faults faults;
  for (const Finding& finding : verification.findings)
    faults.push_back({ErrorCode::bad_book, finding.what,
                      finding.seq ? fmt::format("entry {} of the copy", *finding.seq) : "the copy",
                      "verify the source: what was wrong in it is wrong in the copy"});
  return faults;
}

}  // namespace

tl::expected<Transferred, Faults> transfer(Store& from, Store& to, const Progress& progress) {
  if (from.origin() != to.origin())
    return refuse(ErrorCode::already_exists,
                  fmt::format("the target is another book: {}, not {}", to.origin(), from.origin()),
                  "name a place where there is no book");
  if (to.head().size > 0 || !to.checkpoints().empty() || count_private(to) > 0)
    return refuse(ErrorCode::already_exists, "the target is not empty", "name a place where there is no book");
  Transferred done;
  tl::expected<std::int64_t, Faults> written;
  from.read([&](const Documents&, const Head& head) {
    done = {head, static_cast<std::int64_t>(from.checkpoints().size()), count_private(from)};
    written = write_all(from, to, head, half_of(progress, false));
  });
  if (!written) return tl::make_unexpected(written.error());
  const Verification verification = to.verify({}, VerifyDepth::all, half_of(progress, true));
  if (!verification.findings.empty()) return tl::make_unexpected(faults_of(verification));
  const bool same = verification.head.size == done.head.size && verification.head.root == done.head.root &&
                    static_cast<std::int64_t>(to.checkpoints().size()) == done.checkpoints &&
                    count_private(to) == done.private_bytes;
  if (!same)
    return refuse(ErrorCode::bad_book, "the copy is not what the source is",
                  "do not use the copy; report this");
  return done;
}

tl::expected<Transferred, Faults> copy_to_file(Store& from, const std::string& path, Fold fold,
                                               const Clock& clock, const Progress& progress) {
  tl::expected<Transferred, Faults> done;
  const auto fill = [&](const std::string& draft) {
    SqliteStore to(draft, fold, clock, {});
    done = transfer(from, to, progress);
    if (!done)
      throw StorageFault(done.error().front().code, done.error().front().message, done.error().front().hint);
  };
  try {
    make_book_file(path, from.origin(), clock(), fill);
  } catch (const StorageFault&) {
    if (done) throw;  // a fault of the storage, not of the books
  }
  return done;
}

}  // namespace fogwright
