// SPDX-License-Identifier: Apache-2.0
#include <regex>

#include "fogwright/paper.hpp"
#include "golden.hpp"
#include "shell.hpp"

using namespace fogwright;
using namespace fogwright::paper;

namespace {

Paper with(std::vector<Block> blocks) {
  Paper paper;
  paper.title = "A test";
  paper.blocks = std::move(blocks);
  return paper;
}

std::size_t count(const std::string& text, const std::string& word) {
  std::size_t found = 0;
  for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) ++found;
  return found;
}

}  // namespace

TEST_CASE("a table of 300 rows keeps every row, in order, under a head on every page") {
  Table table{{{"Number"}, {"What it says"}, {"Amount", Align::right}}, {}, ""};
  for (int i = 0; i < 300; ++i)
    table.rows.push_back({"row" + std::to_string(1000 + i),
                          std::string(static_cast<std::size_t>(i % 7) * 20, 'w') + " and more",
                          std::to_string(i)});
  const auto file = test::pdf_file("long", with({table}));
  const auto pages = test::pages_of(file);
  CHECK(pages >= 8);
  const auto text = test::run("pdftotext -layout '" + file.string() + "' -").out;
  std::vector<int> seen;
  const std::regex row("row1([0-9]{3})");
  for (std::sregex_iterator at(text.begin(), text.end(), row), end; at != end; ++at)
    seen.push_back(std::stoi((*at)[1]));
  REQUIRE(seen.size() == 300);
  for (int i = 0; i < 300; ++i) CHECK(seen[static_cast<std::size_t>(i)] == i);
  CHECK(count(text, "What it says") == static_cast<std::size_t>(pages));
}

TEST_CASE("a word wider than the page is broken without a hyphen, and all of it stays on the page") {
  std::string word;
  for (int i = 0; i < 300; ++i) word += static_cast<char>('a' + i % 26);
  const Table table{{{"Id"}, {"Word"}}, {{"1", word}}, ""};
  for (const auto& blocks :
       {std::vector<Block>{table}, std::vector<Block>{Paragraph{word}}, std::vector<Block>{Heading{word}},
        std::vector<Block>{Callout{Tone::caution, "A caution", {word}}},
        std::vector<Block>{Facts{{{word, word}}}}}) {
    const auto file = test::pdf_file("word", with(blocks));
    auto text = test::run("pdftotext -raw '" + file.string() + "' -").out;
    std::erase_if(text, [](char c) { return c == '\n' || c == ' '; });
    CHECK(text.find(word) != std::string::npos);
    // What lies off the page is left out by a crop to the page; so the two agree only if nothing does.
    const auto boxes = test::run("pdftotext -bbox '" + file.string() + "' -").out;
    const std::regex edge("xMax=\"([0-9.]+)\" yMax=\"([0-9.]+)\"");
    for (std::sregex_iterator at(boxes.begin(), boxes.end(), edge), end; at != end; ++at) {
      CHECK(std::stod((*at)[1]) <= 612);
      CHECK(std::stod((*at)[2]) <= 792);
    }
  }
}

TEST_CASE("a row and a box longer than a page go on over as many pages as they take") {
  std::string words;
  for (int i = 0; i < 3000; ++i) words += "word" + std::to_string(10000 + i) + " ";
  const auto all_there = [&](const Block& block) {
    const auto file = test::pdf_file("giant", with({Paragraph{"Before it."}, block, Paragraph{"After it."}}));
    CHECK(test::pages_of(file) > 2);
    const auto text = test::run("pdftotext -raw '" + file.string() + "' -").out;
    std::size_t from = 0;
    for (int i = 0; i < 3000; ++i) {
      from = text.find("word" + std::to_string(10000 + i), from);
      if (from == std::string::npos) FAIL("word " << i << " is missing or out of order");
    }
    return text;
  };
  CHECK(count(all_there(Table{{{"Head"}, {"Words"}}, {{"1", words}}, ""}), "Head Words") > 2);
  CHECK(count(all_there(Callout{Tone::caution, "Cautions", {words}}), "Cautions (continued)") > 1);
}

TEST_CASE("a box that fits on a page is not split from its heading, nor a heading from what it heads") {
  for (int lines = 20; lines < 60; ++lines) {
    std::vector<Block> blocks;
    for (int i = 0; i < lines; ++i) blocks.emplace_back(Paragraph{"filler"});
    blocks.emplace_back(Heading{"HEADING"});
    blocks.emplace_back(Callout{Tone::caution, "BOX", {"first", "second", "third", "last of box"}});
    const auto text = test::run("pdftotext -raw '" + test::pdf_file("box", with(blocks)).string() + "' -").out;
    const auto from = text.find("HEADING"), to = text.find("last of box");
    REQUIRE(from != std::string::npos);
    REQUIRE(to != std::string::npos);
    INFO(lines);
    CHECK(text.substr(from, to - from).find('\f') == std::string::npos);
  }
}
