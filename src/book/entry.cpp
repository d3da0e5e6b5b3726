// SPDX-License-Identifier: Apache-2.0
#include "fogwright/book/entry.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "book/append_canonical.hpp"
#include "fogwright/book/canonical_json.hpp"

namespace fogwright {
namespace {

using nlohmann::json;

tl::unexpected<Error> refuse(std::string_view member, std::string message) {
  return fail(ErrorCode::bad_entry, std::move(message), std::string(member), "see docs/record-format.md");
}

// Words of lower-case letters and digits, the first starting with a letter, with single hyphens between.
bool kebab_case(std::string_view text) {
  const auto lower = [](char c) { return c >= 'a' && c <= 'z'; };
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  const bool characters =
      std::all_of(text.begin(), text.end(), [&](char c) { return lower(c) || digit(c) || c == '-'; });
  return characters && !text.empty() && lower(text.front()) && text.back() != '-' &&
         text.find("--") == text.npos;
}

Result<void> number_ok(std::string_view member, std::int64_t value, std::int64_t most) {
  if (value < 0 || value > most) return refuse(member, fmt::format("it must be from 0 to {}", most));
  return {};
}

Result<void> text_ok(std::string_view member, std::string_view text, std::size_t most) {
  if (text.empty() || text.size() > most)
    return refuse(member, fmt::format("it must have 1 to {} bytes", most));
  return {};
}

Result<void> correction_ok(const Entry& entry) {
  if (!entry.corrects && entry.reason.empty()) return {};
  if (!entry.corrects)
    return refuse("reason", "only a correction has a reason; other reasons belong in the body");
  if (!is_v7(*entry.corrects)) return refuse("corrects", "it is not a UUID of version 7");
  if (*entry.corrects == entry.id) return refuse("corrects", "an entry cannot correct itself");
  return text_ok("reason", entry.reason, 1024);
}

Result<void> entry_ok(const Entry& entry) {
  return number_ok("seq", entry.seq, largest_exact_integer)
      .and_then([&] { return number_ok("happened", entry.happened_ms, latest_time_ms); })
      .and_then([&] { return number_ok("received", entry.received_ms, latest_time_ms); })
      .and_then([&] { return text_ok("actor", entry.actor, 128); })
      .and_then([&] { return text_ok("device", entry.device, 128); })
      .and_then([&] { return text_ok("kind", entry.kind, 64); })
      .and_then([&]() -> Result<void> {
        if (!is_v7(entry.id)) return refuse("id", "it is not a UUID of version 7");
        if (!kebab_case(entry.kind)) return refuse("kind", "it must be like stock-received");
        if (!entry.body.is_object()) return refuse("body", "it must be an object");
        return correction_ok(entry);
      });
}

// The envelope is written member by member, in the canonical order of their names: a JSON value made for it
// would cost more than all the rest.
class Envelope {
 public:
  Envelope() { bytes_.reserve(512); }

  void text(std::string_view name, std::string_view value) {
    begin(name);
    note(append_canonical_text(bytes_, value));
  }
  void number(std::string_view name, std::int64_t value) {
    begin(name);
    bytes_ += std::to_string(value);
  }
  void value(std::string_view name, const json& value) {
    begin(name);
    note(append_canonical(bytes_, value));
  }
  [[nodiscard]] Result<std::string> take() && {
    bytes_ += '}';
    return ok_.map([&] { return std::move(bytes_); });
  }

 private:
  void begin(std::string_view name) {
    bytes_ += bytes_.empty() ? "{\"" : ",\"";
    bytes_ += name;
    bytes_ += "\":";
  }
  void note(Result<void> written) {
    if (ok_) ok_ = std::move(written);
  }

  std::string bytes_;
  Result<void> ok_;
};

Result<std::string> envelope(const Entry& entry, std::string_view origin) {
  Envelope members;
  members.text("actor", entry.actor);
  members.value("body", entry.body);
  members.text("book", origin);
  if (entry.corrects) members.text("corrects", uuid_text(*entry.corrects));
  members.text("device", entry.device);
  members.number("happened", entry.happened_ms);
  members.text("id", uuid_text(entry.id));
  members.text("kind", entry.kind);
  if (entry.corrects) members.text("reason", entry.reason);
  members.number("received", entry.received_ms);
  members.number("seq", entry.seq);
  members.number("v", record_version);
  return std::move(members).take();
}

// Reads members by name and type and remembers the first that is missing or of another type.
class Members {
 public:
  explicit Members(json& object) : object_(object) {}

