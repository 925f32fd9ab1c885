#include "copy.h"

#include <com/sun/star/container/XIndexAccess.hpp>
#include <com/sun/star/container/XNamed.hpp>
#include <com/sun/star/frame/XStorable.hpp>
#include <com/sun/star/io/TempFile.hpp>
#include <com/sun/star/sheet/XCalculatable.hpp>
#include <com/sun/star/util/XCloseable.hpp>
#include <com/sun/star/util/XProtectable.hpp>

namespace pacecells {

using css::uno::Any;

Copy::Copy(const Context& context, const Document& original) {
    const auto file = css::io::TempFile::create(context.component()); // removed with its last reference
    const auto url = utf8(file->getUri());
    need<css::frame::XStorable>(original)->storeToURL(utf16(url),
                                                      properties({{"FilterName", Any(rtl::OUString("calc8"))}}));
    document_.set(load(context, url,
                       {{"Hidden", Any(true)}, {"FilterName", Any(rtl::OUString("calc8"))}, {"AsTemplate", Any(true)}}),
                  css::uno::UNO_QUERY_THROW);
    set_property(document_, "IsUndoEnabled", Any(false)); // a copy of every formula, for nobody
    need<css::sheet::XCalculatable>(document_)->enableAutomaticCalculation(false);
    try {
        unprotect();
    } catch (...) {
        need<css::util::XCloseable>(document_)->close(true);
        throw;
    }
}

Copy::~Copy() {
    try {
        need<css::util::XCloseable>(document_)->close(true);
    } catch (const css::uno::Exception&) { // the office is ending
    }
}

Range Copy::sheet(sal_Int32 index) const {
    const auto all = need<css::container::XIndexAccess>(document_->getSheets());
    return Range(all->getByIndex(index), css::uno::UNO_QUERY_THROW);
}

sal_Int32 Copy::sheets() const { return need<css::container::XIndexAccess>(document_->getSheets())->getCount(); }

void Copy::unprotect() {
    for (sal_Int32 i = 0; i < sheets(); ++i) {
        const auto one = sheet(i);
        const auto protection = need<css::util::XProtectable>(one);
        if (!protection->isProtected())
            continue;
        try {
            protection->unprotect(rtl::OUString());
        } catch (const css::uno::Exception&) { // a wrong password: answered below
        }
        if (protection->isProtected())
            throw Refusal{tr("The sheet %1 is password-protected. Remove the password first, or share a PDF.",
                             utf8(need<css::container::XNamed>(one)->getName()))};
        opened_.push_back(one);
    }
}

void Copy::protect_again() const {
    for (const auto& one : opened_)
        need<css::util::XProtectable>(one)->protect(rtl::OUString());
}

Range part(const Range& sheet, const css::table::CellRangeAddress& where) {
    return sheet->getCellRangeByPosition(where.StartColumn, where.StartRow, where.EndColumn, where.EndRow);
}

} // namespace pacecells
