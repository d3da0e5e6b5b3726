// SPDX-License-Identifier: Apache-2.0
#include "store/document_text.hpp"

#include <fmt/format.h>

#include "fogwright/store.hpp"

namespace fogwright {

nlohmann::json document_of(std::string_view kind, std::string_view key, std::string_view text) {
  auto parsed = nlohmann::json::parse(text.begin(), text.end(), nullptr, false);
  if (!parsed.is_discarded()) return parsed;
  throw StorageFault(ErrorCode::bad_book, fmt::format("the document {} {} is damaged", kind, key),
                     "derive the documents anew with: fogwright book rebuild");
}

}  // namespace fogwright
