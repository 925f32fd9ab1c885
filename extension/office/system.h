// What each operating system does in a way of its own. One file has it: system_linux.cpp. Another system needs another
// file with the same functions, and the rest compiles as it is.
#pragma once

#include <ctime>
#include <filesystem>
#include <string>
#include <string_view>

namespace pacecells {

// Whether this is the thread that the process began with, on which the office draws and listens.
[[nodiscard]] bool on_first_thread();

// A library that the office has loaded, null where it has not; never loads one. A function of it, null where it has none.
[[nodiscard]] void* loaded_library(const char* name);
[[nodiscard]] void* function_of(void* library, const char* name);

// Seconds: since the computer was started, sleep counted; by a clock that nobody sets, sleep not counted; since 1970 UTC.
[[nodiscard]] double seconds_since_start();
[[nodiscard]] double monotonic_seconds();
[[nodiscard]] double seconds_since_1970();
// The same until the computer is started again, then another; empty where that is not known.
[[nodiscard]] std::string name_of_start();
// Seconds since 1970 as the wall clock has them here.
[[nodiscard]] std::tm local_time(std::time_t seconds);

// A file that is only added to, readable by its owner alone, and whose name outlives a power cut.
class AddedFile {
  public:
    // std::system_error where it cannot be opened or made.
    explicit AddedFile(const std::filesystem::path& path);
    ~AddedFile();
    AddedFile(const AddedFile&) = delete;
    AddedFile& operator=(const AddedFile&) = delete;

    // Returns when the text is on the disk; false where it is not.
    bool add(std::string_view text);

  private:
    int file_;
};

} // namespace pacecells
