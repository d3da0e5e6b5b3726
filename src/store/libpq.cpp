// SPDX-License-Identifier: Apache-2.0
#include "store/libpq.hpp"

#include <dlfcn.h>

#include "fogwright/store.hpp"

namespace fogwright::pq {
namespace {

[[noreturn]] void missing(const std::string& why) {
  throw StorageFault(ErrorCode::file_fault, "PostgreSQL's client library cannot be loaded: " + why,
                     "install the package libpq5");
}

template <class Function>
void find(void* module, const char* name, Function& function) {
  function = reinterpret_cast<Function>(dlsym(module, name));
  if (function == nullptr) missing(std::string("it has no ") + name);
}

Library load() {
  void* const module = dlopen("libpq.so.5", RTLD_NOW | RTLD_LOCAL);
  if (module == nullptr) missing(dlerror());
  Library loaded;
#define FOGWRIGHT_LIBPQ_FIND(name) find(module, #name, loaded.name);
  FOGWRIGHT_LIBPQ_FUNCTIONS(FOGWRIGHT_LIBPQ_FIND)
#undef FOGWRIGHT_LIBPQ_FIND
  return loaded;
}

}  // namespace

const Library& library() {
  static const Library loaded = load();
  return loaded;
}

}  // namespace fogwright::pq
