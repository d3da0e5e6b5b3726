// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <regex>

#include "demo_papers.hpp"
#include "golden.hpp"
#include "shell.hpp"

using namespace fogwright;
using paper::Language;
using paper::PageSize;

namespace {

/// Every word a block prints.
struct WordsOf {
  std::vector<std::string> out;
  void add(const paper::Text& text) {
    std::string whole;
    for (const auto& run : text.runs) whole += run.text;
    out.push_back(whole);
  }
  void operator()(const paper::Heading& b) { out.push_back(b.text); }
  void operator()(const paper::Paragraph& b) { add(b.text); }
  void operator()(const paper::List& b) {
    for (const auto& item : b.items) add(item);
  }
  void operator()(const paper::Facts& b) {
    for (const auto& row : b.rows) {
      out.push_back(row.name);
      add(row.value);
    }
  }
  void operator()(const paper::Table& b) {
    for (const auto& column : b.columns) out.push_back(column.title);
    for (const auto& row : b.rows) out.insert(out.end(), row.begin(), row.end());
  }
  void operator()(const paper::Callout& b) {
    out.push_back(b.heading);
    for (const auto& item : b.items) add(item);
  }
  void operator()(const paper::Display& b) { out.insert(out.end(), {b.text, b.caption}); }
  void operator()(const paper::Signature& b) { out.insert(out.end(), b.captions.begin(), b.captions.end()); }
  void operator()(const paper::Qr& b) {
    for (const auto& line : b.beside) add(line);
  }
  void operator()(const paper::Chart& b) { out.insert(out.end(), {b.title, b.summary}); }
  void operator()(const paper::PageBreak&) {}
};

/// Letters only: where a cell or a long number wraps, the reader of the PDF sees a line break.
std::string without_blanks(std::string text) {
  std::erase_if(text, [](char c) { return c == ' ' || c == '\n' || c == '\f'; });
  return text;
}

bool stands_in(const std::string& page, const std::string& words) {
  return page.find(words) != std::string::npos ||
         without_blanks(page).find(without_blanks(words)) != std::string::npos;
}

}  // namespace

TEST_CASE("every paper in both languages and sizes is a sound PDF with title, author, language and fonts") {
  for (const auto language : {Language::en, Language::es})
    for (const auto size : {PageSize::letter, PageSize::a4})
      for (const auto& [name, sheet] : test::all_papers(language, size)) {
        const auto file = test::pdf_file(name, sheet);
        const auto checked = test::run("qpdf --check '" + file.string() + "'");
        INFO(name << ": " << checked.out);
        CHECK(checked.status == 0);
        const auto info = test::run("pdfinfo '" + file.string() + "'").out;
        CHECK(info.find(sheet.title) != std::string::npos);
        CHECK(info.find("Quillfen Duct Care") != std::string::npos);
        CHECK(info.find(sheet.size == PageSize::a4       ? "(A4)"
                        : sheet.size == PageSize::letter ? "(letter)"
                                                         : "288 x 216 pts") != std::string::npos);
        const auto catalog = test::run("qpdf --show-object=trailer '" + file.string() + "'").out;
        std::smatch root;
        REQUIRE(std::regex_search(catalog, root, std::regex("/Root ([0-9]+)")));
        const auto object = test::run("qpdf --show-object=" + root[1].str() + " '" + file.string() + "'").out;
        CHECK(object.find(language == Language::en ? "/Lang (en)" : "/Lang (es)") != std::string::npos);
        CHECK(object.find("/DisplayDocTitle true") != std::string::npos);
      }
}

TEST_CASE("fonts are embedded and of the family that is named") {
  for (const auto& [name, sheet] : test::all_papers(Language::es, PageSize::a4)) {
    const auto fonts = test::run("pdffonts '" + test::pdf_file(name, sheet).string() + "' | tail -n +3").out;
    INFO(fonts);
    REQUIRE_FALSE(fonts.empty());
    for (std::size_t at = 0; at < fonts.size(); at = fonts.find('\n', at) + 1) {
      const std::string line = fonts.substr(at, fonts.find('\n', at) - at);
      CHECK(line.find("OpenSans") != std::string::npos);
      CHECK(std::regex_search(line, std::regex(" yes yes yes ")));  // embedded, subset, with a map to Unicode
    }
  }
}

