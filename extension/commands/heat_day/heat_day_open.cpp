// The command of the heat day, and which workbook has one.
//
// With windows it opens the window or brings it to the front. Silent, it tells in words what the window shows. A
// workbook that comes back after a heat was interrupted opens the window by itself, which then asks.
#include "heat_day_clock.h"
#include "heat_day_window.h"
#include "job.h"

#include <com/sun/star/awt/AsyncCallback.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/util/XCloseBroadcaster.hpp>
#include <com/sun/star/util/XCloseListener.hpp>
#include <cppuhelper/implbase1.hxx>
#include <rtl/ref.hxx>

#include <algorithm>
#include <list>
#include <mutex>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

class Closer;

struct Open {
    Reference<css::uno::XInterface> document;
    std::shared_ptr<HeatDay> day;
    rtl::Reference<HeatWindow> window;
    rtl::Reference<Closer> closer;
};

// On the main thread alone. Never destroyed: what an office that ends leaves behind would come too late for that.
std::list<Open>& open_windows = *new std::list<Open>;

std::mutex shown_mutex; // never held while the office is called
std::map<css::uno::XInterface*, std::string> shown;

std::string in_words(const View& view) {
    std::string words = view.title + " | " + view.clock + " | " + view.left + "\n";
    for (const auto& row : view.rows)
        words += row.lane + " | " + row.name + " | " + row.round + " | " + row.ahead + " | " + row.outlook + " | " +
                 row.range + "\n";
    for (const auto& row : view.rows)
        words += (&row == &view.rows.front() ? "room: " : ", ") + row.room_name;
    if (!view.rows.empty())
        words += "\n";
    return words + view.message + "\n" + view.question;
}

void forget(const Reference<css::uno::XInterface>& document) {
    const auto found = std::find_if(open_windows.begin(), open_windows.end(),
                                    [&](const Open& one) { return one.document == document; });
    if (found == open_windows.end())
        return;
    const auto closing = *found;
    open_windows.erase(found);
    if (closing.window.is())
        closing.window->close();
    const std::lock_guard lock(shown_mutex);
    shown.erase(document.get());
}

rtl::Reference<HeatWindow> window_on(const Context& context, const std::shared_ptr<HeatDay>& day,
                                     css::uno::XInterface* key) {
    return new HeatWindow(context, day, [key](const View& view) {
        const std::lock_guard lock(shown_mutex);
        shown[key] = in_words(view);
    });
}

// The window goes before the one it hangs on; the heat day goes with its workbook.
class Closer : public cppu::WeakImplHelper1<css::util::XCloseListener> {
  public:
    explicit Closer(Reference<css::uno::XInterface> document) : document_(std::move(document)) {}
    void SAL_CALL queryClosing(const css::lang::EventObject&, sal_Bool) override {}
    void SAL_CALL notifyClosing(const css::lang::EventObject& event) override {
        try {
            if (event.Source == document_)
                return forget(document_);
            for (const auto& one : open_windows)
                if (one.document == document_ && one.window.is())
                    one.window->close();
        } catch (...) {
        }
    }
    void SAL_CALL disposing(const css::lang::EventObject& event) override {
        try {
            if (event.Source == document_)
                forget(document_);
        } catch (...) {
        }
    }

  private:
    const Reference<css::uno::XInterface> document_;
};

// `asked`: by the person; else only where there is a question about a heat that was interrupted.
void open(Context& context, bool asked) {
    const Reference<css::uno::XInterface> document(context.document(), css::uno::UNO_QUERY_THROW);
    auto found = std::find_if(open_windows.begin(), open_windows.end(),
                              [&](const Open& one) { return one.document == document; });
    if (found != open_windows.end() && found->window.is() && found->window->is_open())
        return found->window->show();
    if (found == open_windows.end()) {
        const auto day = std::make_shared<HeatDay>(context, false);
        if (!asked && !day->found_a_log())
            return;
        found = open_windows.insert(found, {document, day, {}, new Closer(document)});
        need<css::util::XCloseBroadcaster>(document)->addCloseListener(found->closer.get());
    }
    found->day->seen_from(context);
    const auto frame = need<css::util::XCloseBroadcaster>(context.frame());
    frame->removeCloseListener(found->closer.get()); // it may listen there already
    frame->addCloseListener(found->closer.get());
    found->window = window_on(context, found->day, document.get());
    found->window->open();
}

// Opens on the main thread.
class Opener : public cppu::WeakImplHelper1<css::awt::XCallback> {
  public:
    Opener(const Context& context, bool asked) : context_(context), asked_(asked) {}

    void SAL_CALL notify(const Any&) override {
        try {
            const auto wrong = sentence_of([&] { open(context_, asked_); });
            if (wrong && asked_)
                context_.say(*wrong);
        } catch (...) {
        }
    }

  private:
    Context context_;
    bool asked_;
};

void open_soon(const Context& context, bool asked) {
    css::awt::AsyncCallback::create(context.component())->addCallback(new Opener(context, asked), Any());
}

void heat_day(Context& context) {
    const Reference<css::uno::XInterface> document(context.document(), css::uno::UNO_QUERY_THROW);
    if (!context.interactive()) {
        const std::lock_guard lock(shown_mutex);
        const auto found = shown.find(document.get());
        if (found == shown.end())
            throw Refusal{tr("The heat window is not open in this workbook.")};
        return context.say(found->second);
    }
    (void)EventSheet(context.document()).task(); // what is missing is said at once
    open_soon(context, true);
}

const Command command{"heat-day", heat_day};

// Of a spreadsheet just loaded.
class InterruptedHeat : public Job {
  public:
    explicit InterruptedHeat(Reference<css::uno::XComponentContext> component)
        : Job(std::move(component), "org.pacecells.InterruptedHeat") {}

  private:
    void happened(const Reference<css::sheet::XSpreadsheetDocument>& document,
                  const Reference<css::frame::XFrame>& frame) override {
        if (!is_visible(frame) || need<css::frame::XStorable>(document)->isReadonly() ||
            !find_name(document, "results_clocks").is())
            return;
        read_interface_language(component());
        open_soon(Context(component(), frame, {}), false);
    }
};

} // namespace

} // namespace pacecells

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface*
pacecells_interrupted_heat(com::sun::star::uno::XComponentContext* component,
                           const com::sun::star::uno::Sequence<com::sun::star::uno::Any>&) {
    return pacecells::constructed<pacecells::InterruptedHeat>(component);
}
