// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/clip_node.h"

#include "core/base/said.h"

#include <QObject>

#include <algorithm>

namespace ohmwright {

namespace {

bool isActive(PartKind kind) {
    return kind == PartKind::opamp || kind == PartKind::bipolar || kind == PartKind::jfet || kind == PartKind::mosfet ||
           kind == PartKind::triode || kind == PartKind::pentode;
}

}  // namespace

QString clipNodeWords(const Circuit& circuit) {
    for (const Part& part : circuit.parts) {
        const auto pin = std::find(part.nets.begin(), part.nets.end(), circuit.ports.clipNode);
        if (!isActive(part.kind) || pin == part.nets.end()) {
            continue;
        }
        const auto index = static_cast<std::size_t>(pin - part.nets.begin());
        const std::string name = index < part.pins.size() && !part.pins[index].empty()
                                     ? said("pin %1", part.pins[index])
                                     : said(pinName(part.kind, static_cast<int>(index)));
        return QString::fromStdString(part.reference + " " + name);
    }
    return QObject::tr("net %1").arg(QString::fromStdString(circuit.ports.clipNode));
}

}  // namespace ohmwright
