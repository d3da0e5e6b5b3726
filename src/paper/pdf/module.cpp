// SPDX-License-Identifier: Apache-2.0
/// The module's one function, and the pages' heads and feet.

#include "paper/module.hpp"

#include <cairo-pdf.h>
#include <fmt/format.h>

#include <exception>
#include <memory>

#include "paper/names.hpp"
#include "paper/pdf/catalog.hpp"
#include "paper/pdf/setter.hpp"
#include "paper/words.hpp"

namespace fogwright::paper::pdf {
namespace {

using Surface = std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)>;
using Context = std::unique_ptr<cairo_t, void (*)(cairo_t*)>;

cairo_status_t keep(void* to, const unsigned char* bytes, unsigned count) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

void describe(cairo_surface_t* surface, const Paper& paper) {
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, paper.title.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_AUTHOR, paper.author.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "fogwright");
  if (paper.made.empty()) return;
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, paper.made.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_MOD_DATE, paper.made.c_str());
}

/// Words shortened to their first line are not cut off but moved up: a head grows upward as it wraps.
void head_and_foot(cairo_t* to, const Paper& paper, const Typesetter& type, const Area& area, std::size_t page,
                   std::size_t pages) {
  const Face left{8, 400, Ink::grey, PANGO_ALIGN_LEFT}, right{8, 400, Ink::grey, PANGO_ALIGN_RIGHT};
  const double half = area.width() / 2 - 6, middle = area.left + area.width() / 2 + 6;
  const Set firm = type.set(paper.author, left, half);
  firm.draw(to, area.left, area.top - 12 - firm.height());
  if (page > 0) {
    const Set title = type.set(paper.title, right, half);
    title.draw(to, middle, area.top - 12 - title.height());
  }
  type.set(paper.footer, left, half).draw(to, area.left, area.bottom + 16);
  type.set(word(paper.language, Word::page_of, page + 1, pages), right, half)
      .draw(to, middle, area.bottom + 16);
}

std::string pdf_bytes(const Paper& paper) {
  const Area area = area_of(paper.size);
  Typesetter type(paper.language);
  Sheet sheet(area);
  Setter(paper, type, sheet).set_all();
  std::string bytes;
  const Surface surface(cairo_pdf_surface_create_for_stream(keep, &bytes, area.page_width, area.page_height),
                        cairo_surface_destroy);
  describe(surface.get(), paper);
  const Context to(cairo_create(surface.get()), cairo_destroy);
  for (std::size_t page = 0; page < sheet.pages(); ++page) {
    if (paper.size != PageSize::label) head_and_foot(to.get(), paper, type, area, page, sheet.pages());
    sheet.draw_page(page, to.get());
    cairo_show_page(to.get());
  }
  if (const auto status = cairo_status(to.get())) throw std::runtime_error(cairo_status_to_string(status));
  cairo_surface_finish(surface.get());
  if (const auto status = cairo_surface_status(surface.get()))
    throw std::runtime_error(cairo_status_to_string(status));
  return with_language(std::move(bytes), name_of(paper.language));
}

int refuse(char* why, std::size_t size, const std::string& words) {
  if (size > 0) why[words.copy(why, size - 1)] = '\0';
  return 1;
}

}  // namespace
}  // namespace fogwright::paper::pdf

extern "C" [[gnu::visibility("default")]] int fogwright_paper_pdf_1(const char* json, std::size_t size,
                                                                    fogwright::paper::PdfSink* sink, void* to,
                                                                    char* why, std::size_t why_size) {
  using namespace fogwright::paper;
  try {  // no exception may cross into a program built otherwise
    const auto paper = paper_from_json({json, size});
    if (!paper) return pdf::refuse(why, why_size, paper.error().message);
    const std::string bytes = pdf::pdf_bytes(*paper);
    sink(to, bytes.data(), bytes.size());
    return 0;
  } catch (const std::exception& fault) {
    return pdf::refuse(why, why_size, fault.what());
  }
}
