// SPDX-License-Identifier: Apache-2.0
#include "support.hpp"

#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>

#include "fogwright/book/checkpoint.hpp"
#include "fogwright/book/encoding.hpp"
#include "fogwright/book/merkle.hpp"

namespace store_test {

namespace fs = std::filesystem;
using nlohmann::json;

Folder::Folder(bool in_memory) {
  const bool memory = in_memory && fs::exists("/dev/shm");
  std::string name =
      ((memory ? fs::path("/dev/shm") : fs::temp_directory_path()) / "fogwright-test-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for the test");
  path_ = fs::canonical(name);
}

Folder::~Folder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

namespace {

void count_kind(const Entry& entry, MutableDocuments& documents) {
  json counted = documents.get("count", entry.kind).value_or(json{{"n", 0}});
  counted["n"] = counted["n"].get<std::int64_t>() + 1;
  documents.put("count", entry.kind, counted, true);
}

}  // namespace

void fold(const Entry& entry, MutableDocuments& documents) {
  count_kind(entry, documents);
  documents.put("last", entry.actor, {{"seq", entry.seq}, {"body", entry.body}}, true);
  if (!entry.body.contains("container")) return;
  const bool live = entry.kind != "container-emptied";
  documents.put("container", entry.body["container"].get<std::string>(), {{"since", entry.seq}}, live);
}

Uuid id_number(std::int64_t n) {
  UuidRandom random{};
  for (std::size_t i = 0; i < 8; ++i) random[9 - i] = static_cast<std::uint8_t>(n >> (8 * i) & 0xFF);
  return uuid_v7(start_ms + n, random);
}

// Every third entry empties the container that the one before it opened.
NewEntry entry_number(std::int64_t n, std::size_t padding) {
  const std::int64_t container = n % 3 == 2 ? n - 1 : n;
  return {id_number(n),
          start_ms + n,
          n % 2 == 0 ? "plover" : "wren",
          "heron-tablet",
          n % 3 == 2 ? "container-emptied" : "container-opened",
          json{{"container", fmt::format("lot-{:06}", container)},
               {"microlitres", 946'353 + n},
               {"note", std::string(padding, 'x')}},
          std::nullopt,
          ""};
}

Clock ticking_clock() {
  return [now = start_ms]() mutable { return ++now; };
}

bool on_server() { return std::getenv("FOGWRIGHT_TEST_POSTGRES") != nullptr; }

std::string address_of(const std::string& path) {
  if (!on_server() || fs::exists(path)) return path;
  return "postgresql:///?schema=t" + to_hex(as_bytes(hash_leaf(path))).substr(0, 20);
}

std::unique_ptr<Store> created(const std::string& path) {
  auto book = create_book(address_of(path), origin, fold, ticking_clock());
  if (!book) throw std::runtime_error(book.error().message);
  return std::move(*book);
}

std::unique_ptr<Store> opened(const std::string& path, const SqliteOptions& options) {
  const std::string address = address_of(path);
  pq::Options there;
  there.wait = options.wait;
  auto book = is_server_address(address) ? open_postgres_book(address, fold, ticking_clock(), there)
                                         : open_sqlite_book(path, fold, ticking_clock(), options);
  if (!book) throw std::runtime_error(book.error().message);
  return std::move(*book);
}

Error refusal(const std::string& path, const SqliteOptions& options) {
  const auto book = open_sqlite_book(path, fold, ticking_clock(), options);
  REQUIRE_FALSE(book);
  return book.error();
}

Result<std::vector<Receipt>> append_numbers(Store& store, std::int64_t from, std::int64_t to,
                                            std::size_t padding) {
  return store.append([&](const Documents&, const Head&) -> Result<std::vector<NewEntry>> {
    std::vector<NewEntry> entries;
    for (std::int64_t n = from; n < to; ++n) entries.push_back(entry_number(n, padding));
    return entries;
  });
}

void make_book(const std::string& path, std::int64_t count) {
  const auto book = created(path);
  constexpr std::int64_t at_a_time = 500;
  for (std::int64_t n = 0; n < count; n += at_a_time) {
    if (!append_numbers(*book, n, std::min(count, n + at_a_time))) throw std::runtime_error("append");
  }
}

const SignerKey& book_key() {
  static const SignerKey key(origin, KeyKind::ed25519, KeyBytes{7, 7, 7});
  return key;
}

void keep_checkpoint(Store& book) {
  const Head head = book.head();
  const Checkpoint checkpoint{origin, static_cast<std::uint64_t>(head.size), head.root};
  book.add_checkpoint(head.size, sign_checkpoint(checkpoint, book_key()).value());
}

std::string joined(const std::vector<Finding>& findings) {
  std::string text;
  for (const Finding& finding : findings) {
    text += (finding.seq ? fmt::format("entry {}: ", *finding.seq) : std::string()) + finding.what + "\n";
  }
  return text;
}

void require_sound(Store& store) {
  const Verification verification = store.verify({}, VerifyDepth::all, {});
  CHECK(joined(verification.findings) == "");
  CHECK(verification.head.size == store.head().size);
  CHECK(verification.head.root == store.head().root);
  std::vector<std::string> differing;
  CHECK(store.rebuild(differing, {}) == 0);
}

Verification verified(const std::string& path, VerifyDepth depth, std::string_view vkey) {
  return opened(path)->verify(vkey, depth, {});
}

int start(const std::function<void()>& act) {
  const pid_t child = ::fork();
  if (child != 0) return child;
  try {
    act();
    ::_exit(0);
  } catch (const std::exception& fault) {
    ::fprintf(stderr, "child: %s\n", fault.what());
    ::_exit(1);
  }
}

int outcome(int child) {
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

std::string sql_bytes(std::string_view bytes) {
  return fmt::format("{}{}'", on_server() ? "'\\x" : "x'", to_hex(bytes));
}

pq::Connection superuser(const std::string& path) {
  const auto address = pq::read_address(address_of(path));
  if (!address) throw std::runtime_error(address.error().message);
  return {*address, std::chrono::seconds(20), [](pq::Connection& connection) {
            (void)connection.execute("SET search_path = " + connection.address().schema + ", public");
          }};
}

namespace {

// What the tests use of SQLite's functions.
constexpr const char* functions = R"sql(
CREATE OR REPLACE FUNCTION public.zeroblob(n integer) RETURNS bytea LANGUAGE sql AS
  $$SELECT decode(repeat('00', n), 'hex')$$;
CREATE OR REPLACE FUNCTION public.randomblob(n integer) RETURNS bytea LANGUAGE sql AS
  $$SELECT decode(substr(md5(random()::text), 1, 2 * n), 'hex')$$;
)sql";

void tamper_on_server(const std::string& path, const std::string& sql) {
  pq::Connection connection = superuser(path);
  (void)connection.execute(functions);
  (void)connection.execute("SET session_replication_role = replica;" + sql +
                           ";UPDATE head SET size = (SELECT coalesce(max(seq) + 1, 0) FROM entry)");
}

}  // namespace

void tamper(const std::string& path, const std::string& sql) {
  if (on_server()) return tamper_on_server(path, sql);
  sqlite::Connection connection(path, sqlite::Access::read_write, {}, 1000);
  std::vector<std::pair<std::string, std::string>> triggers;
  {
    auto select = connection.prepare("SELECT name, sql FROM sqlite_schema WHERE type = 'trigger'");
    auto rows = select.rows();
    while (rows.next()) triggers.emplace_back(rows.text(0), rows.text(1));
  }
  for (const auto& [name, text] : triggers) connection.execute("DROP TRIGGER " + name);
  connection.execute(sql);
  for (const auto& [name, text] : triggers) connection.execute(text);
}

}  // namespace store_test
