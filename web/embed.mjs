// SPDX-License-Identifier: Apache-2.0
// Usage: node embed.mjs FOLDER FILE.cpp: the built pages as a table in C++ (src/server/pages.hpp), each file as it is,
// with gzip and with brotli, so that the server neither reads files nor compresses while it answers.
import { createHash } from "node:crypto";
import { readFileSync, readdirSync, statSync, writeFileSync } from "node:fs";
import { extname, join, relative } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

const [folder, target] = process.argv.slice(2);
const types = {
  ".html": "text/html; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8",
  ".svg": "image/svg+xml", ".webmanifest": "application/manifest+json", ".wasm": "application/wasm", ".txt": "text/plain; charset=utf-8",
};

function filesBelow(path) {
  return readdirSync(path).sort().flatMap((name) => {
    const inside = join(path, name);
    return statSync(inside).isDirectory() ? filesBelow(inside) : [inside];
  });
}

const brotli = (bytes) => brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_QUALITY]: 11, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length } });
// Always three digits, so that a digit that follows is not taken for a part of the escape.
const escaped = Array.from({ length: 256 }, (_, byte) => "\\" + byte.toString(8).padStart(3, "0"));
function literal(bytes) {
  const lines = [];
  for (let at = 0; at < bytes.length; at += 64) lines.push('"' + Array.from(bytes.subarray(at, at + 64), (byte) => escaped[byte]).join("") + '"');
  return `{${lines.join("\n") || '""'}, ${bytes.length}}`;
}

const rows = filesBelow(folder).map((path) => {
  const address = "/" + relative(folder, path).replaceAll("\\", "/");
  const bytes = readFileSync(path);
  const type = types[extname(path)];
  if (!type) throw new Error(`embed.mjs: no content type is known for ${address}`);
  const etag = createHash("sha256").update(bytes).digest("hex").slice(0, 32);
  return `{"${address}", "${type}", "${etag}", ${address.startsWith("/assets/")},\n${literal(bytes)},\n${literal(gzipSync(bytes, { level: 9 }))},\n${literal(brotli(bytes))}},`;
});

writeFileSync(target, `// Made from the built pages by web/embed.mjs. Not for editing.
#include "server/pages.hpp"

namespace fogwright::server {
namespace {
constexpr Page table[] = {
${rows.join("\n")}
};
}  // namespace

std::span<const Page> pages() { return table; }

}  // namespace fogwright::server
`);
