// What the office prints by itself (File, Print) counts as printed too: a correction after it gets a number of its own.
#include "job.h"
#include "printed.h"

#include <com/sun/star/awt/AsyncCallback.hpp>
#include <com/sun/star/frame/XController.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/lang/XServiceInfo.hpp>
#include <com/sun/star/task/XJob.hpp>
#include <cppuhelper/implbase1.hxx>
#include <cppuhelper/implbase2.hxx>
#include <cppuhelper/supportsservice.hxx>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;
using rtl::OUString;

void note_print(Context context) {
    const EventCells event(context.document());
    const auto before = printed_before(event.document());
    auto printed = before;
    if (version_settled(context, event, printed, true) &&
        (printed.workout != before.workout || printed.announcement != before.announcement))
        remember(event.document(), printed);
}

class Noter : public cppu::WeakImplHelper1<css::awt::XCallback> {
  public:
    explicit Noter(Context context) : context_(std::move(context)) {}

    void SAL_CALL notify(const Any&) override {
        static bool asking = false; // the office tells of each print twice
        if (asking)
            return;
        asking = true;
        try {
            note_print(context_);
        } catch (...) { // the print is done all the same
        }
        asking = false;
    }

  private:
    Context context_;
};

// The office's own job after a print of a spreadsheet (package/office/Jobs.xcu).
class PrintedByHand : public cppu::WeakImplHelper2<css::task::XJob, css::lang::XServiceInfo> {
  public:
    explicit PrintedByHand(Reference<css::uno::XComponentContext> component) : component_(std::move(component)) {}

    Any SAL_CALL execute(const css::uno::Sequence<css::beans::NamedValue>& arguments) override {
        try {
            const auto document = document_of_job(arguments);
            const auto controller =
                document.is() ? need<css::frame::XModel>(document)->getCurrentController() : nullptr;
            if (!controller.is() || !find_name(document, "workout").is() || !find_name(document, "roster_name").is())
                return {};
            read_interface_language(component_);
            Arguments silent;
            if (!is_visible(controller->getFrame()))
                silent["Silent"] = "true";
            css::awt::AsyncCallback::create(component_)
                ->addCallback(new Noter(Context(component_, controller->getFrame(), silent)), Any());
        } catch (...) { // the print is done all the same
        }
        return {};
    }

    OUString SAL_CALL getImplementationName() override { return "org.pacecells.PrintedByHandImplementation"; }
    sal_Bool SAL_CALL supportsService(const OUString& name) override { return cppu::supportsService(this, name); }
    css::uno::Sequence<OUString> SAL_CALL getSupportedServiceNames() override {
        const OUString name("org.pacecells.PrintedByHand");
        return {&name, 1};
    }

  private:
    const Reference<css::uno::XComponentContext> component_;
};

} // namespace

} // namespace pacecells

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface*
pacecells_printed_by_hand(com::sun::star::uno::XComponentContext* component,
                          const com::sun::star::uno::Sequence<com::sun::star::uno::Any>&) {
    auto* object = new pacecells::PrintedByHand(component);
    object->acquire();
    return static_cast<cppu::OWeakObject*>(object);
}
