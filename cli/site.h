// The app as it was built, ready to be handed out.
//
// Guarantees
//  1. Only what stood in the folder when it was read is handed out: a request is looked up among those names,
//  so that no path
//     leads out of it.
//  2. Every answer forbids what the app does not need: other origins, frames, guessing of types.
#pragma once

#include "http.h"

#include <filesystem>
#include <map>
#include <string>

namespace treadfold {

struct SiteFile {
  std::string type, bytes, tag; // tag: told by what is in it (ETag)
};

/// By path: "/", "/assets/index-1a2b.js". "/" is index.html.
using Site = std::map<std::string, SiteFile>;

/// Throws FileError if the folder holds no app or cannot be read.
Site read_site(const std::filesystem::path& folder);

/// Where the app is: `wanted`, or if that is "" the folder beside the command. Throws FileError if it is not
/// there.
std::filesystem::path site_folder(const std::string& wanted);

SiteFile json_file(std::string bytes);

/// GET and HEAD; all else is refused.
Response answer_from(const Site& site, const Request& request);

/// The headers that every answer has. `policy`: its Content-Security-Policy. `referrer`: its Referrer-Policy;
/// a page with a form needs "same-origin", or the form comes without the Origin by which it is known.
void guard(Response& response, const std::string& policy, const std::string& referrer = "no-referrer");

/// That of the app: web/index.html has the same, but that no page may put it into a frame.
extern const char* const kAppPolicy;

} // namespace treadfold
