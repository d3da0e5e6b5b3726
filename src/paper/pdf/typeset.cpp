// SPDX-License-Identifier: Apache-2.0
#include "paper/pdf/typeset.hpp"

#include <cmath>
#include <cstdlib>

#include "paper/names.hpp"

namespace fogwright::paper::pdf {
namespace {

constexpr auto families = "Open Sans, DejaVu Sans, sans-serif";

template <class T>
std::shared_ptr<T> owned(T* object) {
  return {object, [](T* o) { g_object_unref(o); }};
}

std::shared_ptr<PangoContext> make_context(Language language) {
  const auto map = owned(pango_cairo_font_map_new());
  pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(map.get()), 72);  // one unit is one point
  auto context = owned(pango_font_map_create_context(map.get()));
  const std::unique_ptr<cairo_font_options_t, void (*)(cairo_font_options_t*)> options(
      cairo_font_options_create(), cairo_font_options_destroy);
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options(context.get(), options.get());
  pango_context_set_round_glyph_positions(context.get(), FALSE);
  pango_context_set_language(context.get(), pango_language_from_string(name_of(language).data()));
  return context;
}

void add_attribute(PangoAttrList* list, PangoAttribute* attribute, std::size_t from, std::size_t to) {
  attribute->start_index = static_cast<guint>(from);
  attribute->end_index = static_cast<guint>(to);
  pango_attr_list_insert(list, attribute);
}

void describe(PangoLayout* layout, const Face& face) {
  PangoFontDescription* font = pango_font_description_from_string(families);
  pango_font_description_set_absolute_size(font, face.size * PANGO_SCALE);
  pango_font_description_set_weight(font, static_cast<PangoWeight>(face.weight));
  pango_layout_set_font_description(layout, font);
  pango_font_description_free(font);
}

std::vector<Line> lines_of(PangoLayout* layout) {
  std::vector<Line> lines;
  PangoLayoutIter* at = pango_layout_get_iter(layout);
  do {
    PangoRectangle logical;
    int top = 0, bottom = 0;
    pango_layout_iter_get_line_extents(at, nullptr, &logical);
    pango_layout_iter_get_line_yrange(at, &top, &bottom);
    lines.push_back({pango_layout_iter_get_line_readonly(at), pango_units_to_double(logical.x),
                     pango_units_to_double(top), pango_units_to_double(pango_layout_iter_get_baseline(at)),
                     pango_units_to_double(bottom)});
  } while (pango_layout_iter_next_line(at));
  pango_layout_iter_free(at);
  return lines;
}

}  // namespace

Typesetter::Typesetter(Language language) : context_(make_context(language)) {}

Layout Typesetter::layout(const Text& text, const Face& face) const {
  auto layout = owned(pango_layout_new(context_.get()));
  describe(layout.get(), face);
  PangoAttrList* marks = pango_attr_list_new();
  std::string words;
  for (const auto& run : text.runs) {
    const std::size_t from = words.size();
    words += run.text;
    if (run.emphasis == Emphasis::strong)
      add_attribute(marks, pango_attr_weight_new(PANGO_WEIGHT_BOLD), from, words.size());
    if (run.emphasis == Emphasis::soft)
      add_attribute(marks, pango_attr_style_new(PANGO_STYLE_ITALIC), from, words.size());
  }
  add_attribute(marks, pango_attr_insert_hyphens_new(FALSE), 0, words.size());
  pango_layout_set_text(layout.get(), words.data(), static_cast<int>(words.size()));
  pango_layout_set_attributes(layout.get(), marks);
  pango_attr_list_unref(marks);
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_alignment(layout.get(), face.align);
  return layout;
}

Set Typesetter::set(const Text& text, const Face& face, double width) const {
  auto words = layout(text, face);
  pango_layout_set_width(words.get(), pango_units_from_double(width));
  auto lines = lines_of(words.get());
  return {std::move(words), face.ink, std::move(lines)};
}

double Typesetter::natural_width(const Text& text, const Face& face) const {
  int width = 0;
  pango_layout_get_size(layout(text, face).get(), &width, nullptr);
  return pango_units_to_double(width);
}

double Typesetter::widest_word(const Text& text, const Face& face) const {
  const auto words = layout(text, face);
  pango_layout_set_wrap(words.get(), PANGO_WRAP_WORD);
  pango_layout_set_width(words.get(), 0);
  PangoRectangle ink;
  pango_layout_get_extents(words.get(), nullptr, &ink);
  return pango_units_to_double(ink.width);
}

void Set::draw(cairo_t* to, std::size_t line, double x, double y) const {
  use_ink(to, ink);
  cairo_move_to(to, x + lines[line].x, y + lines[line].baseline - lines[line].top);
  pango_cairo_show_layout_line(to, lines[line].line);
}

void Set::draw(cairo_t* to, double x, double y) const {
  for (std::size_t i = 0; i < lines.size(); ++i) draw(to, i, x, y + lines[i].top);
}

void use_ink(cairo_t* to, Ink ink) {
  const auto rgb = static_cast<unsigned>(std::strtoul(colour_of(ink).c_str() + 1, nullptr, 16));
  cairo_set_source_rgb(to, (rgb >> 16U) / 255.0, (rgb >> 8U & 0xFFU) / 255.0, (rgb & 0xFFU) / 255.0);
}

}  // namespace fogwright::paper::pdf
