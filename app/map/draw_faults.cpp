// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_faults.h"

#include "app/look/said_text.h"
#include "core/drawing/outline.h"

#include <algorithm>
#include <optional>
#include <string_view>

namespace ohmwright {
namespace {

std::optional<GridPoint> placeOf(const Circuit& circuit, const Fault& fault) {
    for (const Part& part : circuit.parts) {
        const int drawn = part.placement ? drawnPinCount(part.kind) : 0;
        for (int pin = 0; pin < drawn; ++pin) {
            const bool isNet = !fault.net.empty() && part.nets[static_cast<std::size_t>(pin)] == fault.net;
            const bool isPart = !fault.part.empty() && part.id == fault.part;
            if (isPart ? (fault.net.empty() || isNet) : (fault.part.empty() && isNet)) {
                return pinPoint(part, pin);
            }
        }
    }
    for (const Flag& flag : circuit.drawing.flags) {
        if (!fault.net.empty() && flag.net == fault.net) {
            return flag.at;
        }
    }
    return std::nullopt;
}

/// "R1 1", "Q1 base", "U1 plus supply": the first pin on a net, drawn or not; else the net's name.
QString pinOn(const Circuit& circuit, const NetName& net) {
    for (const Part& part : circuit.parts) {
        for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
            if (part.nets[pin] == net) {
                return DrawFaultWords::tr("%1 %2").arg(QString::fromStdString(part.reference),
                                                       saidText(pinName(part.kind, static_cast<int>(pin))));
            }
        }
    }
    return DrawFaultWords::tr("net %1").arg(QString::fromStdString(net));
}

bool needsSupply(PartKind kind) {
    switch (kind) {
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::mosfet:
        case PartKind::opamp:
        case PartKind::triode:
        case PartKind::pentode:
            return true;
        default:
            return false;
    }
}

DrawFault withPlace(const Circuit& circuit, const Fault& fault) {
    DrawFault drawn;
    drawn.severity = fault.severity;
    drawn.sentence = QString::fromStdString(fault.message);
    drawn.part = fault.part;
    drawn.isOpenPin = fault.severity == Severity::doubtful && fault.part.empty() && !fault.net.empty();
    drawn.pin = drawn.isOpenPin ? pinOn(circuit, fault.net) : QString();
    const std::optional<GridPoint> at = placeOf(circuit, fault);
    drawn.at = at.value_or(GridPoint());
    drawn.hasPlace = at.has_value();
    return drawn;
}

void addLacks(const Circuit& circuit, std::vector<DrawFault>& faults) {
    for (const QString& sentence : lacksOf(circuit)) {
        DrawFault lack;
        lack.severity = Severity::doubtful;
        lack.sentence = sentence;
        faults.push_back(lack);
    }
}

void addUndrawn(const Circuit& circuit, std::vector<DrawFault>& faults) {
    for (const Part& part : circuit.parts) {
        if (!part.placement) {
            DrawFault undrawn;
            undrawn.severity = Severity::doubtful;
            undrawn.sentence = DrawFaultWords::tr("%1 has no place on the drawing: Tidy gives it one.")
                                   .arg(QString::fromStdString(part.reference));
            undrawn.part = part.id;
            faults.push_back(undrawn);
        }
    }
}

/// Why there is no answer, unless it is said already.
void addUnsolved(const MapState& state, std::vector<DrawFault>& faults) {
    const bool isSaid = std::any_of(faults.begin(), faults.end(), [&state](const DrawFault& fault) {
        return fault.severity == Severity::wrong || fault.sentence == state.fault;
    });
    if (state.fault.isEmpty() || isSaid) {
        return;
    }
    Fault unsolved;
    unsolved.message = state.fault.toStdString();
    if (const Part* part = findPartByReference(state.job->stock, state.faultPlace.toStdString())) {
        unsolved.part = part->id;
    } else {
        unsolved.net = state.faultPlace.toStdString();
    }
    faults.insert(faults.begin(), withPlace(state.job->stock, unsolved));
}

}  // namespace

QStringList lacksOf(const Circuit& circuit) {
    QStringList lacks;
    if (circuit.ports.source.empty()) {
        lacks << DrawFaultWords::tr("A signal source: S takes one.");
    }
    if (circuit.ports.output.empty()) {
        lacks << DrawFaultWords::tr("An output: O takes the output jack.");
    }
    const auto isJoined = [&circuit](std::string_view net) {
        return std::any_of(circuit.parts.begin(), circuit.parts.end(), [net](const Part& part) {
            return std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
        });
    };
    if (!circuit.ports.output.empty() && !isJoined(circuit.ports.output)) {
        lacks << DrawFaultWords::tr("A wire to the output jack: Space begins one.");
    }
    if (!isJoined(groundNet)) {
        lacks << DrawFaultWords::tr("A ground: E takes its sign.");
    }
    const bool isActive = std::any_of(circuit.parts.begin(), circuit.parts.end(),
                                      [](const Part& part) { return needsSupply(part.kind); });
    const bool isSupplied = std::any_of(circuit.parts.begin(), circuit.parts.end(), [](const Part& part) {
        return part.kind == PartKind::voltageSource && part.acAmplitude == 0.0;
    });
    if (isActive && !isSupplied) {
        lacks << DrawFaultWords::tr("A supply: B takes a battery.");
    }
    return lacks;
}

std::vector<DrawFault> drawFaults(const MapState& state) {
    const Circuit& circuit = state.job->stock;
    std::vector<DrawFault> faults;
    addLacks(circuit, faults);
    const bool isBegun = !faults.empty();
    std::vector<Fault> found = circuit.parts.empty() ? std::vector<Fault>() : checkCircuit(circuit);
    if (state.linear && state.isCurrent) {
        const std::vector<Fault> turned = polarityFaults(circuit, state.linear->stock.biasVolts);
        found.insert(found.end(), turned.begin(), turned.end());
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Fault& a, const Fault& b) { return a.severity > b.severity; });
    addUndrawn(circuit, faults);
    for (const Fault& fault : found) {
        const DrawFault drawn = withPlace(circuit, fault);
        // Half a circuit has loose ends everywhere: its open pins say enough.
        if (!isBegun || drawn.isOpenPin) {
            faults.push_back(drawn);
        }
    }
    if (!isBegun) {
        addUnsolved(state, faults);
    }
    return faults;
}

std::vector<DrawFaultLine> faultLines(const std::vector<DrawFault>& faults) {
    constexpr int mostNamed = 8;
    std::vector<DrawFaultLine> lines;
    QStringList open;
    const DrawFault* firstOpen = nullptr;
    for (const DrawFault& fault : faults) {
        if (fault.isOpenPin) {
            open << fault.pin;
            firstOpen = firstOpen ? firstOpen : &fault;
        } else {
            lines.push_back({fault.sentence, fault});
        }
    }
    if (firstOpen) {
        const QString named = open.mid(0, mostNamed).join(", ");
        const auto more = static_cast<int>(open.size()) - mostNamed;
        lines.push_back({more > 0          ? DrawFaultWords::tr("Open pins: %1 and %2 more.").arg(named).arg(more)
                         : open.size() > 1 ? DrawFaultWords::tr("Open pins: %1.").arg(named)
                                           : DrawFaultWords::tr("Open pin: %1.").arg(named),
                         *firstOpen});
    }
    return lines;
}

}  // namespace ohmwright
