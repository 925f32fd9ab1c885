// An add-in that does nothing: what the office itself takes to call a function.
#include <com/sun/star/lang/XServiceInfo.hpp>
#include <com/sun/star/uno/XComponentContext.hpp>
#include <cppuhelper/implbase2.hxx>
#include <cppuhelper/supportsservice.hxx>
#include <org/pacecells/bench/XNothing.hpp>

namespace {

namespace uno = com::sun::star::uno;
using rtl::OUString;
using uno::Any;

class Nothing : public cppu::WeakImplHelper2<org::pacecells::bench::XNothing, com::sun::star::lang::XServiceInfo> {
  public:
    using In = const Any&;
    Any SAL_CALL nothingTwo(In, In) override { return Any(1.0); }
    Any SAL_CALL nothingThree(In, In, In) override { return Any(1.0); }
    Any SAL_CALL nothingFour(In, In, In, In) override { return Any(1.0); }
    Any SAL_CALL nothingFive(In, In, In, In, In) override { return Any(1.0); }
    Any SAL_CALL nothingSix(In, In, In, In, In, In) override { return Any(1.0); }
    Any SAL_CALL nothingSeven(In, In, In, In, In, In, In) override { return Any(1.0); }

    OUString SAL_CALL getImplementationName() override { return "org.pacecells.bench.NothingImplementation"; }
    sal_Bool SAL_CALL supportsService(const OUString& name) override { return cppu::supportsService(this, name); }
    uno::Sequence<OUString> SAL_CALL getSupportedServiceNames() override {
        const OUString names[] = {"org.pacecells.bench.Nothing", "com.sun.star.sheet.AddIn"};
        return {names, 2};
    }
};

} // namespace

extern "C" SAL_DLLPUBLIC_EXPORT uno::XInterface* pacecells_nothing(uno::XComponentContext*, const uno::Sequence<Any>&) {
    auto* object = new Nothing;
    object->acquire();
    return static_cast<cppu::OWeakObject*>(object);
}
