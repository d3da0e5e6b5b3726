// SPDX-License-Identifier: Apache-2.0
/// A paper out of JSON. nlohmann's own exceptions end the reading; they are caught in one place.

#include <limits>
#include <nlohmann/json.hpp>

#include "fogwright/paper/document.hpp"
#include "paper/names.hpp"

namespace fogwright::paper {
namespace {

using Json = nlohmann::json;

/// What is off, in words; thrown and caught in this file.
struct Refused {
  std::string why;
};

template <class Enum>
Enum member(const Json& from, const char* key) {
  const auto word = from.at(key).get<std::string>();
  const auto value = named<Enum>(word);
  if (!value) throw Refused{std::string(key) + " cannot be \"" + word + "\""};
  return *value;
}

/// JSON has no infinity; a value that is none is written as null.
double number(const Json& from) {
  return from.is_null() ? std::numeric_limits<double>::quiet_NaN() : from.get<double>();
}

template <class T>
std::vector<T> list(const Json& from, T (*read)(const Json&)) {
  std::vector<T> out;
  out.reserve(from.size());
  for (const auto& item : from) out.push_back(read(item));
  return out;
}

std::string string(const Json& from) { return from.get<std::string>(); }
std::vector<std::string> strings(const Json& from) { return list(from, string); }
Run run(const Json& from) { return {from.at("text"), member<Emphasis>(from, "emphasis")}; }
Text text(const Json& from) {
  Text out;
  out.runs = list(from, run);
  return out;
}
Fact fact(const Json& from) { return {from.at("name"), text(from.at("value"))}; }
Column column(const Json& from) { return {from.at("title"), member<Align>(from, "align"), from.at("share")}; }
ChartPoint point(const Json& from) { return {number(from.at(0)), number(from.at(1))}; }
ChartSeries series(const Json& from) {
  return {from.at("name"), member<Look>(from, "look"), list(from.at("points"), point)};
}
ChartLevel level(const Json& from) { return {from.at("name"), number(from.at("y"))}; }
ChartMark mark(const Json& from) { return {from.at("name"), number(from.at("x"))}; }
ChartTick tick(const Json& from) { return {number(from.at("x")), from.at("label")}; }
ChartBar bar(const Json& from) { return {from.at("label"), number(from.at("value"))}; }

Chart chart(const Json& from) {
  Chart out;
  out.title = from.at("title");
  out.x_title = from.at("x_title");
  out.y_title = from.at("y_title");
  out.summary = from.at("summary");
  out.series = list(from.at("series"), series);
  out.flagged = list(from.at("flagged"), point);
  out.flag_name = from.at("flag_name");
  out.levels = list(from.at("levels"), level);
  out.marks = list(from.at("marks"), mark);
  out.x_ticks = list(from.at("x_ticks"), tick);
  out.bars = list(from.at("bars"), bar);
  out.log_y = from.at("log_y");
  return out;
}

struct BlockKind {
  std::string_view name;
  Block (*read)(const Json&);
};
const BlockKind kinds[] = {
    {"heading",
     [](const Json& j) -> Block {
       return Heading{j.at("text"), j.at("level")};
     }},
    {"paragraph",
     [](const Json& j) -> Block {
       return Paragraph{text(j.at("text")), member<Size>(j, "size")};
     }},
    {"list",
     [](const Json& j) -> Block {
       return List{list(j.at("items"), text), j.at("numbered")};
     }},
    {"facts", [](const Json& j) -> Block { return Facts{list(j.at("rows"), fact)}; }},
    {"table",
     [](const Json& j) -> Block {
       return Table{list(j.at("columns"), column), list(j.at("rows"), strings), j.at("when_empty")};
     }},
    {"callout",
     [](const Json& j) -> Block {
       return Callout{member<Tone>(j, "tone"), j.at("heading"), list(j.at("items"), text)};
     }},
    {"display",
     [](const Json& j) -> Block {
       return Display{j.at("text"), j.at("caption"), j.at("points")};
     }},
    {"signature", [](const Json& j) -> Block { return Signature{strings(j.at("captions"))}; }},
    {"qr",
     [](const Json& j) -> Block {
       return Qr{j.at("text"), strings(j.at("modules")), j.at("side_mm"), list(j.at("beside"), text)};
     }},
    {"chart", [](const Json& j) -> Block { return chart(j); }},
    {"page-break", [](const Json&) -> Block { return PageBreak{}; }},
};

Block block(const Json& from) {
  const auto name = from.at("kind").get<std::string>();
  for (const auto& kind : kinds)
    if (kind.name == name) return kind.read(from);
  throw Refused{"there is no block \"" + name + "\""};
}

Paper paper(const Json& from) {
  return {
      from.at("title"), from.at("author"), member<Language>(from, "language"), member<PageSize>(from, "size"),
      from.at("made"),  from.at("footer"), list(from.at("blocks"), block)};
}

tl::unexpected<Error> refused(std::string why) {
  return fail(ErrorCode::not_understood, "This JSON describes no paper: " + std::move(why), "paper",
              "docs/papers.md describes the members.");
}

}  // namespace

Result<Paper> paper_from_json(std::string_view json) {
  try {
    return paper(Json::parse(json));
  } catch (const Json::exception& fault) {
    return refused(fault.what());
  } catch (const Refused& fault) {
    return refused(fault.why);
  }
}

}  // namespace fogwright::paper
