// SPDX-License-Identifier: Apache-2.0
/// How much of a block must stand below its heading.

#include "paper/pdf/setter.hpp"

namespace fogwright::paper::pdf {
namespace {

constexpr double few_lines = 45;  // of running words, or the head of a table and a row or two
constexpr double box = 1e6;       // a box, a chart or a code: whole (no more than a page is ever asked for)

struct Least {
  double heading;
  double operator()(const Heading&) const { return heading; }
  double operator()(const Paragraph&) const { return few_lines; }
  double operator()(const List&) const { return few_lines; }
  double operator()(const Facts&) const { return few_lines; }
  double operator()(const Table&) const { return 2 * few_lines; }
  double operator()(const Display&) const { return 3 * few_lines; }
  double operator()(const Signature&) const { return 2 * few_lines; }
  double operator()(const Callout&) const { return box; }
  double operator()(const Qr& block) const { return block.side_mm * 72 / 25.4; }
  double operator()(const Chart&) const { return 5 * few_lines + 40; }
  double operator()(const PageBreak&) const { return 0; }
};

}  // namespace

double Setter::least(const Block& block) const {
  const auto* heading = std::get_if<Heading>(&block);
  const double own =
      heading == nullptr
          ? 0
          : type_.set(heading->text, heading_face(heading->level), sheet_.area().width()).height() + 14;
  return std::visit(Least{own}, block);
}

}  // namespace fogwright::paper::pdf
