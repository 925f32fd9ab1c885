#include "heat_day_journal.h"

#include "heat_day_clock.h"
#include "office.h"

#include <com/sun/star/util/XStringSubstitution.hpp>
#include <osl/file.hxx>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <system_error>
#include <utility>

namespace pacecells {

namespace {

constexpr std::string_view ending = ".heat";

} // namespace

std::filesystem::path log_folder(const Context& context) {
    const auto places =
        need<css::util::XStringSubstitution>(create(context.component(), "com.sun.star.util.PathSubstitution"));
    rtl::OUString path;
    osl::FileBase::getSystemPathFromFileURL(places->substituteVariables("$(user)", true), path);
    return std::filesystem::path(utf8(path)) / "pacecells";
}

std::filesystem::path Journal::new_path(const std::filesystem::path& folder, int heat) {
    std::filesystem::create_directories(folder);
    return folder / (std::to_string(static_cast<long long>(day_now() * 1000)) + "-" + std::to_string(heat) +
                     std::string(ending));
}

Journal::Journal(std::filesystem::path path) : path_(std::move(path)), file_(path_) {
    thread_ = std::thread([this] { work(); });
}

Journal::~Journal() {
    {
        const std::lock_guard lock(mutex_);
        stop_ = true;
    }
    wake_.notify_one();
    thread_.join();
}

void Journal::write(const std::string& lines) {
    {
        const std::lock_guard lock(mutex_);
        waiting_ += lines;
    }
    wake_.notify_one();
}

bool Journal::good() const {
    const std::lock_guard lock(mutex_);
    return good_;
}

void Journal::work() {
    std::unique_lock lock(mutex_);
    while (true) {
        wake_.wait(lock, [this] { return stop_ || !waiting_.empty(); });
        if (waiting_.empty())
            return;
        const std::string lines = std::exchange(waiting_, {});
        lock.unlock();
        const bool good = file_.add(lines);
        lock.lock();
        good_ = good_ && good;
    }
}

std::vector<StoredLog> stored_logs(const std::filesystem::path& folder) {
    std::vector<StoredLog> logs;
    std::error_code problem;
    for (std::filesystem::directory_iterator file(folder, problem), end; !problem && file != end;
         file.increment(problem)) {
        if (file->path().extension() != ending)
            continue;
        std::ifstream stream(file->path(), std::ios::binary);
        const std::string text{std::istreambuf_iterator<char>(stream), {}};
        if (auto log = read_heat_log(text))
            logs.push_back({file->path(), *std::move(log)});
    }
    std::sort(logs.begin(), logs.end(),
              [](const auto& a, const auto& b) { return a.path.filename() > b.path.filename(); });
    return logs;
}

void append_to_log(const std::filesystem::path& log, const std::string& lines) {
    std::ofstream(log, std::ios::binary | std::ios::app) << lines;
}

void close_log(const std::filesystem::path& log) {
    append_to_log(log, '\n' + end_line()); // a line that was torn ends first
}

void put_aside(const std::filesystem::path& log) {
    std::error_code ignored; // a file that cannot be renamed is asked about again
    std::filesystem::rename(log, log.string() + ".old", ignored);
}

} // namespace pacecells
