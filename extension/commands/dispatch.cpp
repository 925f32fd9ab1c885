// From a menu item to its command: the handler of the protocol vnd.org.pacecells. It answers in Calc alone, and nothing
// that goes wrong in a command passes beyond it.
#include "menu.h"
#include "office.h"

#include <com/sun/star/beans/NamedValue.hpp>
#include <com/sun/star/frame/DispatchResultState.hpp>
#include <com/sun/star/frame/XDispatchProvider.hpp>
#include <com/sun/star/frame/XNotifyingDispatch.hpp>
#include <com/sun/star/lang/XInitialization.hpp>
#include <com/sun/star/lang/XServiceInfo.hpp>
#include <com/sun/star/uno/RuntimeException.hpp>
#include <cppuhelper/implbase4.hxx>
#include <cppuhelper/supportsservice.hxx>
#include <cppuhelper/weakref.hxx>
#include <exception>

namespace pacecells {

const Command* Command::first_ = nullptr;

Command::Command(const char* name, Run run, Here where) : name_(name), run_(run), here_(where), next_(first_) {
    first_ = this;
}

const Command* Command::find(std::string_view name) {
    for (const Command* command = first_; command; command = command->next_)
        if (command->name_ == name)
            return command;
    return nullptr;
}

namespace {

using css::uno::Any;
using css::uno::Reference;
using css::uno::Sequence;
using rtl::OUString;

// The name in vnd.org.pacecells:name?Cap=20:00; empty for other protocols.
std::string_view command_name(std::string_view url) {
    if (!url.starts_with(protocol))
        return {};
    url.remove_prefix(protocol.size());
    return url.substr(0, url.find('?'));
}

std::string shown(const Any& value) {
    if (OUString text; value >>= text)
        return utf8(text);
    if (bool truth = false; value >>= truth)
        return truth ? "true" : "false";
    if (sal_Int64 whole = 0; value >>= whole)
        return std::to_string(whole);
    if (double number = 0; value >>= number)
        return utf8(OUString::number(number));
    return {};
}

// What answers for a person comes from a program, never from a link that somebody clicks.
bool answers_for_a_person(std::string_view name) { return name == "Silent" || name == "Overwrite" || name == "File"; }

Arguments arguments_of(std::string_view url, const Sequence<css::beans::PropertyValue>& values) {
    Arguments arguments;
    if (const auto question = url.find('?'); question != std::string_view::npos) {
        url.remove_prefix(question + 1);
        while (!url.empty()) {
            const auto part = url.substr(0, url.find('&'));
            url.remove_prefix(std::min(url.size(), part.size() + 1));
            const auto equals = part.find('=');
            if (const auto name = decoded(part.substr(0, equals)); !answers_for_a_person(name))
                arguments[name] = equals == std::string_view::npos ? std::string() : decoded(part.substr(equals + 1));
        }
    }
    for (const auto& value : values)
        arguments[utf8(value.Name)] = shown(value.Value);
    return arguments;
}

bool in_calc(const Reference<css::frame::XFrame>& frame) {
    const auto controller = frame.is() ? frame->getController() : Reference<css::frame::XController>();
    return controller.is() && as<css::sheet::XSpreadsheetDocument>(controller->getModel()).is();
}

class Dispatcher : public cppu::WeakImplHelper4<css::frame::XDispatchProvider, css::frame::XNotifyingDispatch,
                                                css::lang::XInitialization, css::lang::XServiceInfo> {
  public:
    explicit Dispatcher(Reference<css::uno::XComponentContext> component) : component_(std::move(component)) {}

    void SAL_CALL initialize(const Sequence<Any>& arguments) override {
        Reference<css::frame::XFrame> frame;
        if (arguments.hasElements() && (arguments[0] >>= frame))
            frame_ = frame;
    }

    Reference<css::frame::XDispatch> SAL_CALL queryDispatch(const css::util::URL& url, const OUString&,
                                                            sal_Int32) override {
        try {
            const Reference<css::frame::XFrame> frame = frame_;
            const auto* command = Command::find(command_name(utf8(url.Complete)));
            if (command && in_calc(frame) && command->here(Context(component_, frame, {})))
                return this;
        } catch (...) { // a frame that is going away
        }
        return {};
    }

    Sequence<Reference<css::frame::XDispatch>>
        SAL_CALL queryDispatches(const Sequence<css::frame::DispatchDescriptor>& wanted) override {
        Sequence<Reference<css::frame::XDispatch>> result(wanted.getLength());
        auto* next = result.getArray();
        for (const auto& one : wanted)
            *next++ = queryDispatch(one.FeatureURL, one.FrameName, one.SearchFlags);
        return result;
    }

    void SAL_CALL dispatch(const css::util::URL& url, const Sequence<css::beans::PropertyValue>& arguments) override {
        run(url, arguments);
    }

    void SAL_CALL dispatchWithNotification(const css::util::URL& url,
                                           const Sequence<css::beans::PropertyValue>& arguments,
                                           const Reference<css::frame::XDispatchResultListener>& listener) override {
        const Reference<css::uno::XInterface> alive(static_cast<cppu::OWeakObject*>(this));
        const auto [good, text] = run(url, arguments);
        if (listener.is())
            listener->dispatchFinished({alive,
                                        static_cast<sal_Int16>(good ? css::frame::DispatchResultState::SUCCESS
                                                                    : css::frame::DispatchResultState::FAILURE),
                                        Any(utf16(text))});
    }

    void SAL_CALL addStatusListener(const Reference<css::frame::XStatusListener>& listener,
                                    const css::util::URL& url) override {
        css::frame::FeatureStateEvent state;
        state.Source = static_cast<cppu::OWeakObject*>(this);
        state.FeatureURL = url;
        state.IsEnabled = true;
        if (listener.is())
            listener->statusChanged(state);
    }
    void SAL_CALL removeStatusListener(const Reference<css::frame::XStatusListener>&, const css::util::URL&) override {}

    OUString SAL_CALL getImplementationName() override { return "org.pacecells.CommandsImplementation"; }
    sal_Bool SAL_CALL supportsService(const OUString& name) override { return cppu::supportsService(this, name); }
    Sequence<OUString> SAL_CALL getSupportedServiceNames() override {
        const OUString name("com.sun.star.frame.ProtocolHandler");
        return {&name, 1};
    }

  private:
    struct Outcome {
        bool good;
        std::string text;
    };

    Outcome run(const css::util::URL& url, const Sequence<css::beans::PropertyValue>& values) noexcept {
        try {
            const std::string complete = utf8(url.Complete);
            const auto* command = Command::find(command_name(complete));
            const Reference<css::frame::XFrame> frame = frame_;
            if (!command || !in_calc(frame))
                return {false, {}};
            read_interface_language(component_);
            Context context(component_, frame, arguments_of(complete, values));
            return attempt(*command, context);
        } catch (...) {
            return {false, {}};
        }
    }

    static Outcome attempt(const Command& command, Context& context) {
        std::string sentence;
        try {
            command(context);
            return {true, context.said()};
        } catch (const Refusal& refusal) {
            sentence = refusal.sentence;
        } catch (const css::uno::Exception& problem) {
            sentence = tr("That did not work. LibreOffice says: %1", utf8(problem.Message));
        } catch (const std::exception& problem) {
            sentence = tr("That did not work. LibreOffice says: %1", problem.what());
        }
        if (context.interactive())
            context.say(sentence);
        return {false, sentence};
    }

    const Reference<css::uno::XComponentContext> component_;
    css::uno::WeakReference<css::frame::XFrame> frame_;
};

} // namespace

} // namespace pacecells

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface*
pacecells_commands(com::sun::star::uno::XComponentContext* component,
                   const com::sun::star::uno::Sequence<com::sun::star::uno::Any>&) {
    return pacecells::constructed<pacecells::Dispatcher>(component);
}
