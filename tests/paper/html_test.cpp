// SPDX-License-Identifier: Apache-2.0
#include "demo_papers.hpp"
#include "golden.hpp"
#include "shell.hpp"

using namespace fogwright;

namespace {

test::Ran parsed_as_xml(const std::filesystem::path& file) {
  return test::run("python3 -c 'import sys, xml.dom.minidom; xml.dom.minidom.parse(sys.argv[1])' '" +
                   file.string() + "'");
}

}  // namespace

TEST_CASE("the HTML of every paper is well-formed, whole and asks for nothing from elsewhere") {
  for (const auto language : {paper::Language::en, paper::Language::es})
    for (const auto& [name, sheet] : test::all_papers(language, paper::PageSize::letter)) {
      const std::string html = paper::html_of(sheet);
      const auto parsed = parsed_as_xml(test::write_file(name + ".html", html));
      INFO(name << ": " << parsed.out);
      CHECK(parsed.status == 0);
      CHECK(html.find(language == paper::Language::en ? "<html lang=\"en\"" : "<html lang=\"es\"") !=
            std::string::npos);
      CHECK(html.find("src=") == std::string::npos);
      CHECK(html.find("url(") == std::string::npos);
    }
}

TEST_CASE("what a customer or a label writes cannot become markup") {
  auto facts = test::demo_leave_behind();
  facts.customer = "<script>alert('x')</script> & \"Sons\"\x01";
  const auto html =
      paper::html_of(paper::leave_behind(facts, test::demo_form(paper::Language::en, paper::PageSize::letter)));
  CHECK(html.find("<script") == std::string::npos);
  CHECK(html.find("&lt;script&gt;alert('x')&lt;/script&gt; &amp; &quot;Sons&quot;<") != std::string::npos);
  CHECK(parsed_as_xml(test::write_file("hostile.html", html)).status == 0);
}

TEST_CASE("the SVG of every chart is well-formed") {
  int charts = 0;
  for (const auto& [name, sheet] : test::all_papers(paper::Language::es, paper::PageSize::letter))
    for (const auto& block : sheet.blocks)
      if (const auto* chart = std::get_if<paper::Chart>(&block)) {
        const auto parsed = parsed_as_xml(test::write_file("chart.svg", paper::chart_svg(*chart)));
        INFO(name << ": " << parsed.out);
        CHECK(parsed.status == 0);
        ++charts;
      }
  CHECK(charts == 4);
}
