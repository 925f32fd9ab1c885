// What the office prints by itself (File, Print) counts as printed too: a correction after it gets a number of its own.
#include "job.h"
#include "printed.h"

#include <com/sun/star/awt/AsyncCallback.hpp>
#include <cppuhelper/implbase1.hxx>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

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

class PrintedByHand : public Job {
  public:
    explicit PrintedByHand(Reference<css::uno::XComponentContext> component)
        : Job(std::move(component), "org.pacecells.PrintedByHand") {}

  private:
    void happened(const Reference<css::sheet::XSpreadsheetDocument>& document,
                  const Reference<css::frame::XFrame>& frame) override {
        if (!find_name(document, "workout").is() || !find_name(document, "roster_name").is())
            return;
        read_interface_language(component());
        Arguments silent;
        if (!is_visible(frame))
            silent["Silent"] = "true";
        css::awt::AsyncCallback::create(component())
            ->addCallback(new Noter(Context(component(), frame, silent)), Any());
    }
};

} // namespace

} // namespace pacecells

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface*
pacecells_printed_by_hand(com::sun::star::uno::XComponentContext* component,
                          const com::sun::star::uno::Sequence<com::sun::star::uno::Any>&) {
    return pacecells::constructed<pacecells::PrintedByHand>(component);
}
