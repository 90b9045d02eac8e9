/// Devices of one law in a circuit: the bridge between the numbered unknowns and the laws of core/devices.
///
/// All devices share flat lists: controls (differences of two unknowns), currents (from one row to another) and
/// charges, each with its slopes. A group evaluates its devices into those lists; equations.cpp stamps the lists
/// without knowing which device wrote them.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/devices/device_law.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <vector>

namespace ohmwright {

/// One circuit state, filled by Equations::evaluate.
struct Evaluation {
    std::vector<double> residual;       ///< Conduction only; size + 1 entries, the last is ground's and meaningless.
    std::vector<double> conductances;   ///< di/dx by slot of the pattern.
    std::vector<double> charges;        ///< q, one a charge branch [C] (flux [Wb], negative, for an inductor).
    std::vector<double> slopes;         ///< dq/d(controlling voltage), one a charge slope.
    std::vector<double> currents;       ///< Of the devices, one a current branch [A].
    std::vector<double> currentSlopes;  ///< di/d(control) [S].
    std::vector<double> controls;       ///< Voltages used, limited; carried from one iteration to the next.
    bool limited = false;               ///< A control was held back: not yet an answer.
};

/// At which voltages the devices are linearised.
enum class Junctions {
    limited,        ///< Held back from the last ones: Newton's steps.
    limitedAtRest,  ///< The same towards a bias: charges are left as they are.
    start,          ///< Where Newton's steps to a bias begin, whatever x says; charges are left as they are.
    exact,          ///< As x says: checks.
    off,            ///< At rest, whatever x says: choice of pivots.
    smallSignal,    ///< Exact, with the slopes that a law keeps for small signals where they are others.
};

/// Whether charges and their slopes are asked for.
constexpr bool wantsCharges(Junctions mode) {
    return mode != Junctions::limitedAtRest && mode != Junctions::start;
}

/// A difference of two unknowns: a voltage between nodes, or a branch current (with ground as the second).
struct Control {
    int plus, minus;
};

/// A noise current between two rows, uncorrelated with all others.
struct NoiseSource {
    int part;  ///< Index in the circuit's parts.
    int plus, minus;
    NoiseDensity density;
};

class DeviceGroup {
public:
    virtual ~DeviceGroup() = default;

    /// Writes currents, charges and slopes of its devices. @param x with ground's 0 at the end.
    virtual void evaluate(const double* x, const std::vector<Control>& controls, Junctions mode,
                          Evaluation& state) const = 0;

    /// Control voltages at which the devices are off, and from which Newton's steps begin.
    virtual void writeRest(std::vector<double>& controls) const = 0;

    /// Index of a part whose law has no value at x (the logarithm of a negative); -1 when all have one.
    [[nodiscard]] virtual int undefinedAt(const double*, const std::vector<Control>&) const { return -1; }

    /// Noise currents at solved control voltages; `plus` and `minus` are places in the list of currents' rows.
    virtual void addNoise(const std::vector<double>& controls, std::vector<NoiseSource>& sources) const = 0;
};

/// Where a device's entries begin in the shared lists.
struct DevicePlaces {
    int part = 0;
    int control = 0, current = 0, slope = 0;
    int chargeSlope = 0;  ///< First of those that it has.
};

/// Charges that a card gives no capacitance have no place: nothing is solved for them. -1 for none.
template <class Law>
struct ChargePlaces {
    std::array<int, Law::charges.size()> charges;
    std::array<int, Law::chargeSlopes.size()> slopes;
};

/// Which of a law's charges move at all: those with a slope at one of four unlike points, of which the last opens every
/// channel; a slope that is no number there is one.
template <class Law>
std::array<bool, Law::charges.size()> movingCharges(const Law& law) {
    std::array<bool, Law::charges.size()> moving{};
    for (const double volts : {-1.3, 0.0, 0.4, 100.0}) {
        std::array<double, Law::controls.size()> at;
        at.fill(volts);
        typename Law::Point point;
        law.at(at, point);
        for (std::size_t k = 0; k < Law::chargeSlopes.size(); ++k) {
            bool& moves = moving[std::size_t(Law::chargeSlopes[k].output)];
            moves = moves || point.chargeSlopes[k] != 0.0;
        }
    }
    return moving;
}

/// All devices of one law.
template <class Law>
class LawGroup final : public DeviceGroup {
public:
    void add(const Law& law, const DevicePlaces& places, const ChargePlaces<Law>& charges) {
        m_devices.push_back({law, places, charges, law.polarity()});
    }

    void evaluate(const double* x, const std::vector<Control>& controls, Junctions mode,
                  Evaluation& state) const override {
        for (const Device& device : m_devices) {
            evaluateOne(device, x, controls.data() + device.at.control, mode, state);
        }
    }

    void writeRest(std::vector<double>& controls) const override {
        for (const Device& device : m_devices) {
            const Volts rest = restOf(device.law);
            std::copy(rest.begin(), rest.end(), controls.begin() + device.at.control);
        }
    }

