/// The circuit as numbered equations: what every analysis stamps, evaluates and differentiates.
///
/// Modified nodal analysis. Unknowns are the node voltages [V] (nets, then inner nodes of devices) and the
/// branch currents [A] of voltage sources and inductors, positive into the first pin. Row k of the residual is the sum
/// of currents leaving node k, or a branch's voltage equation. Charges are kept apart from conduction, so that one
/// evaluation serves
///   bias        i(x) = 0                      (charges at rest)
///   response    (G + j w C) x = s             (G = di/dx, C = dq/dx)
///   time steps  i(x) + dq(x)/dt = 0.
/// Immutable once compiled and safe to share between threads; each thread has its own Evaluation.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/devices/bipolar.h"
#include "core/devices/diode.h"
#include "core/devices/opamp.h"
#include "core/solve/sparse_lu.h"

#include <array>
#include <map>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

namespace ohmwright {

/// Conductance across every junction [S], as in DEFINITIONS of the demos and common practice.
inline constexpr double junctionGmin = 1e-12;
/// A leg left open on purpose leaks to ground through this [Ω]: no answer depends on it, and the net has a voltage.
inline constexpr double openLegOhms = 1e11;

/// One circuit state, filled by Equations::evaluate.
struct Evaluation {
    std::vector<double> residual;      ///< Conduction only; size + 1 entries, the last is ground's and meaningless.
    std::vector<double> conductances;  ///< di/dx by slot of the pattern.
    std::vector<double> charges;       ///< q, one a charge branch [C] (flux [Wb], negative, for an inductor).
    std::vector<double> slopes;        ///< dq/d(controlling voltage), one a charge slope.
    std::vector<double> junctions;     ///< Junction voltages used, limited; carried from one iteration to the next.
    bool limited = false;              ///< A junction was held back: not yet an answer.
};

/// At which voltages the junctions are linearised.
enum class Junctions {
    limited,  ///< Held back from the last ones: Newton's steps.
    exact,    ///< As x says: checks.
    off,      ///< At rest, whatever x says: choice of pivots.
};

struct EvaluationOptions {
    double inputVolts = 0.0;   ///< Added to the input source.
    double sourceScale = 1.0;  ///< All independent sources times this.
    double gmin = junctionGmin;
    double nodeGmin = 0.0;  ///< From every node to ground [S].
    Junctions junctions = Junctions::limited;
};

class Equations {
public:
    /// @param setting  knobs, battery, load and temperature are put in here; a change of them compiles anew.
    /// Errors: as circuit/check.h and checkSetting.
    static Result<Equations> compile(const Circuit& circuit, const Setting& setting);

    [[nodiscard]] int size() const { return m_pattern.size(); }
    [[nodiscard]] const SparsePattern& pattern() const { return m_pattern; }

    /// Index of a net's voltage; size() for ground; -1 when the circuit has no such net.
    [[nodiscard]] int indexOfNet(const NetName& net) const;
    [[nodiscard]] const std::vector<NetName>& nets() const { return m_nets; }
    /// Branch current of a voltage source; -1 when the part has none.
    [[nodiscard]] int branchOf(const PartId& part) const;
    /// "net o1", "the inner base of Q1", "the current of VBAT": for messages.
    [[nodiscard]] std::string unknownName(int index) const;
    [[nodiscard]] bool isNode(int index) const { return index < m_nodeCount; }

    /// Evaluates i(x), di/dx, q(x), dq/dx. `state.junctions` carries the last junction voltages; empty starts afresh.
    /// @param x  size() + 1 entries, the last is ground and 0.
    void evaluate(const std::vector<double>& x, const EvaluationOptions& options, Evaluation& state) const;

    /// A charge branch: dq/dt leaves row `plus` and enters row `minus`.
    struct ChargeBranch {
        int plus, minus;
    };
    /// dq/dv of one charge by one controlling voltage v = x[controlPlus] - x[controlMinus].
    struct ChargeSlope {
        int charge;
        int controlPlus, controlMinus;
        std::array<int, 4> slots;  ///< (plus, cp) (plus, cm) (minus, cp) (minus, cm)
    };
    [[nodiscard]] const std::vector<ChargeBranch>& chargeBranches() const { return m_chargeBranches; }
    [[nodiscard]] const std::vector<ChargeSlope>& chargeSlopes() const { return m_chargeSlopes; }

