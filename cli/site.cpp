#include "site.h"

#include "files.h"

#include <fmt/format.h>

#include <array>
#include <cstdint>
#include <fstream>
#include <sstream>

namespace treadfold {
namespace {

namespace fs = std::filesystem;

std::string type_of(const fs::path& file) {
  static const std::map<std::string, std::string> types{
      {".html", "text/html; charset=utf-8"},
      {".js", "text/javascript; charset=utf-8"},
      {".mjs", "text/javascript; charset=utf-8"},
      {".css", "text/css; charset=utf-8"},
      {".json", "application/json"},
      {".webmanifest", "application/manifest+json"},
      {".svg", "image/svg+xml"},
      {".png", "image/png"},
      {".wasm", "application/wasm"},
      {".woff2", "font/woff2"},
      {".txt", "text/plain; charset=utf-8"},
  };
  const auto found = types.find(file.extension().string());
  return found != types.end() ? found->second : "application/octet-stream";
}

/// FNV-1a, 64 bits (from memory), and the size: enough to tell a build from the one before it.
std::string tag_of(const std::string& bytes) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const unsigned char byte : bytes)
    hash = (hash ^ byte) * 1099511628211ULL;
  return fmt::format("\"{:016x}-{:x}\"", hash, bytes.size());
}

SiteFile file_of(std::string type, std::string bytes) {
  auto tag = tag_of(bytes);
  return {std::move(type), std::move(bytes), std::move(tag)};
}

std::string bytes_in(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream bytes;
  bytes << in.rdbuf();
  if (!in) throw FileError(fmt::format("cannot read {}", file.string()));
  return bytes.str();
}

} // namespace

const char* const kAppPolicy =
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' blob: data:; "
    "connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'";

Site read_site(const fs::path& folder) {
  Site site;
  std::error_code failure;
  for (fs::recursive_directory_iterator at(folder, failure), end; !failure && at != end;
       at.increment(failure)) {
    if (!at->is_regular_file() || at->is_symlink()) continue;
    const auto name = "/" + fs::relative(at->path(), folder).generic_string();
    site[name == "/index.html" ? "/" : name] = file_of(type_of(at->path()), bytes_in(at->path()));
  }
  if (failure) throw FileError(fmt::format("cannot read {}: {}", folder.string(), failure.message()));
  return site;
}

fs::path site_folder(const std::string& wanted) {
  std::error_code none;
  const auto has_app = [&](const fs::path& folder) {
    return fs::is_regular_file(folder / "index.html", none);
  };
  if (!wanted.empty()) {
    if (has_app(wanted)) return wanted;
    throw FileError(fmt::format("there is no app in {}: no index.html", wanted));
  }
  const auto command = fs::read_symlink("/proc/self/exe", none).parent_path();
  // Installed; bin/ of the project; a build folder of the project.
  for (const auto* beside : {"../share/treadfold/site", "../build/site", "../../site"})
    if (auto folder = (command / beside).lexically_normal(); !command.empty() && has_app(folder))
      return folder;
  throw FileError(
      "the app is not built: make site builds it; --site says where it is if it stands elsewhere");
}

SiteFile json_file(std::string bytes) { return file_of("application/json", std::move(bytes)); }

void guard(Response& response, const std::string& policy, const std::string& referrer) {
  const std::array<std::pair<const char*, std::string>, 6> headers{{
      {"Content-Security-Policy", policy},
      {"X-Content-Type-Options", "nosniff"},
      {"Referrer-Policy", referrer},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Cache-Control", "no-cache"}, // asked for anew each time, and told by its tag
  }};
  for (const auto& header : headers)
    response.headers.emplace_back(header);
}

Response answer_from(const Site& site, const Request& request) {
  Response response;
  guard(response, kAppPolicy);
  if (request.method != "GET" && request.method != "HEAD") {
    response.status = 405;
    response.headers.emplace_back("Allow", "GET, HEAD");
    response.body = "Only GET and HEAD.\n";
    return response;
  }
  const auto found = site.find(request.path == "/index.html" ? "/" : request.path);
  if (found == site.end()) {
    response.status = 404;
    response.body = "There is no such file.\n";
    return response;
  }
  const auto& [type, bytes, tag] = found->second;
  response.headers.emplace_back("ETag", tag);
  response.type = type;
  if (request.header("if-none-match") == tag)
    response.status = 304;
  else
    response.body = bytes;
  return response;
}

} // namespace treadfold
