// SPDX-License-Identifier: Apache-2.0
// Instead of the pages, where they were left out of the build.
#include "server/pages.hpp"

namespace fogwright::server {
namespace {

constexpr std::string_view text = R"html(<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><title>Fogwright</title></head>
<body><main>
<h1>The pages are not in this build</h1>
<p>The server was built without them (FOGWRIGHT_PAGES is off, or npm was missing). The API answers; it is described at
<a href="/api/openapi.json">/api/openapi.json</a>.</p>
</main></body>
</html>
)html";

constexpr Page table[] = {{"/index.html", "text/html; charset=utf-8", "left-out", false, text, {}, {}}};

}  // namespace

std::span<const Page> pages() { return table; }

}  // namespace fogwright::server
