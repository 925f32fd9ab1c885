#include "help.h"

#include "dialog.h"
#include "office.h"
#include "version.h"

#include <com/sun/star/system/SystemShellExecute.hpp>
#include <com/sun/star/system/SystemShellExecuteFlags.hpp>

namespace pacecells {

void show_help(Context& context, std::string_view page) {
    const auto url =
        package_url(context) + "/help/" + std::string(interface_language()) + "/" + std::string(page) + ".html";
    if (!context.interactive())
        return context.say(url);
    try {
        css::system::SystemShellExecute::create(context.component())
            ->execute(utf16(url), rtl::OUString(), css::system::SystemShellExecuteFlags::URIS_ONLY);
    } catch (const css::uno::Exception&) {
        throw Refusal{tr("No browser was found. The help is in the file %1.", decoded(url))};
    }
}

namespace {

void help(Context& context) { show_help(context, context.argument("Page", "index")); }

void about(Context& context) {
    const std::string text =
        tr("Pacing functions and workbooks for gyms, in Calc.") + "\n\n" +
        tr("Licence: Mozilla Public License 2.0. No network access, no macros; files are read or written only when you "
           "use a menu command.") +
        "\n\n" +
        tr("The numbers are calculated from what you enter, with the assumptions named at each function; some are "
           "common practice without a source, and they say so.") +
        "\n\n" +
        tr("Hard effort can hurt. Stop on chest pain, faintness or unusual pain. Newcomers, minors, people coming back "
           "and people with an injury get no goal and no maximal test. A coach's plan is not medical advice.");
    const auto title = "Pacecells " + std::string(version);
    if (!context.interactive())
        return context.say(title + "\n" + text);
    Dialog dialog(context, tr("About Pacecells"), 260);
    dialog.paragraph(title, 1, true);
    dialog.memo("", text, 110, true);
    dialog.button(tr("~Help"), [&] { show_help(context, "index"); });
    dialog.show();
}

const Command help_command{"help", help};
const Command about_command{"about", about};

} // namespace

} // namespace pacecells
