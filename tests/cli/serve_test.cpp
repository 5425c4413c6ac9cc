// treadfold serve as a browser meets it: driven with curl.
#include "shell.h"

#include <gtest/gtest.h>

#include <regex>

namespace treadfold::test {
namespace {

/// Runs `commands` while the command serves a small site on $at, its words in the file "said". What they
/// print comes back, then how the command ended.
std::string served(const Shell& shell, const std::string& options, const std::string& commands) {
  const auto result = shell.run(
      "mkdir -p site/assets; echo '<p>app' >site/index.html; echo 'let a' >site/assets/a.js; echo "
      "wasm >site/core.wasm; "
      "echo '{}' >site/manifest.webmanifest; echo secret >secret; ln -s ../secret site/link; touch said\n"
      "treadfold serve --no-open --port 0 --site site " +
      options +
      " >said 2>&1 &\n"
      "pid=$!; for i in $(seq 200); do grep -q Ctrl-C said && break; sleep 0.05; done\n"
      "at=http://$(grep -o '127.0.0.1:[0-9]*' said | tail -n 1)\n"
      "code() { grep -o '[0-9]\\{3\\} [0-9]\\{3\\}' said | tail -n 1; }\n"
      "status() { curl -s -o /dev/null -w '%{http_code}\\n' \"$@\"; }\n" +
      commands + "\nkill -INT $pid; wait $pid; echo ended $?");
  EXPECT_EQ(result.err, "");
  return result.out;
}

bool has(const std::string& text, const std::string& words) { return text.find(words) != std::string::npos; }

TEST(Serve, HandsOutTheAppWithItsTypes) {
  const Shell shell;
  const auto out = served(shell, "",
                          "for f in / /index.html /assets/a.js /core.wasm /manifest.webmanifest; do "
                          "curl -s -w '%{http_code} %{content_type}\\n' $at$f; done");
  EXPECT_EQ(out, "<p>app\n200 text/html; charset=utf-8\n"
                 "<p>app\n200 text/html; charset=utf-8\n"
                 "let a\n200 text/javascript; charset=utf-8\n"
                 "wasm\n200 application/wasm\n"
                 "{}\n200 application/manifest+json\n"
                 "ended 0\n");
}

/// The policy that web/index.html asks for itself.
std::string policy_of_the_page() {
  const auto page = bytes_of(SOURCE_DIR "/web/index.html");
  std::smatch found;
  const std::regex policy("Content-Security-Policy\"\\s+content=\"([^\"]+)\"");
  return std::regex_search(page, found, policy) ? found[1].str() : "no policy in the page";
}

TEST(Serve, SendsTheGuardsWithEveryAnswer) {
  const Shell shell;
  const auto out = served(shell, "", "for f in / /none; do curl -s -i $at$f; done; curl -s -i -X PUT $at/");
  const auto count = [&](const std::string& line) {
    int n = 0;
    for (auto at = out.find(line); at != std::string::npos; at = out.find(line, at + 1))
      ++n;
    return n;
  };
  EXPECT_EQ(count("Content-Security-Policy: " + policy_of_the_page() + "; frame-ancestors 'none'\r\n"), 3)
      << out;
  for (const auto* line :
       {"X-Content-Type-Options: nosniff\r\n", "Referrer-Policy: no-referrer\r\n",
        "Cross-Origin-Opener-Policy: same-origin\r\n", "Cross-Origin-Resource-Policy: same-origin\r\n"})
    EXPECT_EQ(count(line), 3) << line;
}

TEST(Serve, AnswersGetAndHeadAlone) {
  const Shell shell;
  const auto out = served(shell, "",
                          "for m in POST PUT DELETE OPTIONS TRACE; do status -X $m $at/; done; "
                          "curl -s -I $at/ | grep -i -e ^HTTP -e ^Content-Length; status -d 12 $at/enter");
  EXPECT_EQ(out, "405\n405\n405\n405\n405\nHTTP/1.1 200 OK\r\nContent-Length: 7\r\n405\nended 0\n");
}

TEST(Serve, LeadsNowhereOutOfItsFolder) {
  const Shell shell;
  const auto out =
      served(shell, "",
             "for f in /../secret /assets/../../secret /%2e%2e/secret /..%2fsecret //secret /link "
             "/assets /site/index.html /example.json; do status --path-as-is $at$f; done");
  EXPECT_EQ(out, "404\n404\n404\n404\n404\n404\n404\n404\n404\nended 0\n");
}

TEST(Serve, RefusesWhatIsNoRequest) {
  const Shell shell;
  const auto out = served(
      shell, "",
      "say() { printf \"$1\" | curl -s --max-time 5 telnet://${at#http://} | head -n 1; }\n"
      "say 'GET\\r\\n\\r\\n'; say 'GET / HTTP/9\\r\\n\\r\\n'; say 'GET http://x/ HTTP/1.1\\r\\n\\r\\n'\n"
      "say 'GET / HTTP/1.1\\r\\nHost: a\\r\\nHost: b\\r\\n\\r\\n'; say 'GET / HTTP/1.1\\r\\nbad header: "
      "1\\r\\n\\r\\n'\n"
      "status -H \"X: $(head -c 20000 /dev/zero | tr '\\0' x)\" $at/; head -c 2000 /dev/zero | status "
      "--data-binary @- $at/\n"
      "status -H 'Transfer-Encoding: chunked' -d 1 $at/; status $at/");
  std::string refused;
  for (int i = 0; i < 5; ++i)
    refused += "HTTP/1.1 400 Bad Request\r\n";
  EXPECT_EQ(out, refused + "400\n413\n413\n200\nended 0\n");
}

TEST(Serve, RefusesAnotherNameForThisMachine) {
  const Shell shell;
  EXPECT_EQ(
      served(shell, "", "status -H 'Host: elsewhere.example' $at/; status -H 'Host: localhost:80' $at/"),
      "421\n200\nended 0\n");
}

TEST(Serve, SaysNotModifiedForAKnownTag) {
  const Shell shell;
  const auto out =
      served(shell, "",
             "tag=$(curl -s -I $at/core.wasm | sed -n 's/^ETag: //p' | tr -d '\\r')\n"
             "status -H \"If-None-Match: $tag\" $at/core.wasm; status -H \"If-None-Match: $tag\" $at/");
  EXPECT_EQ(out, "304\n200\nended 0\n");
}

TEST(Serve, OffersTheJobAndLeavesItAlone) {
  const Shell shell;
  shell.run("treadfold new job.json; chmod a-w job.json; cp job.json before.json");
  const auto out = served(
      shell, "job.json",
      "curl -s $at/example.json | cmp - before.json && echo same; status -X PUT -d x $at/example.json; "
      "cmp job.json before.json; grep -c '/#/open/example$' said");
  EXPECT_EQ(out, "same\n405\n1\nended 0\n");
}

TEST(Serve, OpensTheBrowserAtItsAddress) {
  const Shell shell;
  const auto result =
      shell.run("mkdir bin site; touch site/index.html\n"
                "printf '#!/bin/sh\\necho \"$1\" >'$PWD'/opened\\n' >bin/xdg-open; chmod +x bin/xdg-open\n"
                "PATH=$PWD/bin:$PATH; touch opened; treadfold serve --port 0 --site site >said & pid=$!\n"
                "for i in $(seq 200); do [ -s opened ] && break; sleep 0.05; done\n"
                "grep -o 'http.*' said | diff - opened && echo same; kill $pid; wait $pid; echo $?");
  EXPECT_EQ(result.out, "same\n0\n");
}

TEST(Serve, SaysInASentenceWhatIsMissing) {
  const Shell shell;
  const auto result = shell.run("mkdir empty; treadfold serve --no-open --site empty");
  EXPECT_EQ(result.status, 3);
  EXPECT_EQ(result.err, "treadfold: there is no app in empty: no index.html\n");
  // a copy of the command that stands beside no app
  const auto copied = shell.run("cp $(command -v treadfold) . && ./treadfold serve --no-open");
  EXPECT_EQ(copied.status, 3);
  EXPECT_TRUE(has(copied.err, "make site")) << copied.err;
  const auto taken =
      served(shell, "", "treadfold serve --no-open --site site --port ${at##*:} 2>&1; echo $?");
  EXPECT_TRUE(
      std::regex_match(taken, std::regex("treadfold: port \\d+ is taken: --port says another\n3\nended 0\n")))
      << taken;
}

TEST(ServeLan, LetsNobodyInWithoutTheCode) {
  const Shell shell;
  shell.run("treadfold new job.json");
  EXPECT_EQ(
      served(shell, "--lan job.json",
             "for f in / /assets/a.js /example.json /core.wasm; do status $at$f; done\n"
             "curl -s $at/core.wasm | grep -c wasm; status -b treadfold= $at/; status -b treadfold=0 $at/\n"
             "curl -s -H 'Accept-Language: es-MX' $at/ | grep -o '<html lang=\"..\"'"),
      "403\n403\n403\n403\n0\n403\n403\n<html lang=\"es\"\nended 0\n");
}

TEST(ServeLan, LetsOneDeviceInForACode) {
  const Shell shell;
  const auto out = served(
      shell, "--lan",
      "first=$(code); curl -s -i -c jar --data-urlencode \"code=$first\" $at/enter | "
      "grep -e ^HTTP -e ^Location -e ^Set-Cookie | sed 's/=[0-9a-f]\\{32\\};/=SESSION;/'\n"
      "curl -s -b jar $at/; status -b jar $at/core.wasm; status -b jar -d x $at/enter\n"
      "status --data-urlencode \"code=$first\" $at/enter; [ \"$first\" != \"$(code)\" ] && echo another\n"
      "status --data-urlencode \"code=$(code)\" $at/enter");
  EXPECT_EQ(out, "HTTP/1.1 303 See Other\r\nLocation: /\r\n"
                 "Set-Cookie: treadfold=SESSION; HttpOnly; SameSite=Strict; Path=/\r\n"
                 "<p>app\n200\n405\n403\nanother\n303\nended 0\n");
}

TEST(ServeLan, TakesFewWrongCodes) {
  const Shell shell;
  const auto out = served(shell, "--lan",
                          "curl -s -o /dev/null -c jar --data-urlencode \"code=$(code)\" $at/enter\n"
                          "for i in 1 2 3 4 5; do status -d code=12345 $at/enter; done\n"
                          "status --data-urlencode \"code=$(code)\" $at/enter; status -b jar $at/");
  EXPECT_EQ(out, "403\n403\n403\n403\n429\n429\n200\nended 0\n");
}

TEST(ServeLan, TakesNoCodeFromAnotherSitesForm) {
  const Shell shell;
  const auto out =
      served(shell, "--lan",
             "status -H 'Origin: http://elsewhere.example' --data-urlencode \"code=$(code)\" $at/enter\n"
             "status -H \"Origin: $at\" --data-urlencode \"code=$(code)\" $at/enter");
  EXPECT_EQ(out, "403\n303\nended 0\n");
}

TEST(ServeLan, AnswersTheCodePageWithAPolicyOfItsOwn) {
  const Shell shell;
  const auto out = served(shell, "--lan", "curl -s -i $at/");
  std::smatch found;
  ASSERT_TRUE(std::regex_search(out, found, std::regex("style-src 'nonce-([0-9a-f]{32})'"))) << out;
  EXPECT_TRUE(has(out, "<style nonce=\"" + found[1].str() + "\">"));
  EXPECT_TRUE(has(out, "form-action 'self'"));
  EXPECT_TRUE(
      has(out, "Referrer-Policy: same-origin")); // no-referrer: browsers send the form with "Origin: null"
  EXPECT_FALSE(has(out, "<script"));
}

} // namespace
} // namespace treadfold::test
