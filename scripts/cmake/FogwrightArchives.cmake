# SPDX-License-Identifier: Apache-2.0
# Debian has fmt and toml++ as shared objects only, and each would bring the shared C++ library to every start. For the
# release they are archives made from their own headers, one file each.

function(fogwright_archive target name options text)
  set(source "${PROJECT_BINARY_DIR}/archives/${name}.cpp")
  file(CONFIGURE OUTPUT "${source}" CONTENT "${text}" @ONLY)
  add_library(fogwright_${name}_archive STATIC "${source}")
  target_compile_features(fogwright_${name}_archive PRIVATE cxx_std_20)
  target_compile_options(fogwright_${name}_archive PRIVATE ${options})
  set_target_properties(fogwright_${name}_archive PROPERTIES POSITION_INDEPENDENT_CODE ON)
  add_dependencies(${target} fogwright_${name}_archive)
  set_target_properties(${target} PROPERTIES
    IMPORTED_LOCATION "${PROJECT_BINARY_DIR}/libfogwright_${name}_archive.a"
    IMPORTED_LOCATION_NONE "${PROJECT_BINARY_DIR}/libfogwright_${name}_archive.a"
    INTERFACE_COMPILE_DEFINITIONS "" INTERFACE_COMPILE_OPTIONS "")
endfunction()

# Every function of the header goes into the object, used there or not.
fogwright_archive(fmt::fmt fmt "-DFMT_HEADER_ONLY=1;-fkeep-inline-functions" "#include <fmt/format.h>\n")
fogwright_archive(tomlplusplus::tomlplusplus toml "-DTOML_HEADER_ONLY=0"
                  "#define TOML_IMPLEMENTATION\n#include <toml++/toml.h>\n")
set_target_properties(tomlplusplus::tomlplusplus PROPERTIES INTERFACE_COMPILE_OPTIONS "-DTOML_HEADER_ONLY=0")
