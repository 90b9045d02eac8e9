// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_faults.h"

#include "core/drawing/outline.h"

#include <QStringList>

#include <algorithm>
#include <optional>

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

/// "R1 1", "Q1 base": the pin at a point.
QString pinWords(const Circuit& circuit, GridPoint point) {
    for (const Part& part : circuit.parts) {
        const int drawn = part.placement ? drawnPinCount(part.kind) : 0;
        for (int pin = 0; pin < drawn; ++pin) {
            if (pinPoint(part, pin) == point) {
                const std::string_view name = pinName(part.kind, pin);
                return QString("%1 %2").arg(QString::fromStdString(part.reference),
                                            QString::fromUtf8(name.data(), static_cast<int>(name.size())));
            }
        }
    }
    return {};
}

DrawFault lacking(const char* sentence) {
    return {Severity::wrong, QString::fromUtf8(sentence), {}, false, false};
}

}  // namespace

std::vector<DrawFault> drawFaults(const MapState& state) {
    const Circuit& circuit = state.job->stock;
    std::vector<Fault> found = circuit.parts.empty() ? std::vector<Fault>() : checkCircuit(circuit);
    if (state.linear && state.isCurrent) {
        const std::vector<Fault> turned = polarityFaults(circuit, state.linear->stock.biasVolts);
        found.insert(found.end(), turned.begin(), turned.end());
    }
    std::stable_sort(found.begin(), found.end(),
                     [](const Fault& a, const Fault& b) { return a.severity > b.severity; });
    std::vector<DrawFault> faults;
    for (const Fault& fault : found) {
        const std::optional<GridPoint> at = placeOf(circuit, fault);
        const bool isOpen = fault.severity == Severity::doubtful && fault.part.empty() && !fault.net.empty();
        faults.push_back(
            {fault.severity, QString::fromStdString(fault.message), at.value_or(GridPoint()), at.has_value(), isOpen});
    }
    if (circuit.ports.source.empty()) {
        faults.push_back(lacking("No signal yet: E takes one; curves need it."));
    }
    if (circuit.ports.output.empty()) {
        faults.push_back(lacking("No output yet: O takes the output jack; curves need it."));
    }
    return faults;
}

std::vector<DrawFaultLine> faultLines(const std::vector<DrawFault>& faults, const Circuit& circuit) {
    constexpr int mostNamed = 8;
    std::vector<DrawFaultLine> lines;
    QStringList open;
    const DrawFault* firstOpen = nullptr;
    for (const DrawFault& fault : faults) {
        if (fault.isOpenPin) {
            open << pinWords(circuit, fault.at);
            firstOpen = firstOpen ? firstOpen : &fault;
        } else {
            lines.push_back({fault.sentence, fault});
        }
    }
    if (firstOpen) {
        const QString more = open.size() > mostNamed ? QString(" and %1 more").arg(open.size() - mostNamed) : QString();
        lines.push_back({QString(open.size() == 1 ? "Open: %1%2." : "Open pins: %1%2.")
                             .arg(open.mid(0, mostNamed).join(", "), more),
                         *firstOpen});
    }
    return lines;
}

}  // namespace ohmwright
