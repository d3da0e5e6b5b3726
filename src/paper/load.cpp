// SPDX-License-Identifier: Apache-2.0
/// Finds and loads the module that sets a PDF. The program itself links no typesetting: it starts faster.

#include <dlfcn.h>

#include <array>

#include "fogwright/paper/document.hpp"
#include "paper/module.hpp"

namespace fogwright::paper {
namespace {

namespace fs = std::filesystem;
constexpr auto file_name = "libfogwright_paper.so";

/// Beside the program, as a build leaves it, and where an install puts it.
std::vector<fs::path> candidates() {
  std::error_code none;
  const fs::path folder = fs::read_symlink("/proc/self/exe", none).parent_path();
  std::vector<fs::path> paths = {folder / file_name, folder / "../lib/fogwright" / file_name};
#ifdef FOGWRIGHT_PAPER_BUILD_FOLDER
  paths.push_back(fs::path(FOGWRIGHT_PAPER_BUILD_FOLDER) / file_name);
#endif
  return paths;
}

fs::path first_that_exists(const std::vector<fs::path>& paths) {
  std::error_code none;
  for (const auto& path : paths)
    if (fs::exists(path, none)) return path;
  return {};
}

Result<PdfFunction*> load(const fs::path& path) {
  constexpr auto hint = "Install Fogwright whole, or build it again; HTML needs no module.";
  if (path.empty())
    return fail(ErrorCode::file_fault,
                "The module that makes PDFs was not found beside the program or in ../lib/fogwright.",
                file_name, hint);
  void* module = dlopen(path.c_str(), RTLD_NOW | RTLD_LOCAL);
  if (module == nullptr)
    return fail(ErrorCode::file_fault, std::string("The module that makes PDFs cannot be loaded: ") + dlerror(),
                path.string(), hint);
  auto* function = reinterpret_cast<PdfFunction*>(dlsym(module, pdf_function_name));
  if (function == nullptr)
    return fail(ErrorCode::file_fault, "This module is of another version of the program.", path.string(),
                hint);
  return function;
}

void append(void* to, const char* bytes, std::size_t count) {
  static_cast<std::string*>(to)->append(bytes, count);
}

}  // namespace

Result<std::string> pdf_of(const Paper& paper, const fs::path& module) {
  const auto function = load(module.empty() ? first_that_exists(candidates()) : module);
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
