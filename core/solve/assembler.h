/// Numbers a circuit's unknowns and puts every part's values in: how Equations are made.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/solve/equations.h"

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace ohmwright {

class BehaviouralGroup;
class OpampLaw;

/// One use, one circuit. REQUIRES: requireSolvable(circuit).
class Assembler {
public:
    Assembler(const Circuit& circuit, const Setting& setting) : m_circuit(circuit), m_setting(setting) {}

    /// Errors: unsolvable naming a behavioural source whose law cannot be read.
    Result<Equations> assemble();

    /// True when only values, knobs, battery or load differ from those that `like` was made from.
    static bool hasTopologyOf(const Equations& like, const Circuit& circuit, const Setting& setting);
    /// REQUIRES: hasTopologyOf(like, ...).
    Equations refill(const Equations& like);

private:
    using Layout = Equations::Layout;
    static constexpr Dependence structure{-1, 0.0};

    void number();
    template <class Law>
    [[nodiscard]] Law lawOf(const Part& part) const;
    template <class Law>
    void numberDevice(const Part& part);
    int addUnknown(UnknownName name, bool isNode);

    void addLinearParts();
    void addLinearPart(int index);
    void addResistance(int index, int pinA, int pinB, double ohms, double exponent, bool noisy);
    void addVoltageBranch(int index);
    void addCoupling(int index);
    void addSource(int index);
    void sumStamps();

    Result<void> addDevices();
    template <class Law>
    std::vector<int> addTerminals(int index, const Law& law);
    template <class Law, class NodeOf>
    ChargePlaces<Law> addDeviceCharges(const Law& law, const DevicePlaces& places, NodeOf node);
    template <class Law>
    void addDevice(int index, LawGroup<Law>& group);
    void addOpampPieces(int index, const OpampLaw& law, int inner, int stage);
    Result<void> addBehavioural(int index, BehaviouralGroup& group);

    void addStamp(int row, int column, double value, Dependence of);
    void addConductance(int part, int a, int b, int pinA, int pinB, double siemens, double exponent, bool noisy);
    int addCharge(int plus, int minus);
    int addChargeSlope(int charge, int controlPlus, int controlMinus, double farads);
    int addControl(int plus, int minus);
    int addCurrent(int plus, int minus, int part, int pinFrom, int pinTo);
    void addCurrentSlope(int current, int control);

    [[nodiscard]] double valueOf(const Part& part) const;
    [[nodiscard]] int ground() const { return int(m_layout->names.size()); }
    [[nodiscard]] bool isNew() const { return m_new != nullptr; }

    const Circuit& m_circuit;
    const Setting& m_setting;
    Equations m_equations;
    std::unordered_map<std::string_view, const Model*> m_models;  ///< By name: many parts, each with its own.
    const Layout* m_layout = nullptr;
    Layout* m_new = nullptr;                ///< The layout while it is made; null when values are put into an old one.
    std::vector<std::vector<int>> m_inner;  ///< Unknowns inside each part, in the order of numbering.
    std::vector<int> m_chargeOfPart;        ///< Flux of each inductor.
    std::size_t m_resistanceCount = 0, m_slopeCount = 0;  ///< Filled so far.
};

}  // namespace ohmwright
