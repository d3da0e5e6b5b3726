// SPDX-License-Identifier: Apache-2.0
#include "fogwright/machine.hpp"

#include <dlfcn.h>

#include <vector>

namespace fogwright {
namespace {

namespace fs = std::filesystem;

/// Beside the program, as a build leaves it, and where an install puts it.
std::vector<fs::path> candidates(const std::string& file) {
  std::error_code none;
  const fs::path folder = fs::read_symlink("/proc/self/exe", none).parent_path();
  std::vector<fs::path> paths = {folder / file, folder / "../lib/fogwright" / file};
#ifdef FOGWRIGHT_MODULE_FOLDER
  paths.push_back(fs::path(FOGWRIGHT_MODULE_FOLDER) / file);
#endif
  return paths;
}

fs::path first_that_exists(const std::vector<fs::path>& paths) {
  std::error_code none;
  for (const auto& path : paths)
    if (fs::exists(path, none)) return path;
  return {};
}

std::string hint_of(const Module& module) {
  return "Install Fogwright whole, or build it again" + (module.hint.empty() ? "." : "; " + module.hint + ".");
}

}  // namespace

Result<void*> module_symbol(const Module& module, const char* function) {
  const fs::path path = module.path.empty() ? first_that_exists(candidates(module.file)) : module.path;
  if (path.empty())
    return fail(ErrorCode::file_fault,
                "The module that " + module.what + " was not found beside the program or in ../lib/fogwright.",
                module.file, hint_of(module));
  void* const handle = dlopen(path.c_str(), RTLD_NOW | RTLD_LOCAL);
  if (handle == nullptr)
    return fail(ErrorCode::file_fault, "The module that " + module.what + " cannot be loaded: " + dlerror(),
                path.string(), hint_of(module));
  void* const symbol = dlsym(handle, function);
  if (symbol == nullptr)
    return fail(ErrorCode::file_fault, "This module is of another version of the program.", path.string(),
                hint_of(module));
  return symbol;
}

}  // namespace fogwright
