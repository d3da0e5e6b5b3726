# SPDX-License-Identifier: Apache-2.0
# What `make` builds compiles several files of a target together (CMAKE_UNITY_BUILD): a quarter of the work, since most of it
# is reading the same headers. Files that use a name of their own which another file of the target uses too are compiled
# apart. A new clash shows as an error of that build: give the name another word, or add the file here.

set(FOGWRIGHT_APART
  src/cli/crew_command.cpp src/cli/erase_command.cpp src/cli/firm_command.cpp src/cli/fogger_command.cpp src/cli/job_import.cpp src/cli/job_run_hold.cpp
  src/cli/printing.cpp src/cli/product_command.cpp
  src/cli/program.cpp src/cli/retention_text.cpp src/cli/stock_command.cpp
  src/dose/dilution.cpp
  src/paper/chart_text.cpp src/paper/json_write.cpp src/paper/plot.cpp src/paper/words_es.cpp
  src/paper/pdf/callout.cpp src/paper/pdf/pictures.cpp
  src/report/rows.cpp
  src/asking/routes_crew.cpp src/asking/routes_reading.cpp
  src/store/audit.cpp src/store/import.cpp
  tests/air/curve_test.cpp tests/air/haze_test.cpp tests/air/inverse_test.cpp tests/air/moisture_test.cpp
  tests/air/property_test.cpp tests/air/release_test.cpp
  tests/audit/job_pairs.cpp
  tests/cli/job_command_test.cpp tests/cli/paper_command_test.cpp tests/cli/stock_commands_test.cpp
  tests/gate/release_test.cpp
  tests/server/tls_test.cpp
  tests/store/fault_test.cpp)

function(fogwright_together target)
  get_target_property(sources ${target} SOURCES)
  cmake_path(RELATIVE_PATH CMAKE_CURRENT_SOURCE_DIR BASE_DIRECTORY "${PROJECT_SOURCE_DIR}" OUTPUT_VARIABLE folder)
  foreach(source IN LISTS sources)
    if("${folder}/${source}" IN_LIST FOGWRIGHT_APART)
      set_source_files_properties(${source} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON)
    endif()
  endforeach()
endfunction()
