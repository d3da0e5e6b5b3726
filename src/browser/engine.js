// SPDX-License-Identifier: Apache-2.0
// Part of the engine's JavaScript file. Texts go through the heap: ccall would put them on the small stack.

/** The answer to a plan request: two texts in, JSON text out (src/browser/answer.hpp). */
Module["plan"] = (requestJson, labelToml) => {
  const request = allocateUTF8(requestJson);
  const label = allocateUTF8(labelToml);
  const answer = _fogwright_plan(request, label);
  const text = UTF8ToString(answer);
  for (const pointer of [request, label, answer]) _fogwright_free(pointer);
  return text;
};
