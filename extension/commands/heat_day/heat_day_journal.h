// The log of a heat on the disk. Each line is forced to the disk by a thread of its own, so that a slow disk never
// keeps the next key waiting; what was handed over more than moments ago outlives a crash and a power cut.
#pragma once

#include "command.h"
#include "system.h"

#include "pacecells/heat_log.h"

#include <condition_variable>
#include <filesystem>
#include <mutex>
#include <string>
#include <thread>
#include <vector>

namespace pacecells {

// Where logs are kept: a folder of the person's profile.
[[nodiscard]] std::filesystem::path log_folder(const Context& context);

class Journal {
  public:
    // The name of a new log; the folder is made.
    [[nodiscard]] static std::filesystem::path new_path(const std::filesystem::path& folder, int heat);
    // A new file, or one that goes on. Throws std::system_error where it cannot be written.
    explicit Journal(std::filesystem::path path);
    ~Journal(); // after all is written
    Journal(const Journal&) = delete;
    Journal& operator=(const Journal&) = delete;

    void write(const std::string& lines);
    // The disk took everything so far.
    [[nodiscard]] bool good() const;
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    void work();

    std::filesystem::path path_;
    AddedFile file_;
    mutable std::mutex mutex_;
    std::condition_variable wake_;
    std::string waiting_;
    bool stop_ = false;
    bool good_ = true;
    std::thread thread_;
};

struct StoredLog {
    std::filesystem::path path;
    HeatLog log;
};

// The logs of a folder, the latest first. Those that were put aside or cannot be read are left out.
[[nodiscard]] std::vector<StoredLog> stored_logs(const std::filesystem::path& folder);

// More about a heat whose log nobody holds open.
void append_to_log(const std::filesystem::path& log, const std::string& lines);

// Ends a log that nobody holds open: its clock runs no longer, its entries are still offered.
void close_log(const std::filesystem::path& log);

// No longer asked about, and still there for who looks for it.
void put_aside(const std::filesystem::path& log);

} // namespace pacecells
