#include "system.h"

#include <dlfcn.h>
#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <system_error>

namespace pacecells {

namespace {

double read(clockid_t clock) {
    timespec time{};
    clock_gettime(clock, &time);
    return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

} // namespace

bool on_first_thread() { return gettid() == getpid(); }

void* loaded_library(const char* name) { return dlopen(name, RTLD_LAZY | RTLD_NOLOAD); }

void* function_of(void* library, const char* name) { return dlsym(library, name); }

double seconds_since_start() { return read(CLOCK_BOOTTIME); }

double monotonic_seconds() { return read(CLOCK_MONOTONIC); }

double seconds_since_1970() { return read(CLOCK_REALTIME); }

std::string name_of_start() {
    std::ifstream file("/proc/sys/kernel/random/boot_id");
    std::string line;
    std::getline(file, line);
    return line;
}

std::tm local_time(std::time_t seconds) {
    std::tm local{};
    localtime_r(&seconds, &local);
    return local;
}

AddedFile::AddedFile(const std::filesystem::path& path)
    : file_(open(path.c_str(), O_WRONLY | O_APPEND | O_CREAT | O_CLOEXEC, 0600)) {
    if (file_ < 0)
        throw std::system_error(errno, std::generic_category(), path.string());
    const int folder = open(path.parent_path().c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder >= 0) {
        fsync(folder);
        close(folder);
    }
}

AddedFile::~AddedFile() { close(file_); }

bool AddedFile::add(std::string_view text) {
    bool good = true;
    while (good && !text.empty()) {
        const auto count = write(file_, text.data(), text.size());
        if (count > 0)
            text.remove_prefix(static_cast<std::size_t>(count));
        else
            good = count < 0 && errno == EINTR;
    }
    return fdatasync(file_) == 0 && good;
}

} // namespace pacecells
