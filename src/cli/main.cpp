// SPDX-License-Identifier: Apache-2.0
#include <iostream>

#include "cli/command.hpp"

int main(int argc, char** argv) {
  std::ios::sync_with_stdio(false);
  fogwright::Outside outside = fogwright::this_machine();
  return fogwright::run_program({argv + 1, argv + argc}, outside);
}
