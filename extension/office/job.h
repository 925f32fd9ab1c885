// Jobs of ours: what the office calls when something happens to a document (package/office/Jobs.xcu).
#pragma once

#include "office.h"

#include <com/sun/star/beans/NamedValue.hpp>
#include <com/sun/star/lang/XServiceInfo.hpp>
#include <com/sun/star/task/XJob.hpp>
#include <cppuhelper/implbase2.hxx>

namespace pacecells {

// Nothing that a job throws reaches the office: what the document is about is done all the same.
class Job : public cppu::WeakImplHelper2<css::task::XJob, css::lang::XServiceInfo> {
  public:
    css::uno::Any SAL_CALL execute(const css::uno::Sequence<css::beans::NamedValue>& arguments) final;

    rtl::OUString SAL_CALL getImplementationName() override;
    sal_Bool SAL_CALL supportsService(const rtl::OUString& name) override;
    css::uno::Sequence<rtl::OUString> SAL_CALL getSupportedServiceNames() override;

  protected:
    // The service as pacecells.components has it, such as "org.pacecells.PrintedByHand".
    Job(css::uno::Reference<css::uno::XComponentContext> component, const char* service);

    [[nodiscard]] const css::uno::Reference<css::uno::XComponentContext>& component() const { return component_; }

  private:
    // To a spreadsheet with a window, which may be hidden.
    virtual void happened(const css::uno::Reference<css::sheet::XSpreadsheetDocument>& document,
                          const css::uno::Reference<css::frame::XFrame>& frame) = 0;

    const css::uno::Reference<css::uno::XComponentContext> component_;
    const rtl::OUString service_;
};

[[nodiscard]] bool is_visible(const css::uno::Reference<css::frame::XFrame>& frame);

} // namespace pacecells
