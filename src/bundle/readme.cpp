// SPDX-License-Identifier: Apache-2.0
#include "bundle/readme.hpp"

#include <fmt/format.h>

namespace fogwright::bundle {
namespace {

constexpr const char* contents = R"(Evidence from the book {origin}
{count} of its {size} entries

What is in here

  entries.jsonl        the entries, one a line, each with the very bytes that were written down
  book.checkpoint      the book's size and the root hash of all its entries, signed{cosigned}
  proofs/N.tlog-proof  shows that entry N is in that book (left out where all entries are here)
  book.vkey            the public key that signed
{private}  labels/              the labels that were worked by, as they were adopted
  papers/              papers made from the entries, where there are any
  manifest.txt         SHA-256 of every file here, signed with the same key
  verify-book.py       checks all of it; Python 3, nothing else needed
)";

constexpr const char* how = R"(
How to check it without the firm and without its program

  1. Get the firm's public key from where you first got it (a contract, a paper, its office), not from this file,
     and save it as trusted.vkey.
  2. python3 verify-book.py --bundle THIS_FILE.zip trusted.vkey
     To demand a witness as well: --witness witness.vkey
  3. If you hold a checkpoint that the firm gave you earlier, ask for its whole book as an export, and check that
     against both: python3 verify-book.py book.jsonl book.checkpoint trusted.vkey yours.checkpoint

verify-book.py came with this file: whoever made the file could have changed it. Compare it with another copy, or read
it; it is meant to be read. The formats are public: RFC 9162 section 2.1 (tree and proofs), C2SP signed-note,
tlog-checkpoint, tlog-cosignature and tlog-proof. One leaf hash by hand:
  (printf '\0'; printf %s "$line") | sha256sum

What it shows

  If all holds, these entries are, byte for byte, entries of the book that the checkpoint was made of. If a witness
  has cosigned that checkpoint, or if you hold it yourself, nobody could change them afterwards without being found.

What it does not show

  - that an entry was true when it was written, or who was holding the device
  - that what happened was written down at all, or that nothing else was (a bundle is a choice of entries)
  - when an entry was written: the times in it come from the clocks of the device and of the book; only a
    cosignature has the time of somebody else
  - anything that is not here but was erased: of that only a salted hash is left
)";

}  // namespace

std::string readme(const std::string& origin, std::size_t entries, std::uint64_t size, bool cosigned,
                   bool with_private) {
  return fmt::format(
             fmt::runtime(contents), fmt::arg("origin", origin), fmt::arg("count", entries),
             fmt::arg("size", size),
             fmt::arg("cosigned",
                      cosigned
                          ? "\n  cosigned.*           the newest checkpoint that a witness has cosigned, and "
                            "the proof that the\n                       book goes on from it"
                          : ""),
             fmt::arg("private", with_private
                                     ? "  private.jsonl        names, addresses and the like that stand "
                                       "beside the record, with their salt\n"
                                     : "")) +
         how;
}

}  // namespace fogwright::bundle
