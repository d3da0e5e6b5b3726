// SPDX-License-Identifier: Apache-2.0
#include <arpa/inet.h>
#include <openssl/pem.h>
#include <openssl/ssl.h>
#include <sys/socket.h>
#include <unistd.h>

#include <catch2/catch.hpp>

#include <chrono>
#include <filesystem>
#include <thread>

#include "wire.hpp"

using fogwright::server::HttpRequest;
using fogwright::server::HttpResponse;
using fogwright::server::json_response;
using fogwright::test::Client;
using fogwright::test::quick_settings;
using fogwright::test::Running;
using namespace std::chrono_literals;

namespace {

HttpResponse echo(const HttpRequest& request) { return json_response(200, {{"secure", request.secure}}); }

/// Writes a certificate that signs itself, and its key, as PEM.
void make_certificate(const std::string& name, const std::string& certificate_file,
                      const std::string& key_file) {
  EVP_PKEY* key = EVP_EC_gen("P-256");
  X509* certificate = X509_new();
  ASN1_INTEGER_set(X509_get_serialNumber(certificate), 1);
  X509_gmtime_adj(X509_getm_notBefore(certificate), 0);
  X509_gmtime_adj(X509_getm_notAfter(certificate), 3'600);
  X509_set_pubkey(certificate, key);
  X509_NAME* subject = X509_get_subject_name(certificate);
  X509_NAME_add_entry_by_txt(subject, "CN", MBSTRING_ASC, reinterpret_cast<const unsigned char*>(name.c_str()),
                             -1, -1, 0);
  X509_set_issuer_name(certificate, subject);
  REQUIRE(X509_sign(certificate, key, EVP_sha256()) > 0);
  FILE* out = std::fopen(certificate_file.c_str(), "w");
  PEM_write_X509(out, certificate);
  std::fclose(out);
  out = std::fopen(key_file.c_str(), "w");
  PEM_write_PrivateKey(out, key, nullptr, nullptr, 0, nullptr, nullptr);
  std::fclose(out);
  X509_free(certificate);
  EVP_PKEY_free(key);
}

/// A TLS client; tells what the server's certificate is for, and what it answers.
class TlsClient {
 public:
  TlsClient(std::uint16_t port, int newest)
      : context_(SSL_CTX_new(TLS_client_method())), socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    SSL_CTX_set_max_proto_version(context_, newest);
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(port);
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    REQUIRE(::connect(socket_, reinterpret_cast<sockaddr*>(&to), sizeof to) == 0);
    tls_ = SSL_new(context_);
    SSL_set_fd(tls_, socket_);
    connected_ = SSL_connect(tls_) == 1;
  }
  ~TlsClient() {
    SSL_free(tls_);
    SSL_CTX_free(context_);
    ::close(socket_);
  }
  TlsClient(const TlsClient&) = delete;
  TlsClient& operator=(const TlsClient&) = delete;

  [[nodiscard]] bool connected() const { return connected_; }
  [[nodiscard]] std::string name() const {
    X509* certificate = SSL_get1_peer_certificate(tls_);
    char text[64] = {};
    X509_NAME_get_text_by_NID(X509_get_subject_name(certificate), NID_commonName, text, sizeof text);
    X509_free(certificate);
    return text;
  }
  std::string get(const std::string& target) {
    const std::string request = "GET " + target + " HTTP/1.1\r\nHost: x\r\n\r\n";
    SSL_write(tls_, request.data(), static_cast<int>(request.size()));
    std::string answer(4'096, '\0');
    const int count = SSL_read(tls_, answer.data(), static_cast<int>(answer.size()));
    answer.resize(count > 0 ? static_cast<std::size_t>(count) : 0);
    return answer;
  }

 private:
  SSL_CTX* context_;
  int socket_;
  SSL* tls_ = nullptr;
  bool connected_ = false;
};

struct Files {
  std::string folder =
      (std::filesystem::temp_directory_path() / ("fogwright-tls-" + std::to_string(getpid()))).string();
  std::string certificate = folder + "/cert.pem", key = folder + "/key.pem";
  Files() { std::filesystem::create_directories(folder); }
  ~Files() { std::filesystem::remove_all(folder); }
};

fogwright::server::ListenSettings settings_with(const Files& files) {
  auto settings = quick_settings();
  settings.certificate = files.certificate;
  settings.certificate_key = files.key;
  return settings;
}

}  // namespace

TEST_CASE("a connection by TLS 1.2 or 1.3 is served and kept, an older one is not") {
  const Files files;
  make_certificate("one.example", files.certificate, files.key);
  Running server(settings_with(files), echo);
  for (const int version : {TLS1_2_VERSION, TLS1_3_VERSION}) {
    TlsClient client(server.port(), version);
    REQUIRE(client.connected());
    for (int i = 0; i < 2; ++i) {
      const std::string answer = client.get("/");
      CHECK(answer.find("\"secure\":true") != std::string::npos);
      CHECK(answer.find("Strict-Transport-Security: max-age=63072000") != std::string::npos);
    }
  }
  CHECK_FALSE(TlsClient(server.port(), TLS1_1_VERSION).connected());
}

TEST_CASE("a certificate that is replaced is used without a restart, one that cannot be read is not") {
  const Files files;
  make_certificate("one.example", files.certificate, files.key);
  Running server(settings_with(files), echo);
  CHECK(TlsClient(server.port(), TLS1_3_VERSION).name() == "one.example");
  std::this_thread::sleep_for(20ms);  // another time of the files
  make_certificate("two.example", files.certificate, files.key);
  const auto until = std::chrono::steady_clock::now() + 5s;
  while (TlsClient(server.port(), TLS1_3_VERSION).name() != "two.example" &&
         std::chrono::steady_clock::now() < until)
    std::this_thread::sleep_for(50ms);
  CHECK(TlsClient(server.port(), TLS1_3_VERSION).name() == "two.example");
  std::filesystem::resize_file(files.certificate, 10);
  std::this_thread::sleep_for(400ms);
  CHECK(TlsClient(server.port(), TLS1_3_VERSION).name() == "two.example");
}

TEST_CASE("a handshake that is not finished is let go, and what is no TLS is not answered") {
  const Files files;
  make_certificate("one.example", files.certificate, files.key);
  Running server(settings_with(files), echo);
  Client silent(server.port());
  CHECK(silent.receive().empty());
  // The connection is closed before it is counted.
  const auto until = std::chrono::steady_clock::now() + 5s;
  while (server.metrics.timeouts == 0 && std::chrono::steady_clock::now() < until)
    std::this_thread::sleep_for(10ms);
  CHECK(server.metrics.timeouts == 1);
  Client plain(server.port());
  CHECK(plain.exchange("GET / HTTP/1.1\r\nHost: x\r\n\r\n").find("HTTP/1.1 200") == std::string::npos);
}

TEST_CASE("a certificate that is not there stops the server before it listens") {
  auto settings = quick_settings();
  settings.certificate = settings.certificate_key = "/nonexistent.pem";
  fogwright::server::Metrics metrics;
  fogwright::server::HttpServer server(settings, echo, metrics, [](const nlohmann::json&) {});
  const auto started = server.start();
  REQUIRE_FALSE(started);
  CHECK(started.error().code == fogwright::ErrorCode::file_fault);
}
