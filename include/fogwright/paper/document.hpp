// SPDX-License-Identifier: Apache-2.0
#pragma once

/// What stands on a paper, as data, and what becomes of it.

#include <filesystem>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "fogwright/error.hpp"
#include "fogwright/paper/chart.hpp"

namespace fogwright::paper {

enum class Language { en, es };

enum class PageSize {
  letter,  ///< 8.5 by 11 in
  a4,      ///< 210 by 297 mm
  label,   ///< 4 by 3 in, to stick on a container: no heads, no page numbers
};

enum class Emphasis { plain, strong, soft };

struct Run {
  std::string text;
  Emphasis emphasis = Emphasis::plain;
  friend bool operator==(const Run&, const Run&) = default;
};

/// Words with emphasis. Any UTF-8; what is not UTF-8 prints as U+FFFD, control characters are left out.
struct Text {
  std::vector<Run> runs;
  Text() = default;
  Text(std::string plain) : runs{{std::move(plain)}} {}
  Text(std::string_view plain) : Text(std::string(plain)) {}
  Text(const char* plain) : Text(std::string(plain)) {}
  Text(std::initializer_list<Run> words) : runs(words) {}
  friend bool operator==(const Text&, const Text&) = default;
};
[[nodiscard]] inline Run strong(std::string text) { return {std::move(text), Emphasis::strong}; }

struct Heading {
  std::string text;
  int level = 2;  ///< 1 to 3; 1 is the title of the paper
  friend bool operator==(const Heading&, const Heading&) = default;
};
enum class Size { small, body, lead };
struct Paragraph {
  Text text;
  Size size = Size::body;
  friend bool operator==(const Paragraph&, const Paragraph&) = default;
};
struct List {
  std::vector<Text> items;
  bool numbered = false;
  friend bool operator==(const List&, const List&) = default;
};
struct Fact {
  std::string name;
  Text value;
  friend bool operator==(const Fact&, const Fact&) = default;
};
/// Names and values in two columns.
struct Facts {
  std::vector<Fact> rows;
  friend bool operator==(const Facts&, const Facts&) = default;
};
enum class Align { left, right };
struct Column {
  std::string title;
  Align align = Align::left;
  double share = 0;  ///< of the width; 0: from what the column holds
  friend bool operator==(const Column&, const Column&) = default;
};
/// The head is repeated on every page; a row that fits on a page is not split, and nothing is cut off. A row
/// with too few cells is filled with empty ones; cells beyond the columns are a fault of the caller.
struct Table {
  std::vector<Column> columns;
  std::vector<std::vector<std::string>> rows;
  std::string when_empty;  ///< printed where there are no rows
  friend bool operator==(const Table&, const Table&) = default;
};
enum class Tone { caution, notice };
/// A box that stays together with its heading; longer than a page, it goes on under the heading repeated.
struct Callout {
  Tone tone = Tone::caution;
  std::string heading;
  std::vector<Text> items;
  friend bool operator==(const Callout&, const Callout&) = default;
};
/// One word or time to be read from across the street.
struct Display {
  std::string text;
  std::string caption;  ///< above it
  double points = 96;   ///< size on paper; smaller where it would not fit the width
  friend bool operator==(const Display&, const Display&) = default;
};
/// Lines to sign on, with what stands below each.
struct Signature {
  std::vector<std::string> captions;
  friend bool operator==(const Signature&, const Signature&) = default;
};
/// Made by make_qr.
struct Qr {
  std::string text;
  std::vector<std::string> modules;  ///< rows of '1' (dark) and '0', without the quiet zone
  double side_mm = 28;               ///< with the quiet zone
  std::vector<Text> beside;          ///< lines at its right
  friend bool operator==(const Qr&, const Qr&) = default;
};
struct PageBreak {
  friend bool operator==(const PageBreak&, const PageBreak&) = default;
};

using Block =
    std::variant<Heading, Paragraph, List, Facts, Table, Callout, Display, Signature, Qr, Chart, PageBreak>;

struct Paper {
  std::string title;   ///< metadata and running head; the title that shows is a Heading of level 1
  std::string author;  ///< the firm
  Language language = Language::en;
  PageSize size = PageSize::letter;
  std::string made;    ///< ISO 8601 with offset, for the metadata; empty: not stated
  std::string footer;  ///< left in the foot of each page
  std::vector<Block> blocks;
  friend bool operator==(const Paper&, const Paper&) = default;
};

/// A QR code that holds `text`, error correction M. Errors: out_of_range (longer than 2,331 bytes, or empty),
/// internal_fault where libqrencode is missing.
[[nodiscard]] Result<Qr> make_qr(std::string text);

/// One file that needs no other: style, charts and codes are inside. Well-formed as XML too.
[[nodiscard]] std::string html_of(const Paper& paper);

/// The paper as JSON, and back. Errors: not_understood.
[[nodiscard]] std::string json_of(const Paper& paper);
[[nodiscard]] Result<Paper> paper_from_json(std::string_view json);

/// The bytes of a PDF with its fonts, title, author and language. Typesetting lives in a module that is loaded
/// at the first call: beside the program, or in ../lib/fogwright; `module` names another file instead. Errors:
/// file_fault (no module), internal_fault.
[[nodiscard]] Result<std::string> pdf_of(const Paper& paper, const std::filesystem::path& module = {});

}  // namespace fogwright::paper
