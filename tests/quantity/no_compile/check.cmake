# SPDX-License-Identifier: Apache-2.0
# cmake -DCOMPILER=... -DSOURCE=... -DINCLUDE=... -P check.cmake
# The source must compile, and must not with MISUSE defined: the twin shows that it is the misuse that fails.
function(compile result output)
  execute_process(COMMAND "${COMPILER}" -std=c++20 -fsyntax-only "-I${INCLUDE}" ${ARGN} "${SOURCE}"
                  RESULT_VARIABLE status ERROR_VARIABLE text OUTPUT_QUIET)
  set(${result} "${status}" PARENT_SCOPE)
  set(${output} "${text}" PARENT_SCOPE)
endfunction()

compile(good good_text)
if(NOT good EQUAL 0)
  message(FATAL_ERROR "the twin does not compile:\n${good_text}")
endif()
compile(bad bad_text -DMISUSE)
if(bad EQUAL 0)
  message(FATAL_ERROR "the misuse compiles")
endif()
get_filename_component(name "${SOURCE}" NAME)
if(NOT bad_text MATCHES "${name}:[0-9]+:[0-9]+: error")
  message(FATAL_ERROR "it fails, but not at the misuse:\n${bad_text}")
endif()
