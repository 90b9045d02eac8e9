/// The circuit as numbered equations: what every analysis stamps, evaluates and differentiates.
///
/// Modified nodal analysis. Unknowns are the node voltages [V] (nets, then inner nodes of devices) and the
/// branch currents [A] of voltage-defined parts and inductors, positive into the first pin. Row k of the residual is
/// the sum of currents leaving node k, or a branch's voltage equation. Charges are kept apart from conduction, so that
/// one evaluation serves
///   bias        i(x) = 0                      (charges at rest)
///   response    (G + j w C) x = s             (G = di/dx, C = dq/dx)
///   time steps  i(x) + dq(x)/dt = 0.
/// What depends on the topology alone (numbering, pattern, pivot orders) is made once and shared by all circuits that
/// differ in values only. Immutable once compiled and safe to share between threads; each thread has its own
/// Evaluation.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/result.h"
#include "core/circuit/circuit.h"
#include "core/circuit/setting.h"
#include "core/solve/device_group.h"
#include "core/solve/sparse_lu.h"

#include <array>
#include <limits>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>
#include <vector>

namespace ohmwright {

/// Conductance across every junction [S], as in DEFINITIONS of the demos and common practice.
inline constexpr double junctionGmin = 1e-12;

/// At which moment the sources that move by themselves are read: none, all at their bias.
inline constexpr double atRest = -std::numeric_limits<double>::infinity();

struct EvaluationOptions {
    double drive = 0.0;        ///< Added to the input source [V, or A of a current source].
    double sourceScale = 1.0;  ///< All independent sources times this.
    double nodeGmin = 0.0;     ///< From every node to ground [S].
    Junctions junctions = Junctions::limited;
    double seconds = atRest;  ///< Moment at which sources with a wave of their own are read; the input's is never.
};

/// What an unknown is called, said when an error names it.
struct UnknownName {
    const char* sentence;    ///< "net %1", "the current of %1", "the inner %2 of %1".
    std::string whose;       ///< The net, or the part as it is shown.
    std::string_view place;  ///< Inside the part: "base".
};

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
/// A device's current leaves row `plus` and enters row `minus`.
struct CurrentBranch {
    int plus, minus;
};
/// Its slope by one control.
struct CurrentSlope {
    int current;
    int control;
    std::array<int, 4> slots;
};

/// How a stamp's logarithm follows a part's: stamp ~ value^exponent.
struct Dependence {
    int part;  ///< Index in the circuit's parts.
    double exponent;
};
/// A place in the matrix, the charge slopes or the sources that follows a part's value.
struct ValueStamp {
    enum class Where { conductance, chargeSlope, source };
    Where where;
    int place;     ///< Slot, index of the charge slope, or row of the source vector.
    double value;  ///< d(entry)/d(ln value) at the present value.
};

class Equations {
public:
    /// @param setting  knobs, battery, load and temperature are put in here; a change of them compiles anew. Knobs that
    /// the circuit has not (a mod took the pot out) are passed over.
    /// Errors: as circuit/check.h (values by ValueRule::solver) and checkSetting.
    static Result<Equations> compile(const Circuit& circuit, const Setting& setting);

    /// The same as compile, but takes over numbering, pattern and pivot orders where `like` has the same topology.
    /// Bit for bit what compiling gave when the values are those of before.
    static Result<Equations> compileLike(const Equations& like, const Circuit& circuit, const Setting& setting);

    [[nodiscard]] int size() const { return m_layout->pattern.size(); }
    [[nodiscard]] const SparsePattern& pattern() const { return m_layout->pattern; }

    /// Index of a net's voltage; size() for ground; -1 when the circuit has no such net.
    [[nodiscard]] int indexOfNet(const NetName& net) const;
    [[nodiscard]] const std::vector<NetName>& nets() const { return m_layout->nets; }
    /// Branch current of a voltage-defined part or inductor; -1 when the part has none.
    [[nodiscard]] int branchOf(const PartId& part) const;
    /// "net o1", "the inner base of Q1", "the current of VBAT": for messages.
    [[nodiscard]] std::string unknownName(int index) const;
    [[nodiscard]] bool isNode(int index) const { return m_layout->isNode[std::size_t(index)] != 0; }

    /// Evaluates i(x), di/dx, q(x), dq/dx. `state.controls` carries the last control voltages; empty starts afresh.
    /// @param x  size() + 1 entries, the last is ground and 0.
    void evaluate(const std::vector<double>& x, const EvaluationOptions& options, Evaluation& state) const;