    /// Adds factor * dq/dx to a matrix by slot: `factor` is 2/h in time steps, j w in the response.
    template <class Scalar>
    void addCharges(const Evaluation& state, Scalar factor, std::vector<Scalar>& values) const {
        for (std::size_t k = 0; k < m_chargeSlopes.size(); ++k) {
            const Scalar value = factor * state.slopes[k];
            const auto& slots = m_chargeSlopes[k].slots;
            values[std::size_t(slots[0])] += value;
            values[std::size_t(slots[1])] -= value;
            values[std::size_t(slots[2])] -= value;
            values[std::size_t(slots[3])] += value;
        }
    }

    /// Row of the input source's voltage equation; size(), which nothing reads, when the circuit names no source.
    [[nodiscard]] int inputRow() const { return m_inputRow; }

    /// Current into each terminal of a part [A] at a solved state, in the kind's pin order.
    [[nodiscard]] std::vector<double> terminalCurrents(const Part& part, const std::vector<double>& x) const;

private:
    /// The four slots of a conductance between two unknowns.
    struct PairSlots {
        int a, b;
        std::array<int, 4> slots;
    };
    struct DiodeElement {
        PartId part;
        DiodeLaw law;
        PairSlots junction;
        std::size_t memory, charge, slope;
    };
    struct BipolarElement {
        PartId part;
        BipolarLaw law;
        int collector, base, emitter;
        std::array<int, 9> slots;  ///< Rows collector, base, emitter by columns collector, base, emitter.
        std::size_t memory, charge, slope;
    };
    struct OpampElement {
        PartId part;
        OpampLaw law;
        int plus, minus, output, upper, lower, inner;
        std::array<int, 2> transferSlots;  ///< (inner, plus) (inner, minus)
        PairSlots upperClamp, lowerClamp;
        std::size_t memory;
    };
    struct LinearResistance {
        PartId part;
        int a, b;
        int pinA, pinB;
        double siemens;
    };

    Equations() : m_pattern(0) {}

    [[nodiscard]] int innerNode(const Part& part, const char* place) const;
    PairSlots pair(int a, int b);
    void addConductance(const PartId& part, int a, int b, int pinA, int pinB, double siemens);
    std::size_t addCharge(int plus, int minus);
    /// @param farads  constant slope, or NaN when a device evaluates it.
    void addChargeSlope(std::size_t charge, int controlPlus, int controlMinus, double farads);
    void addLinear(int row, int column, double value);
    void number(const Circuit& circuit);
    void addPart(const Circuit& circuit, const Part& part, const Setting& setting);
    void addDiode(const Circuit& circuit, const Part& part, double kelvin);
    void addBipolar(const Circuit& circuit, const Part& part, double kelvin);
    void addOpamp(const Circuit& circuit, const Part& part, double kelvin);
    void evaluateDiode(const DiodeElement& diode, const std::vector<double>& x, const EvaluationOptions& options,
                       Evaluation& state) const;
    void evaluateBipolar(const BipolarElement& transistor, const std::vector<double>& x,
                         const EvaluationOptions& options, Evaluation& state) const;
    void evaluateOpamp(const OpampElement& opamp, const std::vector<double>& x, const EvaluationOptions& options,
                       Evaluation& state) const;

    SparsePattern m_pattern;
    std::vector<std::string> m_names;  ///< Of all unknowns.
    std::vector<NetName> m_nets;
    std::map<std::pair<PartId, std::string>, int> m_innerNodes;  ///< By part and place inside it.
    std::unordered_map<NetName, int> m_indexOfNet;
    std::unordered_map<PartId, int> m_branches;
    int m_nodeCount = 0;
    int m_inputRow = 0;
    std::vector<int> m_diagonalSlots;  ///< Of the nodes.

    std::vector<std::pair<int, double>> m_linearStamps;  ///< Slot and value.
    std::vector<double> m_linearValues;                  ///< Their sums by slot.
    std::vector<double> m_sources;       ///< By row: what the independent sources subtract from the residual.
    std::vector<double> m_linearSlopes;  ///< One a charge slope; NaN where a device evaluates it.
    std::vector<LinearResistance> m_resistances;
    std::vector<ChargeBranch> m_chargeBranches;
    std::vector<ChargeSlope> m_chargeSlopes;
    std::vector<DiodeElement> m_diodes;
    std::vector<BipolarElement> m_bipolars;
    std::vector<OpampElement> m_opamps;
    std::size_t m_memoryCount = 0;
};

}  // namespace ohmwright
