// SPDX-License-Identifier: Apache-2.0
#include "server/pages.hpp"

#include <algorithm>

#include "server/problem.hpp"

namespace fogwright::server {
namespace {

constexpr std::string_view document = "/index.html";

const Page* find_page(std::string_view path) {
  const auto all = pages();
  const auto found = std::find_if(all.begin(), all.end(), [&](const Page& page) { return page.path == path; });
  return found == all.end() ? nullptr : &*found;
}

/// An address that the app itself makes sense of: /jobs/J1. A name with an ending is a file that is not there.
bool is_of_the_app(const Target& target) {
  const std::string& first = target.segments.front();
  return first != "api" && first != "assets" && target.segments.back().find('.') == std::string::npos;
}

/// Whether the client takes a coding: "gzip, br;q=0" takes gzip alone (RFC 9110, section 12.5.3).
bool takes(std::string_view header, std::string_view coding) {
  while (!header.empty()) {
    const std::size_t comma = std::min(header.find(','), header.size());
    std::string_view one = header.substr(0, comma);
    header.remove_prefix(std::min(comma + 1, header.size()));
    while (one.starts_with(' ')) one.remove_prefix(1);
    const std::size_t name = std::min(one.find_first_of("; "), one.size());
    if (one.substr(0, name) != coding) continue;
    const std::size_t weight = one.find("q=");
    return weight == std::string_view::npos || one.find_first_of("123456789", weight) != std::string_view::npos;
  }
  return false;
}

struct Body {
  std::string_view bytes, coding;
};
Body body_for(const Page& page, const std::string& accepted) {
  if (!page.brotli.empty() && takes(accepted, "br")) return {page.brotli, "br"};
  if (!page.gzip.empty() && takes(accepted, "gzip")) return {page.gzip, "gzip"};
  return {page.plain, {}};
}

}  // namespace

HttpResponse page_response(const HttpRequest& request, const Target& target) {
  const Page* page = find_page(target.path);
  if (!page && is_of_the_app(target)) page = find_page(document);
  if (!page) return problem(404, "not-found", "there is nothing at this address", "see /api/openapi.json");

  const Body body = body_for(*page, request.header("accept-encoding"));
  HttpResponse response;
  response.operation = "page";
  response.content_type = page->type;
  // Each coding is a representation of its own, and so has a tag of its own.
  const std::string etag =
      "\"" + std::string(page->etag) + (body.coding.empty() ? "" : "-") + std::string(body.coding) + "\"";
  response.headers = {{"ETag", etag},
                      {"Vary", "Accept-Encoding"},
                      {"Cache-Control", page->for_ever ? "public, max-age=31536000, immutable" : "no-cache"}};
  if (request.header("if-none-match").find(etag) != std::string::npos) {
    response.status = 304;
    return response;
  }
  if (!body.coding.empty()) response.headers.emplace_back("Content-Encoding", body.coding);
  response.body = body.bytes;
  return response;
}

}  // namespace fogwright::server
