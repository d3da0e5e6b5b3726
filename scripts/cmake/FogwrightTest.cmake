# SPDX-License-Identifier: Apache-2.0
# How the test folders declare what they hold.

# fogwright_test(NAME SOURCES a.cpp ... LIBRARIES targets ...)
# One Catch2 program, run in an order of its own each time (the seed is printed).
function(fogwright_test name)
  if(FOGWRIGHT_FUZZ)
    return()
  endif()
  cmake_parse_arguments(TEST "" "" "SOURCES;LIBRARIES" ${ARGN})
  add_executable(${name}_test ${TEST_SOURCES})
  fogwright_test_paths(${name}_test)
  target_link_libraries(${name}_test PRIVATE fogwright_test_main rapidcheck ${TEST_LIBRARIES})
  fogwright_flags(${name}_test)
  target_compile_options(${name}_test PRIVATE -O0) # a third of the compile time; the layers keep their own level
  add_test(NAME ${name} COMMAND ${name}_test --order rand --rng-seed time)
endfunction()

# fogwright_fuzz(NAME SOURCE fuzz_x.cpp LIBRARIES targets ...)
# The source defines LLVMFuzzerTestOneInput. In the fuzz preset it becomes fuzz_NAME, which searches; everywhere
# else a driver replays the inputs kept in tests/corpus/NAME, so that what once broke stays mended.
function(fogwright_fuzz name)
  cmake_parse_arguments(FUZZ "" "SOURCE" "LIBRARIES" ${ARGN})
  set(target fuzz_${name})
  set(corpus "${PROJECT_SOURCE_DIR}/tests/corpus/${name}")
  add_executable(${target} ${FUZZ_SOURCE})
  fogwright_test_paths(${target})
  target_link_libraries(${target} PRIVATE ${FUZZ_LIBRARIES})
  fogwright_flags(${target})
  if(FOGWRIGHT_FUZZ)
    target_link_options(${target} PRIVATE -fsanitize=fuzzer)
    if(NOT TARGET fuzz_targets)
      add_custom_target(fuzz_targets)
    endif()
    add_dependencies(fuzz_targets ${target})
    set_property(TARGET ${target} PROPERTY RUNTIME_OUTPUT_DIRECTORY "${PROJECT_BINARY_DIR}/fuzz")
  else()
    target_sources(${target} PRIVATE "${PROJECT_SOURCE_DIR}/tests/fuzz_replay.cpp")
    add_test(NAME ${target} COMMAND ${target} "${corpus}")
  endif()
endfunction()

function(fogwright_test_paths target)
  target_include_directories(${target} PRIVATE "${PROJECT_SOURCE_DIR}/src" "${PROJECT_SOURCE_DIR}/include")
  target_compile_definitions(${target} PRIVATE FOGWRIGHT_SOURCE_DIR="${PROJECT_SOURCE_DIR}"
                                               FOGWRIGHT_BINARY_DIR="${PROJECT_BINARY_DIR}")
endfunction()
