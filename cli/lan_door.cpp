#include "lan_door.h"

#include "site.h"

#include <fmt/format.h>

#include <random>

namespace treadfold {
namespace {

constexpr int kWrongCodes = 5;
constexpr auto kCookie = "treadfold=";

std::string random_digits(int count) {
  std::random_device source; // of the system, not a seeded one
  std::uniform_int_distribution<int> digit(0, 9);
  std::string digits;
  while (count-- > 0)
    digits += static_cast<char>('0' + digit(source));
  return digits;
}

/// 128 bits.
std::string random_session() {
  std::random_device source;
  return fmt::format("{:08x}{:08x}{:08x}{:08x}", source(), source(), source(), source());
}

struct Words {
  const char *language, *title, *ask, *enter, *wrong, *closed;
};

Words words_for(const Request& request) {
  if (request.header("accept-language").rfind("es", 0) == 0)
    return {"es",
            "Treadfold",
            "Código que muestra el otro equipo",
            "Entrar",
            "Ese no es el código.",
            "Demasiados códigos equivocados. Inicie el programa de nuevo en el otro equipo."};
  return {"en",
          "Treadfold",
          "Code shown on the other machine",
          "Go in",
          "That is not the code.",
          "Too many wrong codes. Start the command on the other machine again."};
}

/// `said` is one of our own sentences: nothing that was sent comes back.
Response page(const Words& words, int status, const std::string& said) {
  const auto nonce = random_session();
  Response response;
  response.status = status;
  response.type = "text/html; charset=utf-8";
  const auto policy =
      fmt::format("default-src 'none'; style-src 'nonce-{}'; form-action 'self'; base-uri 'none'; "
                  "frame-ancestors 'none'",
                  nonce);
  guard(response, policy, "same-origin");
  const auto form =
      fmt::format("<form method=\"post\" action=\"/enter\"><label for=\"code\">{}</label>"
                  "<input id=\"code\" name=\"code\" inputmode=\"numeric\" autocomplete=\"one-time-code\" "
                  "required autofocus><button>{}</button></form>",
                  words.ask, words.enter);
  response.body = fmt::format(
      "<!doctype html><html lang=\"{}\"><meta charset=\"utf-8\"><meta name=\"viewport\" "
      "content=\"width=device-width, initial-scale=1\"><title>{}</title><style nonce=\"{}\">"
      "body{{background:#f6f0e4;color:#241f19;font:18px/1.45 system-ui,sans-serif;margin:0 "
      "auto;padding:24px;max-width:26em}}"
      "label,input,button{{display:block;width:100%;font:inherit;box-sizing:border-box;margin:0 0 12px}}"
      "input,button{{min-height:56px;padding:8px 14px;border:2px solid "
      "#241f19;border-radius:6px;background:#fffaf0;"
      "color:#241f19}}input{{font-size:1.6em;letter-spacing:.2em}}button{{background:#9c3610;border-color:#"
      "9c3610;"
      "color:#fffaf0;font-weight:650}}:focus-visible{{outline:3px solid #9c3610;outline-offset:2px}}</style>"
      "<main><h1>{}</h1>{}{}</main></html>\n",
      words.language, words.title, nonce, words.title,
      said.empty() ? "" : "<p role=\"alert\">" + said + "</p>", status == 429 ? "" : form);
  return response;
}

std::string without_spaces(const std::string& text) {
  std::string kept;
  for (const char c : text)
    if (c != ' ' && c != '-') kept += c;
  return kept;
}

/// A form of another site would only use up the tries.
bool is_from_here(const Request& request) {
  const auto origin = request.header("origin");
  return origin.empty() || origin == "http://" + request.header("host");
}

} // namespace

bool same_secret(const std::string& a, const std::string& b) {
  if (a.size() != b.size()) return false;
  unsigned different = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    different |= static_cast<unsigned>(static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(b[i]));
  return different == 0;
}

LanDoor::LanDoor(std::string home) : home_(std::move(home)), code_(random_digits(6)) {}

std::string LanDoor::code() const {
  const std::lock_guard lock(mutex_);
  return code_;
}

bool LanDoor::session_is_known(const std::string& session) const {
  bool known = false;
  for (const auto& one : sessions_)
    known = same_secret(one, session) || known;
  return known;
}

bool LanDoor::lets_in(const Request& request) const {
  const auto cookies = request.header("cookie");
  const std::lock_guard lock(mutex_);
  for (std::size_t at = 0; at < cookies.size();) {
    const auto end = std::min(cookies.find("; ", at), cookies.size());
    const auto cookie = cookies.substr(at, end - at);
    if (cookie.rfind(kCookie, 0) == 0 && session_is_known(cookie.substr(std::string(kCookie).size())))
      return true;
    at = end + 2;
  }
  return false;
}

Response LanDoor::answer(const Request& request, bool& let_in) {
  const auto words = words_for(request);
  const std::lock_guard lock(mutex_);
  let_in = false;
  if (wrong_ >= kWrongCodes) return page(words, 429, words.closed);
  if (request.method != "POST" || request.path != "/enter" || !is_from_here(request))
    return page(words, 403, "");
  if (!same_secret(without_spaces(form_value(request.body, "code")), code_)) {
    ++wrong_;
    return wrong_ < kWrongCodes ? page(words, 403, words.wrong) : page(words, 429, words.closed);
  }
  let_in = true;
  wrong_ = 0;
  code_ = random_digits(6);
  sessions_.push_back(random_session());
  Response response;
  response.status = 303;
  guard(response, kAppPolicy);
  response.headers.emplace_back("Location", home_);
  response.headers.emplace_back(
      "Set-Cookie", fmt::format("{}{}; HttpOnly; SameSite=Strict; Path=/", kCookie, sessions_.back()));
  return response;
}

} // namespace treadfold
