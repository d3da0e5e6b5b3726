// SPDX-License-Identifier: Apache-2.0
/// Finds and loads the module that sets a PDF. The program itself links no typesetting: it starts faster.

#include <array>

#include "fogwright/machine.hpp"
#include "fogwright/paper/document.hpp"
#include "paper/module.hpp"

namespace fogwright::paper {
namespace {

void append(void* to, const char* bytes, std::size_t count) {
  static_cast<std::string*>(to)->append(bytes, count);
}

}  // namespace

Result<std::string> pdf_of(const Paper& paper, const std::filesystem::path& module) {
  const auto function = module_function<PdfFunction>(
      {"libfogwright_paper.so", "makes PDFs", "HTML needs no module", module}, pdf_function_name);
  if (!function) return tl::make_unexpected(function.error());
  const std::string json = json_of(paper);
  std::string pdf;
  std::array<char, 256> why{};
  if ((*function)(json.data(), json.size(), append, &pdf, why.data(), why.size()) != 0)
    return fail(ErrorCode::internal_fault, std::string("The PDF could not be made: ") + why.data(), paper.title,
                "Report this with the paper's HTML.");
  return pdf;
}

}  // namespace fogwright::paper
