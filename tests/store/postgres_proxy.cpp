// SPDX-License-Identifier: Apache-2.0
#include "postgres_proxy.hpp"

#include <poll.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <cstdlib>
#include <stdexcept>
#include <string_view>

namespace store_test {
namespace {

constexpr int look_every_ms = 20;

sockaddr_un address_in(const std::string& folder) {
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  const std::string path = folder + "/.s.PGSQL.5432";
  if (path.size() >= sizeof address.sun_path) throw std::runtime_error("the path of the socket is too long");
  path.copy(address.sun_path, path.size());
  return address;
}

int made_socket() {
  const int made = ::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
  if (made < 0) throw std::runtime_error("no socket");
  return made;
}

bool readable(int socket) {
  pollfd waiting{socket, POLLIN, 0};
  return ::poll(&waiting, 1, look_every_ms) > 0;
}

// Moves what is there; false at the end.
bool move_on(int from, int to, std::string& moved) {
  char bytes[65'536];
  const ssize_t count = ::read(from, bytes, sizeof bytes);
  if (count <= 0) return false;
  moved.assign(bytes, static_cast<std::size_t>(count));
  return to < 0 || ::send(to, moved.data(), moved.size(), MSG_NOSIGNAL) == count;
}

}  // namespace

Proxy::Proxy(const std::string& folder) : listener_(made_socket()) {
  const sockaddr_un address = address_in(folder);
  if (::bind(listener_, reinterpret_cast<const sockaddr*>(&address), sizeof address) != 0 ||
      ::listen(listener_, 16) != 0)
    throw std::runtime_error("the proxy cannot listen");
  accepting_ = std::thread([this] { accept_all(); });
}

Proxy::~Proxy() {
  ended_ = true;
  accepting_.join();
  for (std::thread& one : carrying_) one.join();
  ::close(listener_);
}

void Proxy::accept_all() {
  while (!ended_) {
    if (!readable(listener_)) continue;
    const int client = ::accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC);
    if (client >= 0) carrying_.emplace_back([this, client] { carry(client); });
  }
}

void Proxy::carry(int client) {
  const int server = made_socket();
  const sockaddr_un address = address_in(std::getenv("PGHOST"));
  bool open = ::connect(server, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0;
  std::string moved;
  while (open && !ended_) {
    pollfd both[] = {{client, POLLIN, 0}, {server, POLLIN, 0}};
    if (::poll(both, 2, look_every_ms) <= 0) continue;
    if (both[1].revents != 0) open = move_on(server, client, moved);
    if (!open || both[0].revents == 0) continue;
    open = move_on(client, -1, moved);
    const bool commit = moved.find(std::string_view("COMMIT\0", 7)) != std::string::npos;
    const Cut cut = commit ? cut_.exchange(Cut::never) : Cut::never;
    if (open && cut != Cut::before_commit)
      open = ::send(server, moved.data(), moved.size(), MSG_NOSIGNAL) == static_cast<ssize_t>(moved.size());
    if (cut == Cut::after_commit) {  // the server has done it when it answers
      (void)readable(server);
      while (!readable(server) && !ended_) {
      }
    }
    open = open && cut == Cut::never;
  }
  ::close(client);
  ::close(server);
}

}  // namespace store_test
