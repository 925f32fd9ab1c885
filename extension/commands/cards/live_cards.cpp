// The cards of the workbook are fitted when somebody turns to their sheet or chooses whose cards it shows. That is no step
// to undo, and no change to be saved.
#include "live_cards.h"

#include "job.h"
#include "printed.h"
#include "row_heights.h"
#include "values.h"
#include "wall_page.h"

#include <com/sun/star/awt/AsyncCallback.hpp>
#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/document/XUndoManagerSupplier.hpp>
#include <com/sun/star/frame/XController.hpp>
#include <com/sun/star/frame/XModel.hpp>
#include <com/sun/star/sheet/XActivationBroadcaster.hpp>
#include <com/sun/star/table/XColumnRowRange.hpp>
#include <com/sun/star/util/XModifiable.hpp>
#include <com/sun/star/util/XModifyBroadcaster.hpp>
#include <com/sun/star/util/XProtectable.hpp>
#include <cppuhelper/implbase3.hxx>
#include <cppuhelper/weakref.hxx>
#include <rtl/ref.hxx>

#include <algorithm>
#include <utility>

namespace pacecells {

namespace {

using css::uno::Any;
using css::uno::Reference;

constexpr sal_Int32 cards_on_page = 4;

Range sheet_at(const Document& document, sal_Int16 number) {
    return {need<css::container::XIndexAccess>(document->getSheets())->getByIndex(number), css::uno::UNO_QUERY_THROW};
}

Reference<css::beans::XPropertySet> row_at(const Range& sheet, sal_Int32 row) {
    return {need<css::table::XColumnRowRange>(sheet->getCellRangeByPosition(0, row, 0, row))->getRows()->getByIndex(0),
            css::uno::UNO_QUERY_THROW};
}

class Unprotected {
  public:
    explicit Unprotected(const Range& sheet) : sheet_(need<css::util::XProtectable>(sheet)) {
        was_ = sheet_->isProtected();
        if (was_)
            sheet_->unprotect(rtl::OUString());
    }
    ~Unprotected() {
        try {
            if (was_)
                sheet_->protect(rtl::OUString());
        } catch (const css::uno::Exception&) { // the document is gone
        }
    }
    Unprotected(const Unprotected&) = delete;
    Unprotected& operator=(const Unprotected&) = delete;

  private:
    Reference<css::util::XProtectable> sheet_;
    bool was_ = false;
};

} // namespace

void fit_live_cards(const Document& document) {
    const auto page = find_name(document, "card_page");
    if (!page.is())
        return;
    const auto area = address(page);
    const auto sheet = sheet_at(document, area.Sheet);
    const auto values = shown_values(page);
    const auto deep = values.getLength() / cards_on_page;
    std::vector<Rows> cards;
    for (sal_Int32 card = 0; card < cards_on_page; ++card)
        cards.emplace_back(values.getConstArray() + card * deep, deep);
    if (std::ranges::all_of(cards, [](const Rows& card) { return texts_at({card}, 1, 0).empty(); }))
        return; // nobody has a name yet
    auto first = area;
    first.EndRow = first.StartRow + deep - 1;
    const Unprotected unprotected(sheet); // texts are measured in a cell of it
    const auto rows = card_rows(document, sheet, first, cards, cards_on_page);
    for (sal_Int32 row = 0; row < values.getLength(); ++row) {
        const auto height = rows.heights[static_cast<std::size_t>(row % deep)];
        const auto properties = row_at(sheet, area.StartRow + row);
        set_property(properties, "IsVisible", Any(height > 0));
        if (height > 0)
            set_property(properties, "Height", Any(height));
        if (row % deep == 0 && row > 0)
            set_property(properties, "IsStartOfNewPage", Any(row / deep % rows.per_page == 0));
    }
    auto size = size_of(sheet, first);
    size.Height = rows.per_page * rows.whole();
    size.Height += size.Height / rounding;
    fill_page(page_style(document, sheet), size);
}

namespace {

// What is done meanwhile is part of the last step that can be undone, or none where there is none. What could be redone
// is gone, as after any other change.
class PartOfLastStep {
  public:
    explicit PartOfLastStep(const Document& document)
        : steps_(need<css::document::XUndoManagerSupplier>(document)->getUndoManager()),
          first_(!steps_->isUndoPossible()) {
        if (first_)
            steps_->enterUndoContext(rtl::OUString());
        else
            steps_->enterHiddenUndoContext();
    }
    ~PartOfLastStep() {
        try {
            steps_->leaveUndoContext();
            if (first_)
                steps_->clear();
        } catch (const css::uno::Exception&) { // the document is gone
        }
    }
    PartOfLastStep(const PartOfLastStep&) = delete;
    PartOfLastStep& operator=(const PartOfLastStep&) = delete;

