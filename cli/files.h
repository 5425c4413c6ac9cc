// Files and streams. Every read and write is checked; a failure is a FileError that says what to do in one
// sentence.
//
// Guarantees
//  1. A file that we write is there whole or not at all.
//  2. A new folder appears with all its files or not at all; in a folder that exists, a failure leaves the
//  old
//     files as they were.
//  3. No file is replaced that an earlier run did not write.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace treadfold {

struct FileError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// The text of a file, or of standard input for "-". Reading stops just past the job file's limit of 8 MB, so
/// that an endless input ends; read_job() then says that it is too large.
std::string read_input(const std::string& path);

/// Writes one file. One that exists is replaced only if `force`.
void write_file(const std::string& path, const std::string& text, bool force);

void write_standard_output(const std::string& text);

struct OutputFile {
  std::string name; // no folder in it
  std::string bytes;
};

/// Writes `files` into the folder and removes what an earlier run left there. The folder keeps a list of its
/// sheets in `.treadfold`, so that the next run knows which files are its own.
void write_folder(const std::string& folder, const std::vector<OutputFile>& files);

/// Throws if an earlier run wrote `index` there, so that one kind of sheets never takes another's place.
/// `what`: "the sheets of a plan".
void refuse_folder_with(const std::string& folder, const std::string& index, const std::string& what);

} // namespace treadfold
