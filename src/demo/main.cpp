// SPDX-License-Identifier: Apache-2.0
// fogwright-demo FOLDER SOURCE: plays a season of the demo world into a new book in FOLDER. SOURCE is this
// tree.
#include <iostream>

#include "demo/season.hpp"

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "usage: fogwright-demo FOLDER SOURCE\n";
    return 2;
  }
  return fogwright::demo::Season(argv[1], argv[2]).play();
}
