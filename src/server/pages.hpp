// SPDX-License-Identifier: Apache-2.0
#pragma once

/// The pages of web/, which the build puts into the program.

#include <span>
#include <string_view>

#include "server/http.hpp"

namespace fogwright::server {

struct Page {
  std::string_view path;  ///< "/assets/app-HDABDQXB.js"
  std::string_view type;
  std::string_view etag;
  bool for_ever = false;  ///< its name changes with its content
  std::string_view plain, gzip, brotli;
};
/// Made by web/embed.mjs; without it pages_left_out.cpp gives one page that says so.
[[nodiscard]] std::span<const Page> pages();

/// The page at an address of the pages, or the document of the app, which knows its own addresses. Nothing
/// under /api or /assets is made up that way. Errors: a problem with 404.
[[nodiscard]] HttpResponse page_response(const HttpRequest& request, const Target& target);

}  // namespace fogwright::server
