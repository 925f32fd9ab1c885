// The command of the heat day, and which workbook has one.
//
// With windows it opens the window or brings it to the front. Silent, it tells in words what the window shows.
#include "heat_day_clock.h"
#include "heat_day_window.h"

#include <com/sun/star/awt/AsyncCallback.hpp>
#include <com/sun/star/util/XCloseBroadcaster.hpp>
#include <com/sun/star/util/XCloseListener.hpp>
#include <cppuhelper/implbase2.hxx>
#include <rtl/ref.hxx>

#include <algorithm>
#include <list>
#include <mutex>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

struct Open {
    Reference<css::uno::XInterface> document;
    std::shared_ptr<HeatDay> day;
    rtl::Reference<HeatWindow> window;
};

std::list<Open> open_windows; // on the main thread alone

std::mutex shown_mutex; // never held while the office is called
std::map<css::uno::XInterface*, std::string> shown;

std::string in_words(const View& view) {
    std::string words = view.title + " | " + view.clock + " | " + view.left + "\n";
    for (const auto& row : view.rows)
        words += row.lane + " | " + row.name + " | " + row.round + " | " + row.ahead + " | " + row.outlook + " | " +
                 row.range + "\n";
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

void open(Context& context) {
    const Reference<css::uno::XInterface> document(context.document(), css::uno::UNO_QUERY_THROW);
    auto found = std::find_if(open_windows.begin(), open_windows.end(),
                              [&](const Open& one) { return one.document == document; });
    if (found != open_windows.end() && found->window.is() && found->window->is_open())
        return found->window->show();
    if (found == open_windows.end())
        found = open_windows.insert(found, {document, std::make_shared<HeatDay>(context, false), {}});
    found->day->seen_from(context);
    found->window = window_on(context, found->day, document.get());
    found->window->open();
}

// Opens on the main thread. The window goes before the one it hangs on; the heat day goes with its workbook.
class Opener : public cppu::WeakImplHelper2<css::awt::XCallback, css::util::XCloseListener> {
  public:
    explicit Opener(const Context& context) : context_(context) {}

    void SAL_CALL notify(const Any&) override {
        try {
            document_.set(context_.document(), css::uno::UNO_QUERY_THROW);
            open(context_);
            need<css::util::XCloseBroadcaster>(document_)->addCloseListener(this);
            need<css::util::XCloseBroadcaster>(context_.frame())->addCloseListener(this);
        } catch (const Refusal& refusal) {
            say(refusal.sentence);
        } catch (const css::uno::Exception& problem) {
            say(tr("That did not work. The office says: %1", utf8(problem.Message)));
        } catch (const std::exception& problem) {
            say(tr("That did not work. The office says: %1", problem.what()));
        }
    }
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
    void say(const std::string& sentence) noexcept {
        try {
            context_.say(sentence);
        } catch (...) {
        }
    }
    Context context_;
    Reference<css::uno::XInterface> document_;
};

const Command heat_day{
    "heat-day", [](Context& context) {
        const Reference<css::uno::XInterface> document(context.document(), css::uno::UNO_QUERY_THROW);
        if (!context.interactive()) {
            const std::lock_guard lock(shown_mutex);
            const auto found = shown.find(document.get());
            if (found == shown.end())
                throw Refusal{tr("The heat day is not open in this workbook.")};
            return context.say(found->second);
        }
        (void)EventSheet(context.document()).task(); // what is missing is said at once
        css::awt::AsyncCallback::create(context.component())->addCallback(new Opener(context), Any());
    }};

} // namespace

} // namespace pacecells
