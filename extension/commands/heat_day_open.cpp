// The command of the heat day, and which workbook has one.
//
// With windows it opens the window or brings it to the front. Silent, it tells in words what the window shows.
#include "heat_day_clock.h"
#include "heat_day_window.h"

#include <com/sun/star/awt/AsyncCallback.hpp>
#include <com/sun/star/lang/XEventListener.hpp>
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
    const auto window = found->window;
    open_windows.erase(found);
    window->close();
    const std::lock_guard lock(shown_mutex);
    shown.erase(document.get());
}

void open(Context& context) {
    const Reference<css::uno::XInterface> document(context.document(), css::uno::UNO_QUERY_THROW);
    for (const auto& one : open_windows)
        if (one.document == document)
            return one.window->show();
    const auto day = std::make_shared<HeatDay>(context, false);
    rtl::Reference<HeatWindow> window(new HeatWindow(context, day, [key = document.get()](const View& view) {
        const std::lock_guard lock(shown_mutex);
        shown[key] = in_words(view);
    }));
    open_windows.push_back({document, window});
    window->open();
}

// Opens on the main thread, and lets go when the workbook is closed.
class Opener : public cppu::WeakImplHelper2<css::awt::XCallback, css::lang::XEventListener> {
  public:
    explicit Opener(const Context& context) : context_(context) {}

    void SAL_CALL notify(const Any&) override {
        try {
            const auto document = need<css::lang::XComponent>(context_.document());
            open(context_);
            document->addEventListener(this);
        } catch (const Refusal& refusal) {
            say(refusal.sentence);
        } catch (const css::uno::Exception& problem) {
            say(tr("That did not work. The office says: %1", utf8(problem.Message)));
        } catch (const std::exception& problem) {
            say(tr("That did not work. The office says: %1", problem.what()));
        }
    }
    void SAL_CALL disposing(const css::lang::EventObject& event) override {
        try {
            forget(Reference<css::uno::XInterface>(event.Source, css::uno::UNO_QUERY));
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