    /// Only the devices' lists (currents, slopes, charges and their slopes, controls); nothing is stamped.
    void evaluateDevices(const double* x, Junctions mode, Evaluation& state) const;
    /// The same with controls read elsewhere in `x`: one entry a control of controls().
    void evaluateDevices(const double* x, const std::vector<Control>& controls, Junctions mode,
                         Evaluation& state) const;
    /// Makes the lists of a state as long as they must be.
    void prepare(Evaluation& state) const;

    [[nodiscard]] const std::vector<ChargeBranch>& chargeBranches() const { return m_layout->chargeBranches; }
    [[nodiscard]] const std::vector<ChargeSlope>& chargeSlopes() const { return m_layout->chargeSlopes; }
    [[nodiscard]] const std::vector<CurrentBranch>& currentBranches() const { return m_layout->currentBranches; }
    [[nodiscard]] const std::vector<CurrentSlope>& currentSlopes() const { return m_layout->currentSlopes; }
    [[nodiscard]] const std::vector<Control>& controls() const { return m_layout->controls; }
    /// Where each device's entries begin in those lists, in their order.
    [[nodiscard]] const std::vector<DevicePlaces>& devicePlaces() const { return m_layout->devices; }
    /// Constant slope of each charge slope [F, H]; NaN where a device evaluates it.
    [[nodiscard]] const std::vector<double>& linearSlopes() const { return m_linearSlopes; }
    /// Constant part of the matrix by slot.
    [[nodiscard]] const std::vector<double>& linearConductances() const { return m_linearValues; }
    /// What the independent sources subtract from the residual at a moment, without the drive; size + 1 entries.
    void sourcesAt(double seconds, std::vector<double>& sources) const;
    /// True when a source other than the input moves by itself.
    [[nodiscard]] bool hasMovingSources() const { return !m_moving.empty(); }
    /// Whether each of them comes back after this time. Errors: invalidInput naming the source that does not.
    [[nodiscard]] Result<void> requirePeriodicSources(double seconds) const;
    /// The time after which all of them have begun [s].
    [[nodiscard]] double longestDelay() const;
    /// Where the first of them turns a corner, at or after one moment and before another [s]: an edge of a pulse, a
    /// sine's beginning.
    [[nodiscard]] std::optional<double> firstCornerIn(double fromSeconds, double toSeconds) const;

    /// Adds factor * dq/dx to a matrix by slot: `factor` is 2/h in time steps, j w in the response.
    template <class Scalar>
    void addCharges(const Evaluation& state, Scalar factor, std::vector<Scalar>& values) const {
        const auto& slopes = m_layout->chargeSlopes;
        for (std::size_t k = 0; k < slopes.size(); ++k) {
            const Scalar value = factor * state.slopes[k];
            const auto& slots = slopes[k].slots;
            values[std::size_t(slots[0])] += value;
            values[std::size_t(slots[1])] -= value;
            values[std::size_t(slots[2])] -= value;
            values[std::size_t(slots[3])] += value;
        }
    }

    /// The drive of the input source is added to row `plus` of the residual and taken from row `minus`; both are size()
    /// when the circuit names no source.
    struct DriveRows {
        int plus, minus;
    };
    [[nodiscard]] DriveRows driveRows() const { return m_layout->drive; }

    /// Current into each terminal of a part [A] at a solved state, in the kind's pin order.
    [[nodiscard]] std::vector<double> terminalCurrents(const Part& part, const std::vector<double>& x) const;
    /// The same where the devices were evaluated at x already, as at a bias: for many parts of one state.
    [[nodiscard]] std::vector<double> terminalCurrents(const Part& part, const std::vector<double>& x,
                                                       const Evaluation& state) const;

    /// The part whose device carries the largest current of all, and that current [A]; -1 in a circuit without devices.
    /// A source by a formula is none: as a computing block it may carry anything.
    struct LargestCurrent {
        int part = -1;
        double amperes = 0.0;
    };
    [[nodiscard]] LargestCurrent largestDeviceCurrent(const Evaluation& state) const;

    /// A part whose law has no value at x, as a logarithm of a negative; null when all have one.
    [[nodiscard]] const PartId* partWithoutValue(const std::vector<double>& x) const;

    /// Every noise current at a solved bias: 4kT/R of resistances, what the laws say of devices, en and in of op-amps.
    [[nodiscard]] std::vector<NoiseSource> noiseSources(const Evaluation& bias) const;

    /// Where each part's value stands: one list a part, in the circuit's order; empty for parts without a value.
    [[nodiscard]] std::vector<std::vector<ValueStamp>> valueStamps() const;
    [[nodiscard]] const std::vector<PartId>& partIds() const { return m_layout->parts; }

