// SPDX-License-Identifier: Apache-2.0
#include <emscripten.h>

#include <cstdint>

#include "asking/zone_fault.hpp"
#include "desk/readable.hpp"

extern "C" {
void* emscripten_stack_get_current();
void stackRestore(void* stack);
}

namespace {

EM_JS(void, throw_through, (), { throw Module.givenUp || (Module.givenUp = new Error("given up")); });

// Whether the step came to its end.
EM_JS(int, take, (unsigned step, void* about), {
  try {
    wasmTable.get(step)(about);
    return 1;
  } catch (fault) {
    if (fault != Module.givenUp) throw fault;
    return 0;
  }
});

}  // namespace

void fogwright_give_up() {
  throw_through();
  __builtin_unreachable();
}

namespace fogwright {

std::optional<std::string> why_unreadable(const std::function<void()>& step) {
  void* const stack = emscripten_stack_get_current();
  void (*const call)(void*) = [](void* about) { (*static_cast<const std::function<void()>*>(about))(); };
  const auto address = static_cast<unsigned>(reinterpret_cast<std::uintptr_t>(call));
  if (take(address, const_cast<std::function<void()>*>(&step)) != 0) return std::nullopt;
  stackRestore(stack);
  return "a member is missing, or of another type";
}

void no_zones(const Error&) { fogwright_give_up(); }

}  // namespace fogwright
