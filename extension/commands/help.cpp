#include "help.h"

#include "dialog.h"
#include "formula.h"
#include "formula_cells.h"
#include "heat_day_journal.h"
#include "office.h"
#include "version.h"

#include <com/sun/star/system/SystemShellExecute.hpp>
#include <com/sun/star/system/SystemShellExecuteFlags.hpp>
#include <osl/file.hxx>

#include <fstream>

namespace pacecells {

namespace {

// Desktops open a file in the browser and drop what the address says after its name. So they open a small file of the
// profile that leads the browser on.
rtl::OUString leading_to(const Context& context, const std::string& url) {
    const auto folder = log_folder(context);
    const auto path = folder / "help.html";
    std::error_code ignored;
    std::filesystem::create_directories(folder, ignored);
    std::ofstream file(path);
    file << "<!DOCTYPE html><meta charset=\"utf-8\"><meta http-equiv=\"refresh\" content=\"0; url=" << url
         << "\"><a href=\"" << url << "\">Pacecells</a>\n";
    file.close();
    rtl::OUString leads = utf16(url);
    if (file)
        osl::FileBase::getFileURLFromSystemPath(utf16(path.string()), leads);
    return leads;
}

} // namespace

void show_help(Context& context, std::string_view page) {
    const auto url =
        package_url(context) + "/help/" + std::string(interface_language()) + "/index.html#" + std::string(page);
    if (!context.interactive())
        return context.say(url);
    try {
        css::system::SystemShellExecute::create(context.component())
            ->execute(leading_to(context, url), rtl::OUString(), css::system::SystemShellExecuteFlags::URIS_ONLY);
    } catch (const css::uno::Exception&) {
        throw Refusal{tr("No browser was found. The help is in the file %1.", decoded(url))};
    }
}

namespace {

// The outermost function of ours in the cell at the cursor has a page of its own.
std::string page_at_cursor(const Context& context) {
    try {
        if (const auto place = FormulaPlace::at(context.document(), cursor(context)))
            if (const auto calls = find_calls(place->text); !calls.empty())
                return std::string(calls.front().row->name);
    } catch (const Refusal&) { // no spreadsheet
    }
    return {};
}

void help(Context& context) {
    const auto page = page_at_cursor(context);
    show_help(context, context.argument("Page", page.empty() ? "contents" : page));
}

// What F1 does in a spreadsheet (package/office/Accelerators.xcu). In a cell without a function of ours it is not there,
// and the office opens its own help.
void help_here(Context& context) { show_help(context, page_at_cursor(context)); }
bool has_page(const Context& context) { return !page_at_cursor(context).empty(); }

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
    dialog.button(tr("~Help"), [&] { show_help(context, "contents"); });
    dialog.show();
}

const Command help_command{"help", help};
const Command help_here_command{"help-here", help_here, has_page};
const Command about_command{"about", about};

} // namespace

} // namespace pacecells
