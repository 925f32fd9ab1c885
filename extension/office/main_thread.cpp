#include "main_thread.h"

#include "system.h"

#include <com/sun/star/awt/AsyncCallback.hpp>
#include <com/sun/star/awt/XCallback.hpp>
#include <cppuhelper/implbase1.hxx>
#include <rtl/ref.hxx>

#include <exception>
#include <future>

namespace pacecells {

namespace {

class Call : public cppu::WeakImplHelper1<css::awt::XCallback> {
  public:
    explicit Call(const std::function<void()>& work) : work_(work) {}

    void SAL_CALL notify(const css::uno::Any&) override {
        try {
            work_();
            done_.set_value();
        } catch (...) {
            done_.set_exception(std::current_exception());
        }
    }
    void wait() { done_.get_future().get(); }

  private:
    const std::function<void()>& work_;
    std::promise<void> done_;
};

} // namespace

void on_main_thread(const Context& context, const std::function<void()>& work) {
    if (on_first_thread()) {
        work();
        return;
    }
    const rtl::Reference<Call> call(new Call(work));
    css::awt::AsyncCallback::create(context.component())
        ->addCallback(css::uno::Reference<css::awt::XCallback>(call.get()), css::uno::Any());
    call->wait();
}

} // namespace pacecells
