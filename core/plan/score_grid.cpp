// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/plan/score_grid.h"

namespace ohmwright {

double scoreOn(const std::vector<double>& slice, const Axis& axis, std::size_t wants, double place) {
    const Weights weights(axis, place);
    double sum = 0.0;
    for (std::size_t want = 0; want < wants; ++want) {
        double miss = 0.0;
        for (std::size_t k = 0; k < weights.count; ++k) {
            miss += weights.weight[k] * slice[(weights.first + k) * wants + want];
        }
        sum += miss * miss;
    }
    return std::sqrt(sum);
}

}  // namespace ohmwright
