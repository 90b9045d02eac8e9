/// Behavioural sources: a current, or the voltage of a branch, by a formula of the circuit's unknowns.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/expression/expression.h"
#include "core/solve/device_group.h"

#include <vector>

namespace ohmwright {

class BehaviouralGroup final : public DeviceGroup {
public:
    void add(const Expression& law, const DevicePlaces& places) { m_sources.push_back({law, places}); }

    void evaluate(const double* x, const std::vector<Control>& controls, Junctions mode,
                  Evaluation& state) const override;
    [[nodiscard]] int undefinedAt(const double* x, const std::vector<Control>& controls) const override;
    void writeRest(std::vector<double>&) const override {}
    void addNoise(const std::vector<double>&, std::vector<NoiseSource>&) const override {}

private:
    struct Source {
        Expression law;
        DevicePlaces at;
    };
    std::vector<Source> m_sources;
};

}  // namespace ohmwright
