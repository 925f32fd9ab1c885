#include "heat_day_sound.h"

#include <com/sun/star/media/XManager.hpp>
#include <osl/file.hxx>

#include <cmath>
#include <fstream>
#include <string>

namespace pacecells {

namespace {

// A short tone as a file, made once.
std::filesystem::path tone(const std::filesystem::path& folder) {
    const auto path = folder / "beep.wav";
    std::string sound;
    constexpr int rate = 22050;
    constexpr int samples = rate / 4;
    const auto number = [&](unsigned value, int bytes) {
        for (int i = 0; i < bytes; ++i)
            sound += static_cast<char>((value >> (8 * i)) & 255);
    };
    sound += "RIFF";
    number(36 + 2 * samples, 4);
    sound += "WAVEfmt ";
    number(16, 4);
    number(1, 2);
    number(1, 2);
    number(rate, 4);
    number(2 * rate, 4);
    number(2, 2);
    number(16, 2);
    sound += "data";
    number(2 * samples, 4);
    for (int i = 0; i < samples; ++i) {
        const double swell = std::sin(3.141592653589793 * i / samples);
        number(static_cast<unsigned>(static_cast<int>(12000 * swell * std::sin(6.283185307179586 * 880 * i / rate))),
               2);
    }
    std::filesystem::create_directories(folder);
    std::ofstream(path, std::ios::binary) << sound;
    return path;
}

} // namespace

bool Beeper::beep(const css::uno::Reference<css::uno::XComponentContext>& component,
                  const std::filesystem::path& folder) {
    rtl::OUString url;
    osl::FileBase::getFileURLFromSystemPath(utf16(tone(folder).string()), url);
    const auto manager = component->getServiceManager()->createInstanceWithContext(
        "com.sun.star.comp.avmedia.Manager_GStreamer", component);
    const auto media = as<css::media::XManager>(manager);
    if (media.is())
        player_ = media->createPlayer(url); // kept: it plays on
    if (!player_.is())
        return false;
    player_->start();
    return true;
}

void Beeper::stop() { player_.clear(); }

} // namespace pacecells
