// SPDX-License-Identifier: Apache-2.0
/// A chart as SVG 1.1.

#include <fmt/format.h>

#include <iterator>

#include "paper/drawing.hpp"
#include "paper/text.hpp"

namespace fogwright::paper {
namespace {

using Out = std::back_insert_iterator<std::string>;

struct ShapeWriter {
  Out out;

  void operator()(const Stroke& stroke) {
    fmt::format_to(out, "<polyline fill=\"none\" stroke=\"{}\" stroke-width=\"{:.1f}\"", colour_of(stroke.ink),
                   stroke.width);
    for (std::size_t i = 0; i < stroke.dashes.size(); ++i)
      fmt::format_to(out, "{}{:.0f}", i == 0 ? " stroke-dasharray=\"" : " ", stroke.dashes[i]);
    fmt::format_to(out, "{} points=\"", stroke.dashes.empty() ? "" : "\"");
    for (const auto& point : stroke.points) fmt::format_to(out, "{:.1f},{:.1f} ", point.x, point.y);
    fmt::format_to(out, "\"/>\n");
  }
  void operator()(const Box& box) {
    fmt::format_to(out, "<rect x=\"{:.1f}\" y=\"{:.1f}\" width=\"{:.1f}\" height=\"{:.1f}\" fill=\"{}\"/>\n",
                   box.x, box.y, box.width, box.height, colour_of(box.ink));
  }
  void operator()(const Dot& dot) {
    const std::string colour = colour_of(dot.ink);
    fmt::format_to(
        out,
        "<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"{:.1f}\" fill=\"{}\" stroke=\"{}\" stroke-width=\"1.4\"/>\n",
        dot.at.x, dot.at.y, dot.radius, dot.ring ? "none" : colour, colour);
  }
  void operator()(const Words& words) {
    constexpr const char* anchors[] = {"start", "middle", "end"};
    fmt::format_to(
        out,
        "<text x=\"{:.1f}\" y=\"{:.1f}\" font-size=\"{:.1f}\" text-anchor=\"{}\"{}{} fill=\"{}\">{}</text>\n",
        words.at.x, words.at.y, words.size, anchors[static_cast<int>(words.anchor)],
        words.strong ? " font-weight=\"bold\"" : "",
        words.halo ? " stroke=\"#fff\" stroke-width=\"2.5\" paint-order=\"stroke\"" : "", colour_of(words.ink),
        escaped(words.text));
  }
};

}  // namespace

std::string chart_svg(const Chart& chart) {
  const Drawing drawing = draw(chart);
  std::string svg;
  fmt::format_to(
      std::back_inserter(svg),
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {:.0f} {:.0f}\" role=\"img\" "
      "font-family=\"'Open Sans', 'DejaVu Sans', sans-serif\">\n<title>{}</title>\n<desc>{}</desc>\n",
      drawing.width, drawing.height, escaped(chart.title), escaped(chart.summary));
  for (const auto& shape : drawing.shapes) std::visit(ShapeWriter{std::back_inserter(svg)}, shape);
  return svg + "</svg>\n";
}

}  // namespace fogwright::paper
