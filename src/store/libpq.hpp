// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <libpq-fe.h>

/// The functions of PostgreSQL's client library that are used here. It brings some twenty libraries along (TLS,
/// directories, tickets), so it is loaded when the first address of a server is used and not at every start.
#define FOGWRIGHT_LIBPQ_FUNCTIONS(each)                                                                    \
  each(PQconninfoParse) each(PQconninfoFree) each(PQfreemem) each(PQconnectdbParams) each(PQfinish)        \
      each(PQpingParams) each(PQstatus) each(PQerrorMessage) each(PQsetNoticeProcessor) each(PQexec)       \
          each(PQprepare) each(PQexecPrepared) each(PQresultStatus) each(PQresultErrorField) each(PQclear) \
              each(PQcmdStatus) each(PQcmdTuples) each(PQntuples) each(PQgetvalue) each(PQgetlength)       \
                  each(PQgetisnull) each(PQtransactionStatus) each(PQsocket)

namespace fogwright::pq {

struct Library {
#define FOGWRIGHT_LIBPQ_MEMBER(name) decltype(&::name) name = nullptr;
  FOGWRIGHT_LIBPQ_FUNCTIONS(FOGWRIGHT_LIBPQ_MEMBER)
#undef FOGWRIGHT_LIBPQ_MEMBER
};

/// Loads it the first time. Throws StorageFault (file_fault) if this machine has none.
[[nodiscard]] const Library& library();

}  // namespace fogwright::pq