TEST_CASE("every word of a paper stands in its PDF, cautions and first aid in the label's words") {
  for (const auto language : {Language::en, Language::es})
    for (const auto& [name, sheet] : test::all_papers(language, PageSize::letter)) {
      const auto page = test::text_of(test::pdf_file(name, sheet));
      WordsOf words;
      for (const auto& block : sheet.blocks) std::visit(words, block);
      for (const auto& line : words.out) {
        INFO(name << ": " << line);
        CHECK(stands_in(page, test::one_blank(line)));
      }
    }
  const auto facts = test::demo_leave_behind();
  REQUIRE(facts.product.precautions.size() == 7);
  const auto page = test::text_of(
      test::pdf_file("spanish", leave_behind(facts, test::demo_form(Language::es, PageSize::a4))));
  for (const auto& caution : facts.product.precautions) CHECK(stands_in(page, caution));
  for (const auto& aid : facts.product.first_aid) CHECK(stands_in(page, aid));
  CHECK(stands_in(
      page,
      "Las personas y los animales pueden volver a entrar desde: miércoles, 4 de marzo de 2026, 16:05 CST"));
}

TEST_CASE("pages are numbered, and the audit's summary takes one page") {
  for (const auto size : {PageSize::letter, PageSize::a4}) {
    const auto english =
        test::pdf_file("audit", audit_report(test::demo_audit(), test::demo_form(Language::en, size)));
    const int pages = test::pages_of(english);
    CHECK(pages >= 3);
    const auto first = test::run("pdftotext -f 1 -l 1 '" + english.string() + "' -").out;
    CHECK(first.find("Page 1 of " + std::to_string(pages)) != std::string::npos);
    CHECK(first.find("no finding of compliance") != std::string::npos);
    const auto second = test::run("pdftotext -f 2 -l 2 '" + english.string() + "' -").out;
    CHECK(second.find("Departures in detail") != std::string::npos);
    const auto spanish =
        test::pdf_file("audit", audit_report(test::demo_audit(), test::demo_form(Language::es, size)));
    CHECK(test::run("pdftotext -f 2 -l 2 '" + spanish.string() + "' -").out.find("Desviaciones en detalle") !=
          std::string::npos);
  }
}

TEST_CASE("a door notice fits on one page") {
  for (const auto language : {Language::en, Language::es})
    for (const auto size : {PageSize::letter, PageSize::a4})
      CHECK(test::pages_of(test::pdf_file(
                "door", door_notice(test::demo_door_notice(), test::demo_form(language, size)))) == 1);
}

TEST_CASE("what is not released says so, and names no time") {
  auto facts = test::demo_leave_behind();
  facts.allowed_in.reset();
  const auto page = test::text_of(
      test::pdf_file("held", leave_behind(facts, test::demo_form(Language::en, PageSize::letter))));
  CHECK(page.find("Not released yet. Stay out until the technician tells you.") != std::string::npos);
  CHECK(page.find("may go in again from") == std::string::npos);
}

TEST_CASE("the codes of a printed page are read back by another program") {
  const auto form = test::demo_form(Language::en, PageSize::letter);
  const auto read = [](const std::filesystem::path& pdf) {
    const std::string picture = (test::scratch() / "page").string();
    REQUIRE(test::run("pdftoppm -r 150 -png '" + pdf.string() + "' '" + picture + "'").status == 0);
    return test::run("zbarimg -q --raw '" + picture + "'*.png 2>/dev/null; rm '" + picture + "'*.png").out;
  };
  CHECK(read(test::pdf_file("labels", *container_labels(test::demo_labels(), form))) ==
        "fogwright:container:C-104\nfogwright:batch:M-0031\n");
  const auto record = test::demo_job_record();
  CHECK(read(test::pdf_file("record", *job_record(record, form))) == record.proof->qr + "\n");
}

TEST_CASE("the same paper gives the same bytes") {
  const auto sheet = door_notice(test::demo_door_notice(), test::demo_form(Language::en, PageSize::a4));
  CHECK(paper::pdf_of(sheet).value() == paper::pdf_of(sheet).value());
}
