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
       "  target_link_libraries(${target} INTERFACE fogwright_browser_libraries)\n"
       "endif()\n")
endfunction()

fogwright_browser_headers(tl-expected tl::expected tl)
fogwright_browser_headers(fmt fmt::fmt fmt)
fogwright_browser_headers(nlohmann_json nlohmann_json::nlohmann_json nlohmann)
fogwright_browser_headers(tomlplusplus tomlplusplus::tomlplusplus toml++)
fogwright_browser_headers(FastFloat FastFloat::fast_float fast_float)
fogwright_browser_headers(date date::date date)

# Nothing of the engine asks for locales, for numbers wider than a double, or for streams: without them a quarter less
# to load. What would throw leaves its step through JavaScript (src/browser/before_all.hpp).
add_compile_definitions(FMT_STATIC_THOUSANDS_SEPARATOR=',' FMT_USE_FLOAT=0 FMT_USE_LONG_DOUBLE=0 FMT_USE_INT128=0
                        TOML_HEADER_ONLY=0 TOML_ENABLE_FORMATTERS=0 TOML_FLOAT_CHARCONV=1 TOML_INT_CHARCONV=1)
add_compile_options(-include "${PROJECT_SOURCE_DIR}/src/browser/before_all.hpp")

# What is slow to compile in every file is compiled once: fmt (as its own src/format.cc does) and toml++.
file(WRITE "${PROJECT_BINARY_DIR}/libraries/fmt.cpp" [[
#include <fmt/format-inl.h>
FMT_BEGIN_NAMESPACE
namespace detail {
template dragonbox::decimal_fp<double> dragonbox::to_decimal(double) noexcept;
template thousands_sep_result<char> thousands_sep_impl(locale_ref);
template char decimal_point_impl(locale_ref);
template void buffer<char>::append(const char*, const char*);
template void vformat_to(buffer<char>&, string_view, basic_format_args<FMT_BUFFER_CONTEXT(char)>, locale_ref);
}
FMT_END_NAMESPACE
]])
file(WRITE "${PROJECT_BINARY_DIR}/libraries/toml.cpp" "#define TOML_IMPLEMENTATION\n#include <toml++/toml.h>\n")
add_library(fogwright_browser_libraries STATIC "${PROJECT_BINARY_DIR}/libraries/fmt.cpp"
                                               "${PROJECT_BINARY_DIR}/libraries/toml.cpp")
target_include_directories(fogwright_browser_libraries SYSTEM PUBLIC "${FOGWRIGHT_BROWSER_HEADERS}")
target_compile_features(fogwright_browser_libraries PUBLIC cxx_std_20)
target_compile_options(fogwright_browser_libraries PRIVATE -fno-exceptions)

# Headers that most files include are compiled once for all layers.
set(FOGWRIGHT_BROWSER_COMMON_HEADERS <algorithm> <functional> <map> <memory> <optional> <string> <vector> <fmt/format.h>
                                     <nlohmann/json.hpp> <tl/expected.hpp>)