    /// Pivot orders found so far, shared between all equations of this topology.
    struct Orders;
    [[nodiscard]] Orders& orders() const { return *m_layout->orders; }

private:
    friend class Assembler;
    Equations() = default;

    struct LinearResistance {
        int part;
        int a, b;
        int pinA, pinB;  ///< -1 where it ends inside.
        bool noisy;
    };
    struct DeviceCurrent {
        int part;
        int pinFrom, pinTo;
    };
    struct FixedCurrent {
        int part;
        int pinFrom, pinTo;
    };
    struct MovingSource {
        std::string name;
        SourceWave wave;
        double rest;
        int rowFrom, rowTo;  ///< As of a current from, to; a voltage's branch row is `rowTo`.
    };
    /// A run of a list.
    struct Run {
        std::size_t begin = 0, end = 0;
        void add(std::size_t place) {
            begin = begin == end ? place : begin;
            end = place + 1;
        }
    };
    /// What of a part decides the topology.
    struct PartShape {
        PartKind kind;
        std::string model;
        std::vector<NetName> nets;
        std::string law;
        std::vector<PartId> controls;
        std::map<std::string, double> parameters;
        double value;
    };
    /// What topology alone decides.
    struct Layout {
        SparsePattern pattern{0};
        std::vector<UnknownName> names;  ///< Of all unknowns.
        std::vector<char> isNode;
        std::vector<NetName> nets;
        std::vector<PartId> parts;
        std::vector<PartShape> shapes;
        PartId source;
        bool hasOpenNets = false;
        std::unordered_map<NetName, int> indexOfNet;
        std::unordered_map<PartId, int> indexOfPart;
        std::vector<std::vector<int>> pins;  ///< Unknowns at the pins of each part.
        std::vector<int> branches;           ///< Branch unknown of each part; -1 for none.
        std::vector<int> diagonalSlots;      ///< Of the nodes.
        std::vector<int> rows, columns;      ///< Of the slots, from 1 on.
        std::vector<int> stampSlots;
        std::vector<Dependence> stampOf;                  ///< Of each stamp; part -1 for structure.
        std::vector<std::pair<int, Dependence>> slopeOf;  ///< Charge slope and what it follows.
        std::vector<LinearResistance> resistances;
        std::vector<ChargeBranch> chargeBranches;
        std::vector<ChargeSlope> chargeSlopes;
        std::vector<Control> controls;
        std::vector<Run> resistancesOf, currentsOf;  ///< Of each part, in the lists of resistances and currents.
        std::vector<CurrentBranch> currentBranches;
        std::vector<CurrentSlope> currentSlopes;
        std::vector<DevicePlaces> devices;
        std::vector<DeviceCurrent> deviceCurrents;
        std::vector<FixedCurrent> fixedCurrents;
        DriveRows drive{0, 0};
        std::shared_ptr<Orders> orders;
    };

    std::shared_ptr<const Layout> m_layout;
    std::shared_ptr<const std::vector<std::unique_ptr<DeviceGroup>>> m_groups;
    std::vector<Model> m_models;  ///< That the groups were made from.
    std::vector<double> m_restControls;
    double m_kelvin = nominalKelvin;

    struct SourceStamp {
        int part;
        int row;
        double value;
    };
    struct Transconductance {
        int part;
        int controlPlus, controlMinus;
        double siemens;  ///< Or the ratio to a branch current.
    };
    struct InputHiss {
        int part;
        int node;
        NoiseDensity density;
    };

    std::vector<double> m_stampValues;
    std::vector<double> m_linearValues;   ///< Their sums by slot.
    std::vector<double> m_resistances;    ///< [S], one a LinearResistance.
    std::vector<double> m_sources;        ///< By row: what the independent sources subtract from the residual at rest.
    std::vector<double> m_deviceSources;  ///< The devices' share of it.
    std::vector<double> m_fixedCurrents;
    std::vector<double> m_linearSlopes;  ///< One a charge slope; NaN where a device evaluates it.
    std::vector<SourceStamp> m_sourceStamps;
    std::vector<Transconductance> m_transconductances;
    std::vector<MovingSource> m_moving;
    std::vector<InputHiss> m_inputHiss;  ///< Noise currents of op-amp inputs.
    std::size_t m_linearStampCount = 0, m_linearResistanceCount = 0, m_linearSlopeCount = 0;  ///< Before the devices'.
};

}  // namespace ohmwright
