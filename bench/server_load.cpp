// SPDX-License-Identifier: Apache-2.0
// server_load PORT COOKIE CSRF CLIENTS SECONDS EVERY_MS FILE: clients that each keep one connection to a server
// on this machine and ask every so often: of ten requests one writes an entry, three ask for a plan, six read.
// Times count from when a request was due, so that a server that stalls is not flattered by clients that wait
// for it. Prints milliseconds by kind as JSON; writes the ids that were acknowledged to FILE.
#include <arpa/inet.h>
#include <netinet/tcp.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <mutex>
#include <random>
#include <string>
#include <thread>
#include <vector>

namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;

struct Load {
  std::uint16_t port = 0;
  std::string cookie, csrf;
  int clients = 0;
  std::chrono::seconds length{};
  milliseconds every{};
};

enum Kind { append, plan, read, kinds };
constexpr std::array<const char*, kinds> kind_names = {"append", "plan", "read"};

struct Outcome {
  std::array<std::vector<double>, kinds> ms;
  std::vector<std::string> ids;
  int errors = 0;
  std::string first_error;
};

std::string uuid_v7(std::mt19937_64& random) {
  const auto now =
      std::chrono::duration_cast<milliseconds>(std::chrono::system_clock::now().time_since_epoch());
  const auto high = static_cast<unsigned long long>(now.count()) << 16U | 0x7000U | (random() & 0xfffU);
  const auto low = 0x8000000000000000ULL | (random() >> 2U);
  char hex[33];
  std::snprintf(hex, sizeof hex, "%016llx%016llx", high, static_cast<unsigned long long>(low));
  const std::string digits = hex;
  return digits.substr(0, 8) + '-' + digits.substr(8, 4) + '-' + digits.substr(12, 4) + '-' +
         digits.substr(16, 4) + '-' + digits.substr(20);
}

class Client {
 public:
  Client(const Load& load, unsigned seed) : load_(load), random_(seed) {}

  void run(steady_clock::time_point begin, Outcome& outcome) {
    const auto end = begin + load_.length;
    auto due = begin + milliseconds(random_() % static_cast<unsigned>(load_.every.count()));
    for (int number = 0; due < end; ++number, due += load_.every) {
      std::this_thread::sleep_until(due);
      const auto dice = random_() % 10;
      const Kind kind = dice == 0 ? append : dice < 4 ? plan : read;
      const std::string id = uuid_v7(random_);
      const std::string answer = exchange(request(kind, id));
      outcome.ms[kind].push_back(std::chrono::duration<double, std::milli>(steady_clock::now() - due).count());
      const std::string status = answer.size() > 12 ? answer.substr(9, 3) : "none";
      if (status == (kind == append ? "201" : "200")) {
        if (kind == append) outcome.ids.push_back(id);
      } else if (++outcome.errors == 1) {
        outcome.first_error = std::string(kind_names[kind]) + ": " + answer.substr(0, 400);
      }
    }
    hang_up();
  }

 private:
  [[nodiscard]] std::string request(Kind kind, const std::string& id) const {
    const std::string common = " HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: " + load_.cookie + "\r\n";
    if (kind == read) return "GET /api/v1/jobs" + common + "\r\n";
    const std::string body =
        kind == append ? R"({"temperature":"68 F"})"
                       : R"({"product":"fenmist-rtu","site":{"system":[{"area":"2400 sq ft","returns":3}]}})";
    const std::string path = kind == append ? "/api/v1/places/heron/temperatures" : "/api/v1/plan";
    return "POST " + path + common + "X-CSRF-Token: " + load_.csrf + "\r\nIdempotency-Key: \"" + id +
           "\"\r\nContent-Type: application/json\r\nContent-Length: " + std::to_string(body.size()) +
           "\r\n\r\n" + body;
  }

  std::string exchange(const std::string& request) {
    if (socket_ < 0) dial();
    if (::send(socket_, request.data(), request.size(), MSG_NOSIGNAL) != static_cast<ssize_t>(request.size())) {
      hang_up();
      return {};
    }
    std::string answer;
    std::array<char, 65'536> part{};
    while (!whole(answer)) {
      const auto count = ::recv(socket_, part.data(), part.size(), 0);
      if (count <= 0) {
        hang_up();
        return {};
      }
      answer.append(part.data(), static_cast<std::size_t>(count));
    }
    return answer;
  }

  static bool whole(const std::string& answer) {
    const auto head = answer.find("\r\n\r\n");
    const auto length = answer.find("Content-Length: ");
    if (head == std::string::npos || length == std::string::npos) return false;
    return answer.size() >= head + 4 + std::strtoul(answer.c_str() + length + 16, nullptr, 10);
  }

  void dial() {
    socket_ = ::socket(AF_INET, SOCK_STREAM, 0);
    const int on = 1;
    ::setsockopt(socket_, IPPROTO_TCP, TCP_NODELAY, &on, sizeof on);
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(load_.port);
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    if (::connect(socket_, reinterpret_cast<sockaddr*>(&to), sizeof to) != 0) hang_up();
  }
  void hang_up() {
    if (socket_ >= 0) ::close(socket_);
    socket_ = -1;
  }

  const Load& load_;
  std::mt19937_64 random_;
  int socket_ = -1;
};

double at(const std::vector<double>& sorted, double share) {
  if (sorted.empty()) return 0;
  return sorted[std::min(sorted.size() - 1,
                         static_cast<std::size_t>(share * static_cast<double>(sorted.size())))];
}

void print(std::vector<Outcome>& outcomes, const char* file) {
  std::ofstream ids(file);
  int errors = 0;
  std::string first_error;
  std::cout << "{";
  for (std::size_t kind = 0; kind < kinds; ++kind) {
    std::vector<double> all;
    for (const Outcome& one : outcomes) all.insert(all.end(), one.ms[kind].begin(), one.ms[kind].end());
    std::sort(all.begin(), all.end());
    std::cout << '"' << kind_names[kind] << "\":{\"count\":" << all.size() << ",\"p50\":" << at(all, 0.5)
              << ",\"p99\":" << at(all, 0.99) << ",\"most\":" << at(all, 1) << "},";
  }
  for (const Outcome& one : outcomes) {
    errors += one.errors;
    if (first_error.empty()) first_error = one.first_error;
    for (const std::string& id : one.ids) ids << id << '\n';
  }
  std::cout << "\"errors\":" << errors << "}\n";
  if (errors > 0) std::cerr << first_error << '\n';
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 8) {
    std::cerr << "usage: server_load PORT COOKIE CSRF CLIENTS SECONDS EVERY_MS FILE\n";
    return 2;
  }
  const Load load{static_cast<std::uint16_t>(std::atoi(argv[1])),
                  argv[2],
                  argv[3],
                  std::atoi(argv[4]),
                  std::chrono::seconds(std::atoi(argv[5])),
                  milliseconds(std::atoi(argv[6]))};
  std::vector<Outcome> outcomes(static_cast<std::size_t>(load.clients));
  std::vector<std::thread> threads;
  const auto begin = steady_clock::now() + std::chrono::seconds(1);
  for (int i = 0; i < load.clients; ++i)
    threads.emplace_back([&load, &outcomes, begin, i] {
      Client(load, static_cast<unsigned>(i) + 1).run(begin, outcomes[static_cast<std::size_t>(i)]);
    });
  for (std::thread& thread : threads) thread.join();
  print(outcomes, argv[7]);
}
