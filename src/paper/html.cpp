// SPDX-License-Identifier: Apache-2.0
/// A paper as one page of HTML, to be read on a screen or printed by a browser.

#include <fmt/format.h>

#include "paper/html_style.hpp"
#include "paper/names.hpp"
#include "paper/text.hpp"

namespace fogwright::paper {
namespace {

std::string html(const Text& text) {
  std::string out;
  for (const auto& run : text.runs) switch (run.emphasis) {
      case Emphasis::plain:
        out += escaped(run.text);
        break;
      case Emphasis::strong:
        out += "<strong>" + escaped(run.text) + "</strong>";
        break;
      case Emphasis::soft:
        out += "<em>" + escaped(run.text) + "</em>";
        break;
    }
  return out;
}

std::string element(std::string_view name, const std::string& inside) {
  return fmt::format("<{0}>{1}</{0}>", name, inside);
}

std::string list_items(const std::vector<Text>& items) {
  std::string out;
  for (const auto& item : items) out += element("li", html(item)) + "\n";
  return out;
}

/// Dark modules as squares of one path.
std::string qr_svg(const Qr& qr) {
  constexpr int quiet = 4;
  std::string path;
  for (std::size_t y = 0; y < qr.modules.size(); ++y)
    for (std::size_t x = 0; x < qr.modules[y].size(); ++x)
      if (qr.modules[y][x] == '1') path += fmt::format("M{},{}h1v1h-1z", x + quiet, y + quiet);
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {0}\" style=\"width:{1:.0f}mm\" "
      "role=\"img\" "
      "shape-rendering=\"crispEdges\"><title>QR: {2}</title><rect width=\"{0}\" height=\"{0}\" fill=\"#fff\"/>"
      "<path d=\"{3}\"/></svg>",
      qr.modules.size() + 2 * quiet, qr.side_mm, escaped(qr.text), path);
}

std::string cell(std::string_view tag, const Column& column, const std::string& text) {
  return fmt::format("<{0}{1}>{2}</{0}>", tag, column.align == Align::right ? " class=\"right\"" : "",
                     escaped(text));
}

std::string table_row(const Table& table, const std::vector<std::string>& row) {
  std::string out = "<tr>";
  for (std::size_t i = 0; i < table.columns.size(); ++i)
    out += cell("td", table.columns[i], i < row.size() ? row[i] : std::string());
  return out + "</tr>\n";
}

struct BlockWriter {
  std::string operator()(const Heading& b) const {
    return element(fmt::format("h{}", b.level), escaped(b.text));
  }
  std::string operator()(const Paragraph& b) const {
    return fmt::format("<p class=\"{}\">{}</p>", name_of(b.size), html(b.text));
  }
  std::string operator()(const List& b) const { return element(b.numbered ? "ol" : "ul", list_items(b.items)); }
  std::string operator()(const Facts& b) const {
    std::string rows;
    for (const auto& row : b.rows)
      rows +=
          fmt::format("<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n", escaped(row.name), html(row.value));
    return "<table class=\"facts\"><tbody>" + rows + "</tbody></table>";
  }
  std::string operator()(const Table& b) const {
    if (b.rows.empty()) return element("p", escaped(b.when_empty));
    std::string head, rows;
    for (const auto& column : b.columns) head += cell("th", column, column.title);
    for (const auto& row : b.rows) rows += table_row(b, row);
    return "<table><thead><tr>" + head + "</tr></thead>\n<tbody>" + rows + "</tbody></table>";
  }
  std::string operator()(const Callout& b) const {
    return fmt::format("<section class=\"{}\"><h3>{}</h3>\n<ul>{}</ul></section>", name_of(b.tone),
                       escaped(b.heading), list_items(b.items));
  }
  std::string operator()(const Display& b) const {
    return fmt::format(
        "<p class=\"display\"><span>{}</span> <strong style=\"font-size:{:.0f}px\">{}</strong></p>",
        escaped(b.caption), b.points, escaped(b.text));
  }
  std::string operator()(const Signature& b) const {
    std::string out;
    for (const auto& caption : b.captions) out += element("span", escaped(caption));
    return "<div class=\"sign\">" + out + "</div>";
  }
  std::string operator()(const Qr& b) const {
    std::string lines;
    for (const auto& line : b.beside) lines += element("p", html(line));
    return "<div class=\"qr\">" + qr_svg(b) + "<div>" + lines + "</div></div>";
  }
  std::string operator()(const Chart& b) const {
    return "<figure>" + chart_svg(b) + element("figcaption", escaped(b.summary)) + "</figure>";
  }
  std::string operator()(const PageBreak&) const { return "<div class=\"page-break\"></div>"; }
};

}  // namespace

std::string html_of(const Paper& paper) {
  std::string out = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"{0}\" xmlns=\"http://www.w3.org/1999/xhtml\">\n<head>\n<meta "
      "charset=\"utf-8\"/>\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n<meta name=\"author\" "
      "content=\"{2}\"/>\n"
      "<title>{1}</title>\n<style>{3}</style>\n</head>\n<body class=\"{4}\">\n<header>{2}</header>\n<main>\n",
      name_of(paper.language), escaped(paper.title), escaped(paper.author), html_style(paper.size),
      name_of(paper.size));
  for (const auto& block : paper.blocks) out += std::visit(BlockWriter{}, block) + "\n";
  return out + "</main>\n<footer>" + escaped(paper.footer) + "</footer>\n</body>\n</html>\n";
}

}  // namespace fogwright::paper
