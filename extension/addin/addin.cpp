// The cell functions as a UNO object: every method hands its arguments to the catalog's row of that name.
#include "arguments.h"
#include "catalog.h"
#include "trace.h"

#include <com/sun/star/lang/XServiceInfo.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <cppuhelper/implbase2.hxx>
#include <cppuhelper/supportsservice.hxx>
#include <org/pacecells/XFunctions.hpp>

#include <algorithm>
#include <array>

namespace {

namespace uno = com::sun::star::uno;
using rtl::OUString;
using uno::Any;
using CellRange = uno::Reference<com::sun::star::table::XCellRange>;

template <class... Values>
Any call(std::size_t row_index, const Values&... values) noexcept {
    try {
        const auto& row = pacecells::catalog()[row_index];
        const auto filled = std::max({sal_Int32{0}, pacecells::filled_rows(values)...});
        const std::array<pacecells::Argument, sizeof...(values)> arguments{pacecells::to_argument(values, filled)...};
        const auto answer = row.evaluate(arguments);
        pacecells::Trace::note(row, arguments, answer);
        return pacecells::to_any(answer);
    } catch (...) { // out of memory, or a range that the office cannot read; nothing of ours throws
        return Any(pacecells::error_value(pacecells::no_value));
    }
}

class Functions : public cppu::WeakImplHelper2<org::pacecells::XFunctions, com::sun::star::lang::XServiceInfo> {
  public:
#include "methods.inc"

    OUString SAL_CALL getImplementationName() override { return "org.pacecells.FunctionsImplementation"; }
    sal_Bool SAL_CALL supportsService(const OUString& name) override { return cppu::supportsService(this, name); }
    uno::Sequence<OUString> SAL_CALL getSupportedServiceNames() override {
        const OUString names[] = {"org.pacecells.Functions", "com.sun.star.sheet.AddIn"};
        return {names, 2};
    }
};

} // namespace

extern "C" SAL_DLLPUBLIC_EXPORT uno::XInterface* pacecells_functions(uno::XComponentContext*,
                                                                     const uno::Sequence<Any>&) {
    auto* object = new Functions;
    object->acquire();
    return static_cast<cppu::OWeakObject*>(object);
}
