// SPDX-License-Identifier: Apache-2.0
#include "store/pq_fault.hpp"

#include <fmt/format.h>

#include "fogwright/store.hpp"

namespace fogwright::pq {
namespace {

struct Meaning {
  std::string_view state;  // SQLSTATE, or its first two characters: the class
  ErrorCode code;
  const char* what;
  const char* hint;
};

constexpr const char* try_again = "wait until it is done and try again";
constexpr const char* see_server = "look at the server's log, then try again";

// PostgreSQL documentation, appendix "PostgreSQL Error Codes". The first that fits counts.
constexpr Meaning meanings[] = {
    {"55P03", ErrorCode::storage_busy, "another process holds the book", try_again},
    {"57014", ErrorCode::storage_busy, "the server stopped the statement", try_again},
    {"40", ErrorCode::storage_busy, "another process got in between", try_again},
    {"53300", ErrorCode::storage_busy, "the server takes no more connections",
     "close other programs, or raise max_connections on the server"},
    {"53100", ErrorCode::storage_fault, "the server's disk is full", "make room on that disk and try again"},
    {"53", ErrorCode::storage_fault, "the server is short of something", see_server},
    {"57P", ErrorCode::storage_fault, "the server shut down or was restarted",
     "nothing is lost; try again when it runs"},
    {"25P03", ErrorCode::storage_fault, "the server ended a transaction that stood still", "try again"},
    {"08", ErrorCode::storage_fault, "the connection to the server was lost", see_server},
    {"58", ErrorCode::storage_fault, "the server's system reports an error", see_server},
    {"25006", ErrorCode::file_fault, "the server only reads",
     "name the server that is written to, not its standby"},
    {"42501", ErrorCode::file_fault, "this role may not do that on the server",
     "let the owner of the book grant it, see: fogwright book create --grant-to"},
    {"3F000", ErrorCode::not_found, "there is no book of this name", "make one with: fogwright book create"},
    {"42P01", ErrorCode::bad_book, "a table of the book is missing", "restore the database from a backup"},
    {"42704", ErrorCode::not_found, "the server knows no role of this name",
     "make the role on the server first"},
    {"XX001", ErrorCode::bad_book, "the server's data is damaged",
     "verify the book; restore the database from a backup"},
    {"XX002", ErrorCode::bad_book, "an index on the server is damaged",
     "verify the book; let the owner of the database run REINDEX"},
    {"22", ErrorCode::storage_fault, "the database cannot hold this text",
     "leave characters of the number 0 out of names"},
};

Meaning meaning_of(std::string_view state) {
  if (state.empty())
    return {"", ErrorCode::storage_fault, "the connection to the server was lost",
            "check that the server runs, then try again"};
  for (const Meaning& meaning : meanings)
    if (state.starts_with(meaning.state)) return meaning;
  return {"", ErrorCode::internal_fault, "the book's storage refused a statement", "report this as a defect"};
}

}  // namespace

void throw_fault(std::string_view state, const std::string& detail) {
  const Meaning meaning = meaning_of(state);
  throw StorageFault(meaning.code,
                     fmt::format("{} ({}{}{})", meaning.what, detail, state.empty() ? "" : ", code ", state),
                     meaning.hint);
}

}  // namespace fogwright::pq
