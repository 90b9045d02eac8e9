// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/solve/behavioural_group.h"

#include <cmath>
#include <span>

namespace ohmwright {

void BehaviouralGroup::evaluate(const double* x, const std::vector<Control>& controls, Junctions mode,
                                Evaluation& state) const {
    for (const Source& source : m_sources) {
        const std::size_t count = source.law.variables().size();
        double* used = state.controls.data() + source.at.control;
        for (std::size_t k = 0; k < count; ++k) {
            const Control& control = controls[std::size_t(source.at.control) + k];
            used[k] = mode == Junctions::off ? 0.0 : x[control.plus] - x[control.minus];
        }
        double* slopes = state.currentSlopes.data() + source.at.slope;
        double value =
            source.law.valueAndSlopes(std::span<const double>(used, count), std::span<double>(slopes, count));
        if (mode == Junctions::off) {
            // A pivot must not rest on a formula that may be flat elsewhere.
            for (std::size_t k = 0; k < count; ++k) {
                slopes[k] = 0.0;
            }
            value = 0.0;
        }
        state.currents[std::size_t(source.at.current)] = value;
    }
}

int BehaviouralGroup::undefinedAt(const double* x, const std::vector<Control>& controls) const {
    std::vector<double> at;
    for (const Source& source : m_sources) {
        at.clear();
        for (std::size_t k = 0; k < source.law.variables().size(); ++k) {
            const Control& control = controls[std::size_t(source.at.control) + k];
            at.push_back(x[control.plus] - x[control.minus]);
        }
        if (!std::isfinite(source.law.value(at))) {
            return source.at.part;
        }
    }
    return -1;
}

}  // namespace ohmwright