  private:
    Reference<css::document::XUndoManager> steps_;
    bool first_;
};

// What the cards show is looked at when the office has done what it is doing.
class Watcher : public cppu::WeakImplHelper3<css::sheet::XActivationEventListener, css::util::XModifyListener,
                                             css::awt::XCallback> {
  public:
    Watcher(Reference<css::uno::XComponentContext> component, const Document& document)
        : component_(std::move(component)), document_(document) {}

    void look_at(const Reference<css::frame::XController>& view, const Range& chosen) {
        need<css::sheet::XActivationBroadcaster>(view)->addActivationEventListener(this);
        chosen_ = need<css::util::XModifyBroadcaster>(chosen);
        chosen_->addModifyListener(this);
    }

    void SAL_CALL activeSpreadsheetChanged(const css::sheet::ActivationEvent& event) override {
        try {
            const Document document(document_);
            const auto page = document.is() ? find_name(document, "card_page") : Range();
            if (page.is() && address(page).Sheet == address(need<css::table::XCellRange>(event.ActiveSheet)).Sheet)
                fit_soon();
        } catch (...) { // the sheet stays as it is, and what the person does is done all the same
        }
    }
    void SAL_CALL modified(const css::lang::EventObject&) override { fit_soon(); }
    void SAL_CALL disposing(const css::lang::EventObject&) override { // the view, or all of the document
        try {
            if (const auto chosen = std::exchange(chosen_, {}); chosen.is())
                chosen->removeModifyListener(this);
        } catch (...) {
        }
    }

    void SAL_CALL notify(const Any&) override {
        try {
            const Document document(document_);
            const auto page = document.is() ? find_name(document, "card_page") : Range();
            const auto shown = page.is() ? digest_of(shown_values(page)) : fitted_;
            if (shown == fitted_)
                return;
            fitted_ = shown;
            const auto file = need<css::util::XModifiable>(document);
            const bool modified = file->isModified();
            {
                const PartOfLastStep part(document);
                fit_live_cards(document);
            }
            if (!modified)
                file->setModified(false);
        } catch (...) {
        }
    }

  private:
    void fit_soon() {
        try {
            css::awt::AsyncCallback::create(component_)->addCallback(this, Any());
        } catch (...) {
        }
    }

    Reference<css::uno::XComponentContext> component_;
    css::uno::WeakReference<css::sheet::XSpreadsheetDocument> document_;
    Reference<css::util::XModifyBroadcaster> chosen_; // 26.8 forgets who listens to cells that nobody holds
    Digest fitted_ = 0;                               // of the cards
};

class LiveCards : public Job {
  public:
    explicit LiveCards(Reference<css::uno::XComponentContext> component)
        : Job(std::move(component), "org.pacecells.LiveCards") {}

  private:
    void happened(const Document& document, const Reference<css::frame::XFrame>& frame) override {
        const auto chosen = find_name(document, "card_first");
        if (!chosen.is() || !find_name(document, "card_page").is())
            return;
        const rtl::Reference<Watcher> watcher(new Watcher(component(), document));
        watcher->look_at(frame->getController(), chosen);
    }
};

} // namespace

} // namespace pacecells

extern "C" SAL_DLLPUBLIC_EXPORT com::sun::star::uno::XInterface*
pacecells_live_cards(com::sun::star::uno::XComponentContext* component,
                     const com::sun::star::uno::Sequence<com::sun::star::uno::Any>&) {
    return pacecells::constructed<pacecells::LiveCards>(component);
}
