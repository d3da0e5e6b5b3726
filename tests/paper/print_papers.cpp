// SPDX-License-Identifier: Apache-2.0
/// print_papers FOLDER: writes every paper in both languages and sizes, as PDF and HTML, to be looked at.
#include <filesystem>
#include <fstream>

#include "demo_papers.hpp"

int main(int argc, char** argv) {
  using namespace fogwright;
  if (argc != 2) return 2;
  const std::filesystem::path folder = argv[1];
  std::filesystem::create_directories(folder);
  const std::pair<paper::Language, const char*> languages[] = {{paper::Language::en, "en"},
                                                               {paper::Language::es, "es"}};
  const std::pair<paper::PageSize, const char*> sizes[] = {{paper::PageSize::letter, "letter"},
                                                           {paper::PageSize::a4, "a4"}};
  for (const auto& [language, tongue] : languages)
    for (const auto& [size, page] : sizes)
      for (const auto& [name, sheet] : test::all_papers(language, size)) {
        const std::string file = name + "-" + tongue + "-" + page;
        const auto pdf = paper::pdf_of(sheet);
        if (!pdf) return 1;
        std::ofstream(folder / (file + ".pdf"), std::ios::binary) << *pdf;
        std::ofstream(folder / (file + ".html"), std::ios::binary) << paper::html_of(sheet);
      }
  return 0;
}
