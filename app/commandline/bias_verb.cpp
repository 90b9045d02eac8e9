// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"

#include <map>
#include <unordered_map>

namespace ohmwright {

namespace {

/// The calls at the top of a netlist as parts: into each pin flows what flows into all that it dissolved into, from the
/// pin's net.
class CallCurrents {
public:
    explicit CallCurrents(const std::vector<SubcircuitCall>& calls) : m_calls(calls), m_amperes(calls.size()) {
        for (std::size_t k = 0; k < calls.size(); ++k) m_places.emplace(calls[k].name, k);
    }

    /// The call at the top that a part came from; npos when it is a part of the top itself.
    [[nodiscard]] std::size_t callOf(const Part& part) const {
        // The longest name first: a call may be named "X1.a" beside one named "X1".
        for (std::size_t end = part.call.size(); end != std::string::npos && end > 0;
             end = part.call.rfind('.', end - 1)) {
            const auto place = m_places.find(part.call.substr(0, end));
            if (place != m_places.end()) return place->second;
        }
        return npos;
    }

    void add(std::size_t call, const Part& part, const std::vector<double>& amperes) {
        for (std::size_t pin = 0; pin < amperes.size(); ++pin) m_amperes[call][part.nets[pin]] += amperes[pin];
    }

    /// Where two pins share a net the current stands at the first of them and the other's cell is empty.
    void appendRows(Table& table, bool& sharesNets) const {
        for (std::size_t k = 0; k < m_calls.size(); ++k) appendRows(k, table, sharesNets);
    }

    static constexpr std::size_t npos = static_cast<std::size_t>(-1);

private:
    void appendRows(std::size_t k, Table& table, bool& sharesNets) const {
        const SubcircuitCall& call = m_calls[k];
        std::map<NetName, double> left = m_amperes[k];
        for (const NetName& net : call.nets) left.try_emplace(net, 0.0);
        for (std::size_t pin = 0; pin < call.nets.size(); ++pin) {
            const auto found = left.find(call.nets[pin]);
            Cell current;
            if (found != left.end()) {
                current = found->second;
                left.erase(found);
            }
            sharesNets = sharesNets || std::holds_alternative<std::monostate>(current);
            const std::string terminal = pin < call.pins.size() ? call.pins[pin] : std::to_string(pin + 1);
            table.rows.push_back({call.name, terminal, current});
        }
    }

    const std::vector<SubcircuitCall>& m_calls;
    std::unordered_map<std::string, std::size_t> m_places;
    std::vector<std::map<NetName, double>> m_amperes;
};

Table voltagesOf(const PreparedCircuit& prepared, const SolvedCircuit& solved) {
    Table table{{"node", "voltage_v"}, {}};
    for (const NetName& net : prepared.nets)
        if (solved.equations->indexOfNet(net) >= 0) table.rows.push_back({net, solved.biasVolts(net)});
    return table;
}

}  // namespace

Result<Answer> answerBias(const PreparedCircuit& prepared, const Request&, const std::stop_token& stop) {
    const Result<SolvedCircuit> solved = solveAtRest(prepared, stop);
    if (!solved) return solved.error();
    Answer answer;
    answer.tables.push_back(voltagesOf(prepared, *solved));
    Table currents{{"part", "terminal", "current_a"}, {}};
    CallCurrents calls(prepared.calls);
    const std::vector<std::string> names = uniqueNames(prepared.circuit);
    for (std::size_t k = 0; k < names.size(); ++k) {
        const Part& part = prepared.circuit.parts[k];
        const std::vector<double> amperes =
            solved->equations->terminalCurrents(part, solved->bias->x, solved->bias->state);
        if (const std::size_t call = calls.callOf(part); call != CallCurrents::npos) {
            calls.add(call, part, amperes);
            continue;
        }
        for (std::size_t pin = 0; pin < amperes.size(); ++pin)
            currents.rows.push_back({names[k], std::string(pinName(part.kind, static_cast<int>(pin))), amperes[pin]});
        if (stop.stop_requested())
            return Error{ErrorCode::cancelled, "The currents were stopped before their end.", {}};
    }
    bool sharesNets = false;
    calls.appendRows(currents, sharesNets);
    if (sharesNets)
        answer.notes.emplace_back(
            "Two pins of one subcircuit call are on the same net: their current together stands at the first of them.");
    answer.tables.push_back(std::move(currents));
    return answer;
}

}  // namespace ohmwright
