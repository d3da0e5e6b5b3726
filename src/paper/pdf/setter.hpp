// SPDX-License-Identifier: Apache-2.0
#pragma once

#include "paper/pdf/sheet.hpp"
#include "paper/pdf/typeset.hpp"

namespace fogwright::paper::pdf {

/// Lines that go below each other and may be parted over pages: of one layout or of several.
struct Piece {
  Set words;
  std::size_t line = 0;
  double indent = 0;
  double before = 0;  ///< gap above; none at the top of a page
  [[nodiscard]] double height() const { return words.lines[line].height(); }
};
/// Every line of `words`; `before` counts for the first.
void add_pieces(std::vector<Piece>& to, const Set& words, double indent, double before);
[[nodiscard]] double height_of(const std::vector<Piece>& pieces);

/// Puts the blocks of a paper on sheets.
class Setter {
 public:
  Setter(const Paper& paper, Typesetter& type, Sheet& sheet);
  void set_all();

 private:
  friend struct BlockSetter;
  /// Height that a block needs to begin on a page: what must not stand alone below it.
  [[nodiscard]] double least(const Block& block) const;
  [[nodiscard]] double needed_from(std::size_t block) const;
  void words(const Set& words, double indent, const char* element);

  void set(const Heading& block);
  void set(const Paragraph& block);
  void set(const List& block);
  void set(const Facts& block);
  void set(const Table& block);
  void set(const Callout& block);
  void set(const Display& block);
  void set(const Signature& block);
  void set(const Qr& block);
  void set(const Chart& block);
  void set(const PageBreak& block);

  [[nodiscard]] Face heading_face(int level) const;
  [[nodiscard]] bool small_page() const { return paper_.size == PageSize::label; }

  const Paper& paper_;
  Typesetter& type_;
  Sheet& sheet_;
};

}  // namespace fogwright::paper::pdf
