// SPDX-License-Identifier: Apache-2.0
/// What the engine with the desk exports beside the plan; engine.js puts it into the words of a page.

#include <emscripten.h>

#include <cstring>

#include "browser/calls.hpp"

extern "C" {

/// desk_call() to the one desk of the page, of a text that ends in a zero. The answer goes to fogwright_free().
EMSCRIPTEN_KEEPALIVE char* fogwright_desk(const char* call_json) {
  static fogwright::DeviceDesk desk;
  return strdup(fogwright::desk_call(desk, call_json).c_str());
}
}
