#include "listener.h"

#include "files.h"

#include <fmt/format.h>

#include <arpa/inet.h>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstring>
#include <future>
#include <list>
#include <netinet/in.h>
#include <sys/select.h>
#include <sys/socket.h>
#include <unistd.h>

namespace treadfold {
namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t kHeadLimit = 16 * 1024, kBodyLimit = 1024, kConnections = 64;
constexpr auto kPatience = std::chrono::seconds(10); // for a whole request

volatile std::sig_atomic_t ended = 0;
void end(int) { ended = 1; }

Response refusal(int status, const char* words) {
  Response response;
  response.status = status;
  response.body = words;
  return response;
}

/// Reads on until `enough`; false if the other side went away or took too long.
bool read_until(int connection, std::string& text, const std::function<bool()>& enough,
                Clock::time_point deadline) {
  char part[4096];
  while (!enough()) {
    const auto size = recv(connection, part, sizeof part, 0);
    if (size <= 0 || Clock::now() > deadline) return false;
    text.append(part, static_cast<std::size_t>(size));
  }
  return true;
}

void send_all(int connection, const std::string& bytes) {
  for (std::size_t at = 0; at < bytes.size();) {
    const auto size = send(connection, bytes.data() + at, bytes.size() - at, MSG_NOSIGNAL);
    if (size <= 0) return; // the other side went away
    at += static_cast<std::size_t>(size);
  }
}

/// The size said in Content-Length; none said is 0; more than the limit if it is no such number.
std::size_t body_size(const Request& request) {
  const auto said = request.header("content-length");
  if (said.empty()) return request.header("transfer-encoding").empty() ? 0 : kBodyLimit + 1;
  if (said.size() > 6 || said.find_first_not_of("0123456789") != std::string::npos) return kBodyLimit + 1;
  return static_cast<std::size_t>(std::stoul(said));
}

void converse(int connection, const std::function<Response(const Request&)>& answer) {
  const auto deadline = Clock::now() + kPatience;
  std::string text;
  std::size_t head = std::string::npos;
  const auto has_head = [&] {
    head = text.find("\r\n\r\n");
    return head != std::string::npos || text.size() > kHeadLimit;
  };
  if (!read_until(connection, text, has_head, deadline)) return;
  auto request = head <= kHeadLimit ? read_head(text.substr(0, head)) : std::nullopt;
  if (!request) return send_all(connection, written(refusal(400, "This is no request.\n"), true));
  const auto size = body_size(*request);
  if (size > kBodyLimit) return send_all(connection, written(refusal(413, "Too much.\n"), true));
  const auto begin = head + 4;
  if (!read_until(
          connection, text, [&] { return text.size() >= begin + size; }, deadline))
    return;
  request->body = text.substr(begin, size);
  send_all(connection, written(answer(*request), request->method != "HEAD"));
}

void set_patience(int connection) {
  timeval patience{};
  patience.tv_sec = std::chrono::seconds(kPatience).count();
  setsockopt(connection, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
  setsockopt(connection, SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience);
}

struct Connection {
  int socket;
  std::future<void> done;
};

void close_done(std::list<Connection>& connections) {
  connections.remove_if([](Connection& c) {
    const bool done = c.done.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
    if (done) close(c.socket);
    return done;
  });
}

/// SIGINT and SIGTERM are kept back in all threads but while one waits with the mask this returns.
sigset_t catch_the_end() {
  ended = 0;
  struct sigaction action {};
  action.sa_handler = end;
  sigset_t kept_back, before;
  sigemptyset(&kept_back);
  for (const int signal : {SIGINT, SIGTERM}) {
    sigaction(signal, &action, nullptr);
    sigaddset(&kept_back, signal);
  }
  pthread_sigmask(SIG_BLOCK, &kept_back, &before);
  for (const int signal : {SIGINT, SIGTERM})
    sigdelset(&before, signal);
  return before;
}

} // namespace

Listener::Listener(bool every_address, int port)
    : socket_(socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)), port_(port), waiting_{} {
  const auto fail = [&](const std::string& words) {
    if (socket_ >= 0) close(socket_);
    throw FileError(words);
  };
  if (socket_ < 0) fail(fmt::format("no connection can be made: {}", std::strerror(errno)));
  const int on = 1;
  setsockopt(socket_, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(static_cast<std::uint16_t>(port));
  address.sin_addr.s_addr = htonl(every_address ? INADDR_ANY : INADDR_LOOPBACK);
  auto* any = reinterpret_cast<sockaddr*>(&address);
  socklen_t size = sizeof address;
  if (bind(socket_, any, size) != 0 || listen(socket_, 16) != 0)
    fail(errno == EADDRINUSE ? fmt::format("port {} is taken: --port says another", port)
                             : fmt::format("port {} cannot be had: {}", port, std::strerror(errno)));
  getsockname(socket_, any, &size);
  port_ = ntohs(address.sin_port);
  waiting_ = catch_the_end();
}

Listener::~Listener() { close(socket_); }

void Listener::run(const std::function<Response(const Request&)>& answer) const {
  std::list<Connection> connections;
  while (!ended) {
    fd_set readable;
    FD_ZERO(&readable);
    FD_SET(socket_, &readable);
    const timespec a_while{1, 0}; // so that what is done with is closed
    const int ready = pselect(socket_ + 1, &readable, nullptr, nullptr, &a_while, &waiting_);
    close_done(connections);
    if (ready <= 0 || connections.size() >= kConnections) continue;
    const int connection = accept4(socket_, nullptr, nullptr, SOCK_CLOEXEC);
    if (connection < 0) continue;
    set_patience(connection);
    connections.push_back({connection, std::async(std::launch::async, [connection, &answer] {
                             converse(connection, answer);
                             shutdown(connection, SHUT_WR);
                           })});
  }
  for (auto& connection : connections) {
    shutdown(connection.socket, SHUT_RDWR);
    connection.done.wait();
    close(connection.socket);
  }
}

} // namespace treadfold