  std::int64_t integer(const char* name) {
    return find(name, [](const json& j) { return j.is_number_integer(); }) ? object_[name].get<std::int64_t>()
                                                                           : 0;
  }
  /// Takes the string out of the object.
  std::string string(const char* name) {
    const bool found = find(name, [](const json& j) { return j.is_string(); });
    return found ? std::move(object_[name].get_ref<std::string&>()) : "";
  }
  Uuid uuid(const char* name) {
    const auto id = read_uuid(string(name));
    if (!id) note_missing(name);
    return id.value_or(Uuid{});
  }

  [[nodiscard]] const std::string& missing() const { return missing_; }

 private:
  template <class Is>
  bool find(const char* name, Is is) {
    const auto member = object_.find(name);
    const bool found = member != object_.end() && is(*member);
    if (!found) note_missing(name);
    return found;
  }
  void note_missing(const char* name) {
    if (missing_.empty()) missing_ = name;
  }

  json& object_;
  std::string missing_;
};

Result<Entry> from_envelope(json object) {
  Members members(object);
  Entry entry{members.integer("seq"),
              members.uuid("id"),
              members.integer("happened"),
              members.integer("received"),
              members.string("actor"),
              members.string("device"),
              members.string("kind"),
              {},
              {},
              {}};
  if (object.contains("corrects")) {
    entry.corrects = members.uuid("corrects");
    entry.reason = members.string("reason");
  }
  if (!members.missing().empty())
    return refuse(members.missing(), "this member is missing or of the wrong type");
  const auto body = object.find("body");
  if (body == object.end()) return refuse("body", "this member is missing");
  entry.body = std::move(*body);
  return entry;
}

Result<void> version_and_book_ok(json& object, std::string_view origin) {
  if (!object.is_object()) return refuse("", "an entry is a JSON object");
  Members members(object);
  const std::int64_t version = members.integer("v");
  if (version > record_version) {
    return fail(ErrorCode::newer_book, fmt::format("the entry has version {} of the record format", version),
                "v", "use a newer version of this program");
  }
  if (version != record_version) return refuse("v", "the version must be 1");
  if (members.string("book") != origin)
    return refuse("book", fmt::format("the entry is not of the book {}", origin));
  return {};
}

}  // namespace

Result<std::string> leaf_bytes(const Entry& entry, std::string_view origin) {
  if (auto ok = entry_ok(entry); !ok) return tl::make_unexpected(ok.error());
  if (auto ok = record_member_ok("body", entry.body); !ok) return tl::make_unexpected(ok.error());
  auto bytes = envelope(entry, origin);
  if (bytes && bytes->size() > most_leaf_bytes) {
    return refuse("body",
                  fmt::format("the entry has {} bytes, the most is {}", bytes->size(), most_leaf_bytes));
  }
  return bytes;
}

Result<Entry> read_entry(std::string_view bytes, std::string_view origin) {
  if (bytes.size() > most_leaf_bytes) return refuse("", "the entry has more than 65,535 bytes");
  auto object = read_strict_json(bytes);
  if (!object) return tl::make_unexpected(object.error());
  if (auto ok = version_and_book_ok(*object, origin); !ok) return tl::make_unexpected(ok.error());
  auto entry = from_envelope(std::move(*object));
  if (!entry) return entry;
  const auto again = leaf_bytes(*entry, origin);
  if (!again) return tl::make_unexpected(again.error());
  if (*again != bytes)
    return refuse("", "the bytes are not the canonical form of an entry, or hold an unknown member");
  return entry;
}

bool claims_seq(std::string_view bytes, std::uint64_t seq) noexcept {
  static_assert(record_version == 1);
  constexpr std::string_view after = ",\"v\":1}";
  if (!bytes.ends_with(after)) return false;
  bytes.remove_suffix(after.size());
  // Digit by digit from the right: this runs for every entry of a book that is verified.
  do {
    if (bytes.empty() || bytes.back() != static_cast<char>('0' + seq % 10)) return false;
    bytes.remove_suffix(1);
    seq /= 10;
  } while (seq > 0);
  return bytes.ends_with(",\"seq\":");
}

}  // namespace fogwright
