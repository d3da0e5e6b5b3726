// SPDX-License-Identifier: Apache-2.0
/// A paper as JSON: what the module of the PDF reads.

#include <nlohmann/json.hpp>

#include "fogwright/paper/document.hpp"
#include "paper/names.hpp"
#include "paper/text.hpp"

namespace fogwright::paper {
namespace {

using Json = nlohmann::ordered_json;

Json json(const std::string& text);
Json json(const ChartPoint& point);
Json json(const Run& run);
Json json(const Text& text);
Json json(const Fact& fact);
Json json(const Column& column);
Json json(const std::vector<std::string>& row);
Json json(const ChartSeries& series);
Json json(const ChartLevel& level);
Json json(const ChartMark& mark);
Json json(const ChartTick& tick);
Json json(const ChartBar& bar);

template <class T>
Json list(const std::vector<T>& items) {
  Json out = Json::array();
  for (const auto& item : items) out.push_back(json(item));
  return out;
}

Json json(const std::string& text) { return clean(text); }
Json json(const ChartPoint& point) { return {point.x, point.y}; }
Json json(const Run& run) { return {{"text", clean(run.text)}, {"emphasis", name_of(run.emphasis)}}; }
Json json(const Text& text) { return list(text.runs); }
Json json(const Fact& fact) { return {{"name", clean(fact.name)}, {"value", json(fact.value)}}; }
Json json(const Column& column) {
  return {{"title", clean(column.title)}, {"align", name_of(column.align)}, {"share", column.share}};
}
Json json(const std::vector<std::string>& row) { return list(row); }
Json json(const ChartSeries& series) {
  return {{"name", clean(series.name)}, {"look", name_of(series.look)}, {"points", list(series.points)}};
}
Json json(const ChartLevel& level) { return {{"name", clean(level.name)}, {"y", level.y}}; }
Json json(const ChartMark& mark) { return {{"name", clean(mark.name)}, {"x", mark.x}}; }
Json json(const ChartTick& tick) { return {{"x", tick.x}, {"label", clean(tick.label)}}; }
Json json(const ChartBar& bar) { return {{"label", clean(bar.label)}, {"value", bar.value}}; }

struct BlockWriter {
  Json operator()(const Heading& b) const {
    return {{"kind", "heading"}, {"text", clean(b.text)}, {"level", b.level}};
  }
  Json operator()(const Paragraph& b) const {
    return {{"kind", "paragraph"}, {"text", json(b.text)}, {"size", name_of(b.size)}};
  }
  Json operator()(const List& b) const {
    return {{"kind", "list"}, {"items", list(b.items)}, {"numbered", b.numbered}};
  }
  Json operator()(const Facts& b) const { return {{"kind", "facts"}, {"rows", list(b.rows)}}; }
  Json operator()(const Table& b) const {
    return {{"kind", "table"},
            {"columns", list(b.columns)},
            {"rows", list(b.rows)},
            {"when_empty", clean(b.when_empty)}};
  }
  Json operator()(const Callout& b) const {
    return {{"kind", "callout"},
            {"tone", name_of(b.tone)},
            {"heading", clean(b.heading)},
            {"items", list(b.items)}};
  }
  Json operator()(const Display& b) const {
    return {{"kind", "display"}, {"text", clean(b.text)}, {"caption", clean(b.caption)}, {"points", b.points}};
  }
  Json operator()(const Signature& b) const { return {{"kind", "signature"}, {"captions", list(b.captions)}}; }
  Json operator()(const Qr& b) const {
    return {{"kind", "qr"},
            {"text", clean(b.text)},
            {"modules", list(b.modules)},
            {"side_mm", b.side_mm},
            {"beside", list(b.beside)}};
  }
  Json operator()(const Chart& b) const {
    Json out = {{"kind", "chart"},
                {"title", clean(b.title)},
                {"x_title", clean(b.x_title)},
                {"y_title", clean(b.y_title)}};
    out.update({{"summary", clean(b.summary)}, {"series", list(b.series)}, {"flagged", list(b.flagged)}});
    out.update({{"flag_name", clean(b.flag_name)}, {"levels", list(b.levels)}, {"marks", list(b.marks)}});
    out.update({{"x_ticks", list(b.x_ticks)}, {"bars", list(b.bars)}, {"log_y", b.log_y}});
    return out;
  }
  Json operator()(const PageBreak&) const { return {{"kind", "page-break"}}; }
};

}  // namespace

std::string json_of(const Paper& paper) {
  Json blocks = Json::array();
  for (const auto& block : paper.blocks) blocks.push_back(std::visit(BlockWriter{}, block));
  const Json out = {{"title", clean(paper.title)},         {"author", clean(paper.author)},
                    {"language", name_of(paper.language)}, {"size", name_of(paper.size)},
                    {"made", clean(paper.made)},           {"footer", clean(paper.footer)},
                    {"blocks", std::move(blocks)}};
  return out.dump();
}

}  // namespace fogwright::paper
