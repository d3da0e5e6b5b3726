# SPDX-License-Identifier: Apache-2.0
# One static library a layer. Flags are private to our own targets.

include(FogwrightTogether)

function(fogwright_flags target)
  if(CMAKE_UNITY_BUILD)
    fogwright_together(${target})
  endif()
  target_compile_features(${target} PUBLIC cxx_std_20)
  set_target_properties(${target} PROPERTIES CXX_EXTENSIONS OFF)
  if(FOGWRIGHT_DEVELOP)
    target_compile_options(${target} PRIVATE -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror)
  endif()
  if(FOGWRIGHT_SANITIZE)
    target_compile_options(${target} PRIVATE -fsanitize=${FOGWRIGHT_SANITIZE} -fno-sanitize-recover=all
                                             -fno-omit-frame-pointer)
    target_link_options(${target} PUBLIC -fsanitize=${FOGWRIGHT_SANITIZE})
  endif()
  if(FOGWRIGHT_FUZZ)
    target_compile_options(${target} PRIVATE -fsanitize=fuzzer-no-link)
  endif()
  if(EMSCRIPTEN)
    target_compile_options(${target} PRIVATE -fno-exceptions) # with them a sixth more to load
  endif()
endfunction()

# fogwright_layer(NAME SOURCES a.cpp ... HEADERS a.hpp ... NEEDS lower layers ... LIBRARIES outside libraries ...)
# HEADERS are the layer's public headers in include/fogwright; each must compile alone. A layer that has some is
# installed with them; one that has none (a surface) is not.
function(fogwright_layer name)
  cmake_parse_arguments(LAYER "" "" "SOURCES;HEADERS;NEEDS;LIBRARIES" ${ARGN})
  # Header-only, fmt costs 3 s of compiling a file; its library costs 0.4 s.
  list(TRANSFORM LAYER_LIBRARIES REPLACE "^fmt::fmt-header-only$" "fmt::fmt")
  set(target fogwright_${name})
  add_library(${target} STATIC ${LAYER_SOURCES})
  add_library(fogwright::${name} ALIAS ${target})
  set_target_properties(${target} PROPERTIES EXPORT_NAME ${name})
  if(NOT EMSCRIPTEN)
    set_target_properties(${target} PROPERTIES POSITION_INDEPENDENT_CODE ON)
  elseif(TARGET fogwright_quantity AND NOT name STREQUAL "quantity")
    target_precompile_headers(${target} REUSE_FROM fogwright_quantity)
  else()
    target_precompile_headers(${target} PRIVATE ${FOGWRIGHT_BROWSER_COMMON_HEADERS})
  endif()
  if(FOGWRIGHT_DEVELOP)
    set_target_properties(${target} PROPERTIES VERIFY_INTERFACE_HEADER_SETS ON)
  endif()
  target_include_directories(${target} PRIVATE "${PROJECT_SOURCE_DIR}/src")
  list(TRANSFORM LAYER_NEEDS PREPEND "fogwright::")
  target_link_libraries(${target} PUBLIC tl::expected ${LAYER_NEEDS} PRIVATE ${LAYER_LIBRARIES})
  fogwright_flags(${target})
  if(LAYER_HEADERS)
    list(TRANSFORM LAYER_HEADERS PREPEND "${PROJECT_SOURCE_DIR}/include/fogwright/")
    target_sources(${target} PUBLIC FILE_SET HEADERS BASE_DIRS "${PROJECT_SOURCE_DIR}/include" FILES ${LAYER_HEADERS})
    install(TARGETS ${target} EXPORT fogwright FILE_SET HEADERS)
    set_property(GLOBAL APPEND PROPERTY FOGWRIGHT_OUTSIDE_LIBRARIES tl::expected ${LAYER_LIBRARIES})
  else()
    target_include_directories(${target} PUBLIC "${PROJECT_SOURCE_DIR}/include")
  endif()
endfunction()

# fogwright_module(NAME SOURCES ... NEEDS layers ... LIBRARIES outside libraries ...): libfogwright_NAME.so, which
# src/machine/module.hpp loads at its first use. It shows nothing but the functions that it exports.
function(fogwright_module name)
  cmake_parse_arguments(MODULE "" "" "SOURCES;NEEDS;LIBRARIES" ${ARGN})
  set(target fogwright_${name}_module)
  add_library(${target} MODULE ${MODULE_SOURCES})
  list(TRANSFORM MODULE_NEEDS PREPEND "fogwright::")
  target_link_libraries(${target} PRIVATE ${MODULE_NEEDS} ${MODULE_LIBRARIES})
  target_include_directories(${target} PRIVATE "${PROJECT_SOURCE_DIR}/src")
  target_link_options(${target} PRIVATE -Wl,--exclude-libs,ALL)
  fogwright_flags(${target})
  set_target_properties(${target} PROPERTIES
    OUTPUT_NAME fogwright_${name} LIBRARY_OUTPUT_DIRECTORY "${PROJECT_BINARY_DIR}"
    CXX_VISIBILITY_PRESET hidden VISIBILITY_INLINES_HIDDEN ON)
  install(TARGETS ${target} LIBRARY DESTINATION lib/fogwright)
endfunction()

# Writes and installs the package that find_package(fogwright) reads. What it must find in turn follows from the
# outside libraries of the installed layers: the package of "fmt::fmt" is fmt.
function(fogwright_install_package)
  include(CMakePackageConfigHelpers)
  get_property(libraries GLOBAL PROPERTY FOGWRIGHT_OUTSIDE_LIBRARIES)
  list(FILTER libraries INCLUDE REGEX "::")
  set(packages ${libraries})
  list(TRANSFORM packages REPLACE "^tl::.*" "tl-expected")
  list(TRANSFORM packages REPLACE "^SQLite::.*" "SQLite3")
  list(TRANSFORM packages REPLACE "^Boost::(.*)" "Boost COMPONENTS \\1")
  list(TRANSFORM packages REPLACE "::.*" "")
  list(REMOVE_DUPLICATES packages)
  list(TRANSFORM packages REPLACE "(.+)" "find_dependency(\\1)")
  list(JOIN packages "\n" FOGWRIGHT_FIND_DEPENDENCIES)

  set(folder "${CMAKE_INSTALL_LIBDIR}/cmake/fogwright")
  configure_package_config_file("${PROJECT_SOURCE_DIR}/scripts/cmake/fogwrightConfig.cmake.in"
                                "${PROJECT_BINARY_DIR}/fogwrightConfig.cmake" INSTALL_DESTINATION "${folder}")
  write_basic_package_version_file("${PROJECT_BINARY_DIR}/fogwrightConfigVersion.cmake"
                                   COMPATIBILITY SameMinorVersion)
  install(FILES "${PROJECT_BINARY_DIR}/fogwrightConfig.cmake" "${PROJECT_BINARY_DIR}/fogwrightConfigVersion.cmake"
          DESTINATION "${folder}")
  install(EXPORT fogwright NAMESPACE fogwright:: FILE fogwrightTargets.cmake DESTINATION "${folder}")
endfunction()
