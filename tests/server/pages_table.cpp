// SPDX-License-Identifier: Apache-2.0
// A table of pages for the tests, so that they need neither node nor the real pages.
#include "server/pages.hpp"

namespace fogwright::server {
namespace {
constexpr Page table[] = {
    {"/index.html", "text/html; charset=utf-8", "d0c", false, "the document", "gzip of it", "brotli of it"},
    {"/assets/app-1.js", "text/javascript; charset=utf-8", "a99", true, "the script", "gzip of it",
     "brotli of it"},
};
}  // namespace

std::span<const Page> pages() { return table; }

}  // namespace fogwright::server
