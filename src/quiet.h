// How Boost.Math is called here: it answers with infinities and NaN instead of exceptions, and works in double.
#pragma once

#include <boost/math/policies/policy.hpp>

namespace pacecells {

namespace policies = boost::math::policies;

using Quiet =
    policies::policy<policies::domain_error<policies::ignore_error>, policies::pole_error<policies::ignore_error>,
                     policies::overflow_error<policies::ignore_error>,
                     policies::evaluation_error<policies::ignore_error>,
                     policies::rounding_error<policies::ignore_error>,
                     policies::indeterminate_result_error<policies::ignore_error>, policies::promote_double<false>>;

} // namespace pacecells