    void addNoise(const std::vector<double>& controls, std::vector<NoiseSource>& sources) const override {
        for (const Device& device : m_devices) {
            Volts volts;
            for (std::size_t k = 0; k < volts.size(); ++k) {
                volts[k] = controls[std::size_t(device.at.control) + k];
            }
            const auto densities = device.law.noise(volts);
            for (std::size_t k = 0; k < densities.size(); ++k) {
                if (densities[k].white > 0.0 || densities[k].flicker > 0.0) {
                    const int current = device.at.current + int(k);
                    sources.push_back({device.at.part, current, current, densities[k]});
                }
            }
        }
    }

private:
    using Volts = std::array<double, Law::controls.size()>;

    struct Device {
        Law law;
        DevicePlaces at;
        ChargePlaces<Law> in;
        double sign;
    };

    static Volts restOf(const Law& law) {
        if constexpr (requires { law.rest(); }) {
            return law.rest();
        } else {
            return {};
        }
    }

    static Volts startOf(const Law& law) {
        if constexpr (requires { law.start(); }) {
            return law.start();
        } else {
            return restOf(law);
        }
    }

    /// The voltages that a law is looked at, for those asked of it. @param memory  the last ones.
    static Volts linearisedAt(const Law& law, const Volts& asked, const double* memory, Junctions mode) {
        if (mode == Junctions::off) {
            return restOf(law);
        }
        if (mode == Junctions::start) {
            return startOf(law);
        }
        Volts used = asked;
        if (mode == Junctions::limited || mode == Junctions::limitedAtRest) {
            Volts previous;
            for (std::size_t k = 0; k < previous.size(); ++k) {
                previous[k] = memory[k];
            }
            law.limit(used, previous);
        }
        return used;
    }

    static typename Law::Point pointAt(const Law& law, const Volts& volts, Junctions mode) {
        typename Law::Point point;
        if constexpr (requires { law.conduct(volts, point); }) {
            wantsCharges(mode) ? law.at(volts, point) : law.conduct(volts, point);
        } else {
            law.at(volts, point);
        }
        if constexpr (requires { Law::smallSignal(point); }) {
            if (mode == Junctions::smallSignal) {
                Law::smallSignal(point);
            }
        }
        return point;
    }

    static void evaluateOne(const Device& device, const double* x, const Control* controls, Junctions mode,
                            Evaluation& state) {
        double* memory = state.controls.data() + device.at.control;
        Volts asked;
        for (std::size_t k = 0; k < asked.size(); ++k) {
            asked[k] = device.sign * (x[controls[k].plus] - x[controls[k].minus]);
        }
        const Volts used = linearisedAt(device.law, asked, memory, mode);
        bool held = false;
        Volts rest;
        for (std::size_t k = 0; k < used.size(); ++k) {
            memory[k] = used[k];
            rest[k] = asked[k] - used[k];
            held = held || rest[k] != 0.0;
        }
        const bool charges = wantsCharges(mode);
        typename Law::Point point = pointAt(device.law, used, mode);
        // Linearised at `used`, read at `asked`: Newton's next step lands where the tangent says.
        if (held) {
            state.limited = true;
            for (std::size_t k = 0; k < Law::currentSlopes.size(); ++k) {
                point.currents[std::size_t(Law::currentSlopes[k].output)] +=
                    point.currentSlopes[k] * rest[std::size_t(Law::currentSlopes[k].control)];
            }
            for (std::size_t k = 0; charges && k < Law::chargeSlopes.size(); ++k) {
                point.charges[std::size_t(Law::chargeSlopes[k].output)] +=
                    point.chargeSlopes[k] * rest[std::size_t(Law::chargeSlopes[k].control)];
            }
        }
        // sign * d/d(sign v) leaves the slopes as they are.
        for (std::size_t k = 0; k < Law::currents.size(); ++k) {
            state.currents[std::size_t(device.at.current) + k] = device.sign * point.currents[k];
        }
        for (std::size_t k = 0; k < Law::currentSlopes.size(); ++k) {
            state.currentSlopes[std::size_t(device.at.slope) + k] = point.currentSlopes[k];
        }
        if (charges) {
            keepCharges(device, point, state);
        }
    }

    static void keepCharges(const Device& device, const typename Law::Point& point, Evaluation& state) {
        for (std::size_t k = 0; k < Law::charges.size(); ++k) {
            if (device.in.charges[k] >= 0) {
                state.charges[std::size_t(device.in.charges[k])] = device.sign * point.charges[k];
            }
        }
        for (std::size_t k = 0; k < Law::chargeSlopes.size(); ++k) {
            if (device.in.slopes[k] >= 0) {
                state.slopes[std::size_t(device.in.slopes[k])] = point.chargeSlopes[k];
            }
        }
    }

    std::vector<Device> m_devices;
};

}  // namespace ohmwright
