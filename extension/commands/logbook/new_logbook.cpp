// A new logbook in a file of its own, and the one that there is: the commands find it again by the place of the file.
#include "logbook.h"
#include "logbook_place.h"
#include "store.h"

#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/ucb/SimpleFileAccess.hpp>
#include <com/sun/star/util/XCloseable.hpp>

namespace pacecells {

namespace {

using css::uno::Any;

void new_logbook(Context& context) {
    const auto files = css::ucb::SimpleFileAccess::create(context.component());
    const auto old = logbook_place(context);
    if (old && files->exists(utf16(*old)) &&
        !context.ask(tr("There is a logbook already: %1. Make another one, to be used from now on?", shown_path(*old)),
                     "Another"))
        return;
    auto url = save_file(context, tr("New logbook"), tr("Logbook") + ".ods", {{tr("Logbook"), "*.ods"}});
    if (!url)
        return;
    if (!url->ends_with(".ods"))
        *url += ".ods";
    if (files->exists(utf16(*url)))
        throw Refusal{
            tr("%1 is there already. Choose another name, or use it with Open the logbook.", shown_path(*url))};
    if (!files->isFolder(utf16(url->substr(0, url->find_last_of('/'))))) // the office would make one
        throw Refusal{
            tr("%1 could not be saved. Check that the folder exists, has space and is writable.", shown_path(*url))};
    const auto made =
        load(context, template_url(context, "logbook.ots"), {{"AsTemplate", Any(true)}, {"Hidden", Any(true)}});
    try {
        store_whole(context, need<css::frame::XStorable>(made), *url, {{"FilterName", Any(rtl::OUString("calc8"))}});
    } catch (...) {
        need<css::util::XCloseable>(made)->close(true);
        throw;
    }
    need<css::util::XCloseable>(made)->close(true);
    remember_logbook(context, *url);
    if (context.interactive())
        const Logbook opened(context, *url, Logbook::Use::show);
    context.say(tr("The logbook is %1. New events take people, tests and usual values from it.", shown_path(*url)));
}

// The one that is remembered, or another that is chosen from now on.
void open_logbook(Context& context) {
    const auto files = css::ucb::SimpleFileAccess::create(context.component());
    auto url = logbook_place(context);
    const bool there = url && files->exists(utf16(*url));
    if (context.argument("File") || !there) {
        if (url && !there && context.interactive())
            context.say(tr("The logbook is not there any more: %1. Choose its new place.", shown_path(*url)));
        url = open_file(context, tr("The gym's logbook"), {{tr("Logbook"), "*.ods"}});
        if (!url)
            return;
    }
    const Logbook opened(context, *url, context.interactive() ? Logbook::Use::show : Logbook::Use::read);
    remember_logbook(context, *url);
    context.say(tr("The logbook is %1. New events take people, tests and usual values from it.", shown_path(*url)));
}

const Command new_logbook_command{"new-logbook", new_logbook};
const Command open_logbook_command{"open-logbook", open_logbook};

} // namespace

} // namespace pacecells
