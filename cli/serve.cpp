// treadfold serve: hands out the built app until Ctrl-C.
#include "commands.h"
#include "files.h"
#include "lan_door.h"
#include "listener.h"
#include "site.h"

#include <fmt/format.h>

#include <arpa/inet.h>
#include <csignal>
#include <cstdio>
#include <fcntl.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <optional>
#include <spawn.h>

extern char** environ;

namespace treadfold {
namespace {

void say(const std::string& line) { write_standard_output(line + "\n"), std::fflush(stdout); }

/// Quiet where there is no browser: the address is on the screen.
void open_browser(const std::string& address) {
  std::signal(SIGCHLD, SIG_IGN); // nobody waits for it
  posix_spawn_file_actions_t quiet;
  posix_spawn_file_actions_init(&quiet);
  for (const int stream : {0, 1, 2})
    posix_spawn_file_actions_addopen(&quiet, stream, "/dev/null", O_RDWR, 0);
  std::string command = "xdg-open", argument = address;
  char* arguments[] = {command.data(), argument.data(), nullptr};
  posix_spawnattr_t attributes; // not with our own signals kept back
  sigset_t none;
  sigemptyset(&none);
  posix_spawnattr_init(&attributes);
  posix_spawnattr_setsigmask(&attributes, &none);
  posix_spawnattr_setflags(&attributes, POSIX_SPAWN_SETSIGMASK);
  posix_spawnp(nullptr, command.c_str(), &quiet, &attributes, arguments, environ);
  posix_spawnattr_destroy(&attributes);
  posix_spawn_file_actions_destroy(&quiet);
}

/// This machine's IPv4 addresses in its networks.
std::vector<std::string> addresses() {
  std::vector<std::string> found;
  ifaddrs* list = nullptr;
  if (getifaddrs(&list) != 0) return found;
  for (const auto* at = list; at; at = at->ifa_next) {
    if (!at->ifa_addr || at->ifa_addr->sa_family != AF_INET || (at->ifa_flags & IFF_LOOPBACK) ||
        !(at->ifa_flags & IFF_UP))
      continue;
    char text[INET_ADDRSTRLEN];
    if (inet_ntop(AF_INET, &reinterpret_cast<const sockaddr_in*>(at->ifa_addr)->sin_addr, text, sizeof text))
      found.emplace_back(text);
  }
  freeifaddrs(list);
  return found;
}

/// A page of another name that was led to this address (DNS rebinding) is none of ours.
bool names_this_machine(const std::string& host) {
  const auto name = host.substr(0, host.rfind(':'));
  return name == "127.0.0.1" || name == "localhost";
}

Response refuse_name() {
  Response response;
  guard(response, kAppPolicy);
  response.status = 421;
  response.body = "This is not the name of this machine.\n";
  return response;
}

std::string spaced(const std::string& code) { return code.substr(0, 3) + " " + code.substr(3); }

void serve_network(const Listener& listener, const Site& site, const std::string& home) {
  LanDoor door(home);
  for (const auto& address : addresses())
    say(fmt::format("Treadfold: http://{}:{}/", address, listener.port()));
  say(fmt::format("Treadfold: http://127.0.0.1:{}/", listener.port()));
  say("Whoever reads this network's traffic can read along: use it at home, not in a public network.");
  say(fmt::format("Code for one device: {}", spaced(door.code())));
  say("Ctrl-C ends it.");
  listener.run([&](const Request& request) {
    if (door.lets_in(request)) return answer_from(site, request);
    bool let_in = false;
    auto response = door.answer(request, let_in);
    if (let_in) say(fmt::format("A device is in. Code for another: {}", spaced(door.code())));
    return response;
  });
}

void serve_this_machine(const Listener& listener, const Site& site, const std::string& home, bool open) {
  const auto address = fmt::format("http://127.0.0.1:{}{}", listener.port(), home);
  say(fmt::format("Treadfold: {}\nCtrl-C ends it.", address));
  if (open) open_browser(address);
  listener.run([&](const Request& request) {
    return names_this_machine(request.header("host")) ? answer_from(site, request) : refuse_name();
  });
}

} // namespace

ExitStatus run_serve(const ServeArguments& arguments) {
  auto site = read_site(site_folder(arguments.site));
  if (!arguments.job.empty()) site["/example.json"] = json_file(read_input(arguments.job));
  const std::string home = arguments.job.empty() ? "/" : "/#/open/example";
  const Listener listener(arguments.lan, arguments.port);
  if (arguments.lan)
    serve_network(listener, site, home);
  else
    serve_this_machine(listener, site, home, !arguments.no_open);
  return kDone;
}

} // namespace treadfold
