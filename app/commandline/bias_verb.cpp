// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/commandline/verbs.h"

#include <string>
#include <unordered_map>
#include <vector>

namespace ohmwright {

namespace {

/// The calls at the top of a netlist as parts: into each pin flows what flows into all that stands on it inside.
class CallCurrents {
public:
    explicit CallCurrents(const std::vector<SubcircuitCall>& calls) : m_calls(calls) {
        for (std::size_t call = 0; call < calls.size(); ++call) {
            m_amperes.emplace_back(calls[call].nets.size(), 0.0);
            for (const CallTerminal& terminal : calls[call].terminals)
                m_places.emplace(terminal.part, Place{call, terminal.terminal, terminal.pin});
        }
    }

    /// Whether a part is inside one of them, rather than at the top itself.
    [[nodiscard]] bool contain(const Part& part) const { return !m_calls.empty() && !part.call.empty(); }

    void add(std::size_t part, const std::vector<double>& amperes) {
        const auto [begin, end] = m_places.equal_range(part);
        for (auto place = begin; place != end; ++place)
            if (place->second.terminal < amperes.size())
                m_amperes[place->second.call][place->second.pin] += amperes[place->second.terminal];
    }

    void appendRows(Table& table) const {
        for (std::size_t call = 0; call < m_calls.size(); ++call)
            for (std::size_t pin = 0; pin < m_amperes[call].size(); ++pin) {
                const bool isNamed = pin < m_calls[call].pins.size();
                table.rows.push_back({m_calls[call].name, isNamed ? m_calls[call].pins[pin] : std::to_string(pin + 1),
                                      m_amperes[call][pin]});
            }
    }

private:
    struct Place {
        std::size_t call, terminal, pin;
    };
    const std::vector<SubcircuitCall>& m_calls;
    std::unordered_multimap<std::size_t, Place> m_places;  ///< By part.
    std::vector<std::vector<double>> m_amperes;            ///< By call and pin.
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
        if (calls.contain(part)) {
            calls.add(k, amperes);
            continue;
        }
        for (std::size_t pin = 0; pin < amperes.size(); ++pin)
            currents.rows.push_back({names[k], std::string(pinName(part.kind, static_cast<int>(pin))), amperes[pin]});
        if (stop.stop_requested())
            return Error{ErrorCode::cancelled, "The currents were stopped before their end.", {}};
    }
    calls.appendRows(currents);
    answer.tables.push_back(std::move(currents));
    return answer;
}

}  // namespace ohmwright
