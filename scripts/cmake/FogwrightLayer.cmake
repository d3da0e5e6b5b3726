# SPDX-License-Identifier: Apache-2.0
# One static library a layer. Flags are private to our own targets.

function(fogwright_flags target)
  target_compile_features(${target} PUBLIC cxx_std_20)
  if(FOGWRIGHT_DEVELOP)
    target_compile_options(${target} PRIVATE -Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror)
  endif()
  if(FOGWRIGHT_SANITIZE)
    target_compile_options(${target} PRIVATE -fsanitize=${FOGWRIGHT_SANITIZE} -fno-sanitize-recover=all
                                             -fno-omit-frame-pointer)
    target_link_options(${target} PUBLIC -fsanitize=${FOGWRIGHT_SANITIZE})
  endif()
endfunction()

# fogwright_layer(NAME SOURCES a.cpp ... NEEDS lower layers ... LIBRARIES outside libraries ...)
# The public headers of a layer are include/fogwright/NAME.hpp and those listed as HEADERS.
function(fogwright_layer name)
  cmake_parse_arguments(LAYER "" "" "SOURCES;HEADERS;NEEDS;LIBRARIES" ${ARGN})
  add_library(fogwright_${name} STATIC ${LAYER_SOURCES})
  add_library(fogwright::${name} ALIAS fogwright_${name})
  set_target_properties(fogwright_${name} PROPERTIES EXPORT_NAME ${name} POSITION_INDEPENDENT_CODE ON)
  if(FOGWRIGHT_DEVELOP)
    set_target_properties(fogwright_${name} PROPERTIES VERIFY_INTERFACE_HEADER_SETS ON)
  endif()
  list(TRANSFORM LAYER_HEADERS PREPEND "${PROJECT_SOURCE_DIR}/include/fogwright/")
  target_sources(fogwright_${name} PUBLIC FILE_SET HEADERS BASE_DIRS "${PROJECT_SOURCE_DIR}/include" FILES
                 ${LAYER_HEADERS})
  target_include_directories(fogwright_${name} PRIVATE "${PROJECT_SOURCE_DIR}/src")
  list(TRANSFORM LAYER_NEEDS PREPEND "fogwright::")
  target_link_libraries(fogwright_${name} PUBLIC tl::expected ${LAYER_NEEDS} PRIVATE ${LAYER_LIBRARIES})
  fogwright_flags(fogwright_${name})
endfunction()
