// SPDX-License-Identifier: Apache-2.0
#include <algorithm>
#include <limits>

#include "demo_papers.hpp"
#include "golden.hpp"
#include "paper/drawing.hpp"
#include "paper/scale.hpp"
#include "paper/text.hpp"

using namespace fogwright;
using namespace fogwright::paper;

namespace {

std::vector<Chart> demo_charts() {
  const auto stock = test::demo_inventory();
  const auto audit = test::demo_audit();
  return {concentration_chart(*test::demo_job_record().curve, Language::en),
          stock_chart(stock.curves.front(), Language::es),
          use_chart(audit.off_by_percent, *audit.use_limits, Language::en),
          departures_chart(audit.by_month, Language::en)};
}

std::string in_all_ways(int width, bool ascii) {
  std::string all;
  for (const auto& chart : demo_charts()) all += chart_text(chart, {width, 10, ascii}) + "\n";
  return all;
}

}  // namespace

TEST_CASE("charts for the terminal are as reviewed") {
  test::check_golden("tests/data/charts_80.txt", in_all_ways(80, false));
  test::check_golden("tests/data/charts_40_ascii.txt", in_all_ways(40, true));
}

TEST_CASE("no line of a terminal chart is wider than asked for, and ASCII is ASCII") {
  for (int width = 32; width < 130; ++width) {
    const std::string text = in_all_ways(width, false);
    for (std::size_t at = 0; at < text.size(); at = text.find('\n', at) + 1)
      CHECK(letters(std::string_view(text).substr(at, text.find('\n', at) - at)) <=
            static_cast<std::size_t>(width));
  }
  auto plain = concentration_chart(*test::demo_job_record().curve, Language::en);
  plain.y_title = "mg/m3";
  const auto text = chart_text(plain, {60, 8, true});
  CHECK(std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; }));
}

TEST_CASE("a limit far below the peak stands off the floor, on a logarithmic scale") {
  const auto chart = concentration_chart(*test::demo_job_record().curve, Language::en);
  REQUIRE(chart.log_y);
  const auto scale = y_scale(chart);
  CHECK(scale.at(0.028) > 0.1);
  CHECK(scale.at(0) == 0);
  CHECK(scale.at(0.28) - scale.at(0.028) == Approx(scale.at(2.8) - scale.at(0.28)));
}

TEST_CASE("points outside the control limits are ringed, with too few points none is") {
  const auto audit = test::demo_audit();
  const auto chart = use_chart(audit.off_by_percent, *audit.use_limits, Language::en);
  REQUIRE(chart.flagged.size() == 1);
  CHECK(chart.flagged.front() == ChartPoint{18, 31});
  CHECK(chart.summary == "1 of 30 jobs lie outside the limits.");
  const std::vector<double> few = {0, 1, 0, 1, 40};
  const auto small = use_chart(few, individuals_chart(few).value(), Language::en);
  CHECK(small.flagged.empty());
  CHECK(small.summary == "With 5 jobs there are too few points to flag any.");
}

TEST_CASE("a point that is no number, an empty chart and one point are drawn without harm") {
  const double none = std::numeric_limits<double>::quiet_NaN();
  Chart chart;
  for (const auto& points : {std::vector<ChartPoint>{}, std::vector<ChartPoint>{{1, 2}},
                             std::vector<ChartPoint>{{0, none}, {none, 1}, {3, 4}}}) {
    chart.series = {{"a", Look::line, points}};
    for (const auto& text : {chart_svg(chart), chart_text(chart, {})}) {
      CHECK(text.find("nan") == std::string::npos);
      CHECK(text.find("inf") == std::string::npos);
    }
  }
}

TEST_CASE("a curve is drawn through where its points stand") {
  Chart chart;
  chart.series = {{"a", Look::line, {{0, 0}, {10, 100}}}};
  const auto drawing = draw(chart);
  const auto at = std::find_if(drawing.shapes.begin(), drawing.shapes.end(), [](const Shape& shape) {
    const auto* stroke = std::get_if<Stroke>(&shape);
    return stroke != nullptr && stroke->ink == Ink::blue;
  });
  REQUIRE(at != drawing.shapes.end());
  const auto& line = std::get<Stroke>(*at);
  REQUIRE(line.points.size() == 2);
  CHECK(line.points[0].y == Approx(150));                      // zero on the floor of the plot
  CHECK(line.points[1].y == Approx(150 - 114 * 100 / 108.0));  // 8 % of room above the highest
  CHECK(line.points[1].x == Approx(492));
}

TEST_CASE("numbers on an axis are short and exact") {
  CHECK(short_number(0) == "0");
  CHECK(short_number(0.1 + 0.2) == "0.3");
  CHECK(short_number(1250) == "1250");
  CHECK(short_number(-12.5) == "-12.5");
  CHECK(short_number(0.00028) == "0.00028");
}
