/// Looks at a device law from outside: its slopes against differences, and its currents, conductances and capacitances
/// between terminals.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/devices/device_law.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <string>
#include <vector>

namespace ohmwright::test {

template <class Law>
inline constexpr std::size_t controlCount = Law::controls.size();
template <class Law>
using ControlVolts = std::array<double, controlCount<Law>>;

/// A law of a card, at 27 °C unless said.
template <class Law>
Law lawOf(std::map<std::string, double> parameters, double kelvin = nominalKelvin,
          std::map<std::string, double> device = {}) {
    return Law({"", Law::kind, std::move(parameters), ""}, {std::move(device), kelvin});
}

template <class Law>
typename Law::Point pointOf(const Law& law, const ControlVolts<Law>& volts) {
    typename Law::Point point;
    law.at(volts, point);
    return point;
}

/// Compares every slope, listed or not, with a central difference at `volts`.
/// @param step  [V]; @param floor  rounding that the outputs may have where they are differences of larger figures.
template <class Law, std::size_t Outputs, std::size_t Slopes>
void expectSlopes(const Law& law, const ControlVolts<Law>& volts, const std::array<SlopeOf, Slopes>& list,
                  std::array<double, Outputs> Law::Point::*outputs, std::array<double, Slopes> Law::Point::*slopes,
                  double step, double floor, const std::string& what) {
    const auto here = pointOf(law, volts);
    for (std::size_t control = 0; control < controlCount<Law>; ++control) {
        ControlVolts<Law> above = volts;
        ControlVolts<Law> below = volts;
        above[control] += step;
        below[control] -= step;
        const auto high = pointOf(law, above);
        const auto low = pointOf(law, below);
        for (std::size_t output = 0; output < Outputs; ++output) {
            double stated = 0.0;
            for (std::size_t k = 0; k < Slopes; ++k) {
                if (list[k].output == int(output) && list[k].control == int(control)) {
                    stated = (here.*slopes)[k];
                }
            }
            const double difference =
                ((high.*outputs)[output] - (low.*outputs)[output]) / (above[control] - below[control]);
            // Rounding of the two values, and what the third derivative of the steepest exponential leaves.
            const double rounding = 4e-16 * std::abs((here.*outputs)[output]) / step;
            EXPECT_NEAR(stated, difference, 2e-6 * std::abs(difference) + 40.0 * rounding + floor / step)
                << what << " " << output << " by control " << control << " at " << testing::PrintToString(volts);
        }
    }
}

/// Every slope of currents and charges is the derivative, at `count` voltages that `draw(random)` gives.
template <class Law, class Draw>
void expectEverySlopeIsTheDerivative(const Law& law, Draw draw, int count = 1000, double step = 2e-6) {
    std::mt19937 random(20250117);
    for (int k = 0; k < count && !testing::Test::HasFailure(); ++k) {
        const ControlVolts<Law> volts = draw(random);
        expectSlopes(law, volts, Law::currentSlopes, &Law::Point::currents, &Law::Point::currentSlopes, step, 1e-19,
                     "current");
        if constexpr (Law::charges.size() > 0) {
            expectSlopes(law, volts, Law::chargeSlopes, &Law::Point::charges, &Law::Point::chargeSlopes, step, 1e-30,
                         "charge");
        }
    }
}

/// Every output is finite at voltages that no circuit has.
template <class Law>
void expectFiniteAnywhere(const Law& law) {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> exponent(-12.0, 6.0);
    for (int k = 0; k < 2000 && !testing::Test::HasFailure(); ++k) {
        ControlVolts<Law> volts;
        for (double& value : volts) {
            value = (random() % 2 == 0 ? 1.0 : -1.0) * std::pow(10.0, exponent(random));
            value = random() % 5 == 0 ? 0.0 : value;
        }
        const auto point = pointOf(law, volts);
        const auto finite = [&](const auto& list) {
            for (const double value : list) {
                EXPECT_TRUE(std::isfinite(value)) << testing::PrintToString(volts);
            }
        };
        finite(point.currents);
        finite(point.currentSlopes);
        finite(point.charges);
        finite(point.chargeSlopes);
        for (const NoiseDensity& density : law.noise(volts)) {
            EXPECT_TRUE(std::isfinite(density.white) && density.white >= 0.0) << testing::PrintToString(volts);
            EXPECT_TRUE(std::isfinite(density.flicker) && density.flicker >= 0.0) << testing::PrintToString(volts);
        }
        ControlVolts<Law> held = volts;
        ControlVolts<Law> from{};
        law.limit(held, from);
        finite(held);
    }
}

/// A device between nets: what flows into each pin, and how that follows each pin's voltage.
struct Terminals {
    std::vector<double> amperes;
    std::vector<std::vector<double>> siemens;  ///< [into pin][by pin]
    std::vector<std::vector<double>> farads;
};

/// The law between its pins, without its series resistances.
template <class Law>
Terminals terminalsOf(const Law& law, const std::vector<double>& pinVolts) {
    const std::size_t pins = pinVolts.size();
    const auto pinOf = [](int terminal) {
        return terminal >= outerTerminal(0) ? terminal - outerTerminal(0) : terminal;
    };
    const double sign = law.polarity();
    ControlVolts<Law> volts;
    const auto voltsAt = [&](int terminal) {
        const int pin = pinOf(terminal);
        return pin < 0 ? 0.0 : sign * pinVolts.at(std::size_t(pin));
    };
    for (std::size_t k = 0; k < volts.size(); ++k) {
        volts[k] = voltsAt(Law::controls[k].first) - voltsAt(Law::controls[k].second);
    }
    const auto point = pointOf(law, volts);

    Terminals result;
    result.amperes.assign(pins, 0.0);
    result.siemens.assign(pins, std::vector<double>(pins, 0.0));
    result.farads = result.siemens;
    const auto eachEnd = [&](TerminalPair pair, auto visit) {
        if (pinOf(pair.first) >= 0) visit(std::size_t(pinOf(pair.first)), 1.0);
        if (pinOf(pair.second) >= 0) visit(std::size_t(pinOf(pair.second)), -1.0);
    };
    for (std::size_t k = 0; k < Law::currents.size(); ++k) {
        eachEnd(Law::currents[k],
                [&](std::size_t pin, double out) { result.amperes[pin] += sign * out * point.currents[k]; });
    }
    const auto spread = [&](const auto& branches, const auto& list, const auto& slopes, auto& matrix) {
        for (std::size_t k = 0; k < list.size(); ++k) {
            eachEnd(branches[std::size_t(list[k].output)], [&](std::size_t row, double out) {
                eachEnd(Law::controls[std::size_t(list[k].control)],
                        [&](std::size_t column, double in) { matrix[row][column] += out * in * slopes[k]; });
            });
        }
    };
    spread(Law::currents, Law::currentSlopes, point.currentSlopes, result.siemens);
    spread(Law::charges, Law::chargeSlopes, point.chargeSlopes, result.farads);
    return result;
}

}  // namespace ohmwright::test
