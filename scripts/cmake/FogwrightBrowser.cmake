# SPDX-License-Identifier: Apache-2.0
# Debian's header libraries for Emscripten. Their own packages point at /usr/include, where the host's C library
# lives; here they are offered through a folder of links that holds nothing else.
set(FOGWRIGHT_BROWSER_HEADERS "${PROJECT_BINARY_DIR}/headers")
set(CMAKE_FIND_ROOT_PATH_MODE_PACKAGE NEVER) # else the packages below are looked for inside the sysroot only

# fogwright_browser_headers(PACKAGE TARGET FOLDER): find_package(PACKAGE) gives TARGET, with /usr/include/FOLDER.
function(fogwright_browser_headers package target folder)
  file(MAKE_DIRECTORY "${FOGWRIGHT_BROWSER_HEADERS}")
  file(CREATE_LINK "/usr/include/${folder}" "${FOGWRIGHT_BROWSER_HEADERS}/${folder}" SYMBOLIC)
  string(TOLOWER "${package}" file)
  file(WRITE "${CMAKE_FIND_PACKAGE_REDIRECTS_DIR}/${file}-config.cmake"
       "if(NOT TARGET ${target})\n"
       "  add_library(${target} INTERFACE IMPORTED GLOBAL)\n"
       "  target_include_directories(${target} INTERFACE \"${FOGWRIGHT_BROWSER_HEADERS}\")\n"
       "  target_compile_definitions(${target} INTERFACE FMT_HEADER_ONLY=1)\n"
       "endif()\n")
endfunction()

fogwright_browser_headers(tl-expected tl::expected tl)
fogwright_browser_headers(fmt fmt::fmt fmt)
fogwright_browser_headers(nlohmann_json nlohmann_json::nlohmann_json nlohmann)
fogwright_browser_headers(tomlplusplus tomlplusplus::tomlplusplus toml++)
fogwright_browser_headers(FastFloat FastFloat::fast_float fast_float)
fogwright_browser_headers(date date::date date)
