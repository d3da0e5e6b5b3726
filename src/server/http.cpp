// SPDX-License-Identifier: Apache-2.0
#include "server/http.hpp"

#include <algorithm>

#include "fogwright/book/encoding.hpp"

namespace fogwright::server {
namespace {

bool is_plain(std::string_view text) {
  return is_utf8(text) && std::none_of(text.begin(), text.end(), [](char c) {
           return static_cast<unsigned char>(c) < 0x20U || c == 0x7f;
         });
}

tl::unexpected<Error> bad_target(std::string message) {
  return fail(ErrorCode::not_understood, std::move(message), "the address",
              "see /api/openapi.json for the addresses");
}

Result<std::string> decoded(std::string_view text, bool plus_is_space) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '+' && plus_is_space) {
      out += ' ';
    } else if (text[i] == '%') {
      const auto byte = from_hex(text.substr(i + 1, 2));
      if (!byte || byte->size() != 1) return bad_target("a percent code of the address is not one");
      out += *byte;
      i += 2;
    } else {
      out += text[i];
    }
  }
  if (!is_plain(out)) return bad_target("the address holds control characters or is not UTF-8");
  return out;
}

/// Each part between separators.
std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> parts;
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find(separator, begin), text.size());
    parts.push_back(text.substr(begin, end - begin));
    begin = end + 1;
  }
  return parts;
}

Result<void> read_query(std::string_view text, Target& target) {
  if (text.empty()) return {};
  for (const std::string_view part : split(text, '&')) {
    const std::size_t equals = std::min(part.find('='), part.size());
    const auto name = decoded(part.substr(0, equals), true);
    const auto value = decoded(part.substr(std::min(equals + 1, part.size())), true);
    if (!name) return tl::make_unexpected(name.error());
    if (!value) return tl::make_unexpected(value.error());
    if (!target.query.emplace(*name, *value).second) return bad_target("\"" + *name + "\" is asked for twice");
  }
  return {};
}

}  // namespace

std::string HttpRequest::header(std::string_view lower_case_name) const {
  const auto found = headers.find(std::string(lower_case_name));
  return found == headers.end() ? std::string() : found->second;
}

Result<Target> read_target(std::string_view text) {
  if (text.empty() || text.front() != '/') return bad_target("the address does not begin with a slash");
  const std::size_t question = std::min(text.find('?'), text.size());
  Target target;
  target.path = text.substr(0, question);
  for (const std::string_view part : split(std::string_view(target.path).substr(1), '/')) {
    auto segment = decoded(part, false);
    if (!segment) return tl::make_unexpected(segment.error());
    if (*segment == ".." || *segment == ".") return bad_target("the address walks up or in place");
    target.segments.push_back(std::move(*segment));
  }
  if (auto ok = read_query(text.substr(std::min(question + 1, text.size())), target); !ok)
    return tl::make_unexpected(ok.error());
  return target;
}

std::string cookie(const HttpRequest& request, std::string_view name) {
  const std::string header = request.header("cookie");
  for (std::string_view part : split(header, ';')) {
    while (!part.empty() && part.front() == ' ') part.remove_prefix(1);
    if (part.starts_with(name) && part.substr(name.size()).starts_with('='))
      return std::string(part.substr(name.size() + 1));
  }
  return {};
}

HttpResponse json_response(int status, const nlohmann::json& body) {
  HttpResponse response;
  response.status = status;
  response.body = body.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace) + '\n';
  return response;
}

void add_security_headers(HttpResponse& response, bool secure) {
  auto& headers = response.headers;
  const auto unless_said = [&headers](const char* name, const char* value) {
    if (std::none_of(headers.begin(), headers.end(), [name](const auto& h) { return h.first == name; }))
      headers.emplace_back(name, value);
  };
  unless_said(
      "Content-Security-Policy",
      // The engine is WebAssembly; photos are shown out of the browser's own store.
      "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self'; manifest-src 'self'; "
      "connect-src 'self'; img-src 'self' blob:; media-src 'self' blob:; style-src 'self'; "
      "frame-ancestors 'none'; form-action 'self'; base-uri 'none'; object-src 'none'");
  headers.emplace_back("Permissions-Policy",
                       "camera=(self), microphone=(), geolocation=(), payment=(), usb=()");
  headers.emplace_back("X-Content-Type-Options", "nosniff");
  headers.emplace_back("Referrer-Policy", "no-referrer");
  headers.emplace_back("Cross-Origin-Opener-Policy", "same-origin");
  headers.emplace_back("Cross-Origin-Resource-Policy", "same-origin");
  if (secure) headers.emplace_back("Strict-Transport-Security", "max-age=63072000");
  unless_said("Cache-Control", "no-store");
}

}  // namespace fogwright::server
