// SPDX-License-Identifier: Apache-2.0
#include <fmt/format.h>

#include "cli/desk_call.hpp"
#include "cli/desk_commands.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/sha256.hpp"
#include "fogwright/desk/equipment.hpp"
#include "fogwright/desk/stock_desk.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

std::string digest_of(std::string_view text) {
  const Hash hash = sha256(text);
  return to_hex({reinterpret_cast<const char*>(hash.data()), hash.size()});
}

/// Every fault of the profile is told, which the desk, with its one error, cannot.
Outcome run_adopt(const Call& call) {
  OptionReader options(call);
  options.operands(1, 1, "the profile");
  if (options.fault()) return refuse(*options.fault());
  const std::string file = options.operand();
  const auto text = read_file(file);
  if (!text) return refuse(text.error());
  const auto label = read_label(*text, file);
  if (!label) return tl::make_unexpected(label.error());
  const std::string product = options.on("product") ? options.text("product") : product_key(label->name);
  const LabelAdoption adoption{product, *text, file, digest_of(*text)};
  return write_to_book(
      call, [&](const DeskContext& context) { return adopt_label(context, adoption); },
      [&](const Drafts&) {
        return fmt::format("{} is adopted as {}, label of {}", label->name, product, label->label_date);
      });
}

Result<Drafts> make_retire(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the product");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return retire_label(context, options.operand(), options.text("digest"), options.text("why"));
}
std::string told_retire(const Drafts& drafts) {
  return fmt::format("a label of {} is retired", drafts.front().body.at("product").get<std::string>());
}

void show_versions(const json& product, Page& page) {
  for (const json& version : product.at("versions")) {
    std::string words = fmt::format("label of {}", version.at("label_date").get<std::string>());
    if (version.at("digest") == product.at("current")) words += ", current";
    if (version.contains("retired"))
      words += fmt::format(", retired: {}", version["retired"].get<std::string>());
    page.field("", words);
    page.field("", version.at("digest").get<std::string>(), Emphasis::quiet);
  }
}

Outcome run_list(const Call& call) {
  return show_from_book(call, [](const Documents& now, Page& page) -> Result<json> {
    json list = json::array();
    now.each("product", false, [&](const std::string& key, const json& product) {
      list.push_back(product);
      page.field(key, fmt::format("{} ({})", product.at("name").get<std::string>(),
                                  product.at("registration").get<std::string>()));
      show_versions(product, page);
    });
    if (list.empty()) page.line("no label yet; adopt one with fogwright product adopt FILE");
    return json{{"products", list}};
  });
}

Result<Drafts> make_place(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(1, 1, "the name of the place");
  const std::string type = options.needed("type", "van");
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return add_place(context, options.operand(), type, options.text("note"));
}
std::string told_place(const Drafts& drafts) {
  return fmt::format("{} {} is added", drafts.front().body.at("type").get<std::string>(),
                     drafts.front().body.at("place").get<std::string>());
}

Result<Drafts> make_read(const Call& call, const DeskContext& context) {
  OptionReader options(call);
  options.operands(2, 2, "the place or its temperature");
  const Temperature temperature = options.take(read_temperature(options.operand(1), "temperature"));
  if (options.fault()) return tl::make_unexpected(*options.fault());
  return read_storage(context, options.operand(), temperature, options.operand(1));
}
std::string told_read(const Drafts& drafts) {
  return fmt::format("{} at {}", drafts.front().body.at("place").get<std::string>(),
                     drafts.front().body.at("temperature_typed").get<std::string>());
}

Outcome run_list_places(const Call& call) {
  return show_from_book(call, [&call](const Documents& now, Page& page) -> Result<json> {
    json list = json::array();
    now.each("place", true, [&](const std::string& name, const json& place) {
      list.push_back(place);
      std::string words = place.at("type");
      if (place.contains("last_read_ms"))
        words +=
            fmt::format(", {} on {}",
                        show(Temperature::kelvin(
                                 static_cast<double>(place["last_temperature_mk"].get<std::int64_t>()) / 1e3),
                             call.style.units),
                        day_text(place["last_read_ms"]));
      page.field(name, words);
    });
    if (list.empty()) page.line("no place yet; add one with fogwright place add NAME --type shop");
    return json{{"places", list}};
  });
}

}  // namespace

std::vector<Command> product_commands() {
  return {
      {"product", "adopt", "FILE", "go by this label from now on; the one before stays in the record",
       with_book_options({{"product", "KEY", "name in the book (default: from the label's name)"}}), run_adopt,
       "fogwright product adopt product_profiles_demo/fenmist-rtu.toml"},
      {"product", "retire", "PRODUCT", "a label holds no longer",
       with_book_options(
           {{"digest", "SHA256", "which label (default: the current one)"}, {"why", "WORDS", "the reason"}}),
       run_desk<make_retire, told_retire>,
       "fogwright product retire fenmist-rtu --why 'withdrawn by the maker'"},
      {"product",
       "list",
       "",
       "the products and their labels",
       with_book_options({}),
       run_list,
       "fogwright product list",
       {"products", {"product", "name", "registration", "current", "versions"}}},
  };
}

std::vector<Command> place_commands() {
  return {
      {"place", "add", "NAME", "a shop or van where product is kept",
       with_book_options({{"type", "shop|van", "what it is"}, {"note", "WORDS", "e.g. the licence plate"}}),
       run_desk<make_place, told_place>, "fogwright place add heron --type van"},
      {"place", "read", "NAME TEMPERATURE", "record how warm a place is", with_book_options({}),
       run_desk<make_read, told_read>, "fogwright place read heron '72 F'"},
      {"place",
       "list",
       "",
       "the places and their last temperature",
       with_book_options({}),
       run_list_places,
       "fogwright place list",
       {"places", {"place", "type", "last_temperature_mk", "last_read_utc"}}},
  };
}

}  // namespace fogwright
