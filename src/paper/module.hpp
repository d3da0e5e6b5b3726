// SPDX-License-Identifier: Apache-2.0
#pragma once

#include <cstddef>

namespace fogwright::paper {

/// The one function of the module, in C so that either side may be built by another compiler. Reads a paper as
/// JSON (UTF-8), hands the PDF's bytes to `sink` in order; returns 0, or 1 with a sentence in `why`.
using PdfSink = void(void* to, const char* bytes, std::size_t count);
using PdfFunction = int(const char* json, std::size_t size, PdfSink* sink, void* to, char* why,
                        std::size_t why_size);
inline constexpr auto pdf_function_name = "fogwright_paper_pdf_1";  ///< the number changes with the JSON

}  // namespace fogwright::paper
