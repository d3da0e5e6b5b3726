// SPDX-License-Identifier: Apache-2.0
/// What both engines export; call.js puts it into the words of a page.

#include <emscripten.h>

#include <cstdlib>
#include <cstring>

#include "browser/answer.hpp"

extern "C" {

/// plan_answer() of two texts that end in a zero. The caller hands the answer to fogwright_free().
EMSCRIPTEN_KEEPALIVE char* fogwright_plan(const char* request_json, const char* label_toml) {
  return strdup(fogwright::plan_answer(request_json, label_toml).c_str());
}

EMSCRIPTEN_KEEPALIVE void fogwright_free(char* answer) { std::free(answer); }
}
