// SPDX-License-Identifier: Apache-2.0
#include "paper/pdf/catalog.hpp"

#include <fmt/format.h>

#include <optional>

namespace fogwright::paper::pdf {
namespace {

/// The whole number after `key`, from the last place where it stands.
std::optional<std::size_t> number_after(std::string_view text, std::string_view key) {
  const auto at = text.rfind(key);
  if (at == std::string_view::npos) return std::nullopt;
  std::size_t value = 0, from = at + key.size();
  while (from < text.size() && (text[from] == ' ' || text[from] == '\n')) ++from;
  const std::size_t first = from;
  for (; from < text.size() && text[from] >= '0' && text[from] <= '9'; ++from)
    value = 10 * value + static_cast<std::size_t>(text[from] - '0');
  if (from == first) return std::nullopt;
  return value;
}

}  // namespace

std::string with_language(std::string pdf, std::string_view language) {
  const auto trailer = pdf.rfind("trailer");
  if (trailer == std::string::npos) return pdf;
  const std::string_view end = std::string_view(pdf).substr(trailer);
  const auto size = number_after(end, "/Size"), root = number_after(end, "/Root"),
             info = number_after(end, "/Info");
  const auto table = number_after(end, "startxref");
  if (!size || !root || !info || !table) return pdf;
  const auto object = pdf.rfind(fmt::format("\n{} 0 obj\n<<", *root));
  const auto object_end = object == std::string::npos ? object : pdf.find("endobj", object);
  if (object_end == std::string::npos) return pdf;
  const auto body = pdf.find("<<", object) + 2;
  const std::string rest = pdf.substr(body, object_end - body);
  const std::size_t offset = pdf.size();
  pdf += fmt::format("{} 0 obj\n<< /Lang ({}) /ViewerPreferences << /DisplayDocTitle true >>{}endobj\n", *root,
                     language, rest);
  const std::size_t xref = pdf.size();
  pdf +=
      fmt::format("xref\n{} 1\n{:010} 00000 n \ntrailer\n<< /Size {} /Root {} 0 R /Info {} 0 R /Prev {} >>\n",
                  *root, offset, *size, *root, *info, *table);
  return pdf + fmt::format("startxref\n{}\n%%EOF\n", xref);
}

}  // namespace fogwright::paper::pdf
