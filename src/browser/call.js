// SPDX-License-Identifier: Apache-2.0
// Part of the engines' JavaScript files. Texts go through the heap: ccall would put them on the small stack.
const askEngine = (call, ...texts) => {
  const handed = texts.map(allocateUTF8);
  const answer = call(...handed);
  const text = UTF8ToString(answer);
  for (const pointer of [...handed, answer]) _fogwright_free(pointer);
  return text;
};

/** The answer to a plan request: two texts in, JSON text out (src/browser/answer.hpp). */
Module["plan"] = (requestJson, labelToml) => askEngine(_fogwright_plan, requestJson, labelToml);
