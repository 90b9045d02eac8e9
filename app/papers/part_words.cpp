// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/part_words.h"

#include "app/papers/sheet_text.h"
#include "core/base/colour_bands.h"
#include "core/base/value_text.h"
#include "core/circuit/net_groups.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace ohmwright {

namespace {

/// Meters on the bench beep under some tens of ohms; well above that they are silent. Common practice, no source.
constexpr double silentFromOhms = 100.0;

bool isSource(const Part& part) {
    return part.kind == PartKind::voltageSource || part.kind == PartKind::currentSource;
}

/// "U1A" is a half of the chip U1.
QString chipName(const Part& part) {
    QString name = paperText(part.reference);
    if (name.size() > 2 && name.back().isLetter() && name.at(name.size() - 2).isDigit()) {
        name.chop(1);
    }
    return name;
}

/// Smaller is easier to find on a board.
/// Whether its pins have names of their own that are known on a bench.
bool isAmplifying(PartKind kind) {
    return kind == PartKind::bipolar || kind == PartKind::jfet || kind == PartKind::mosfet ||
           kind == PartKind::triode || kind == PartKind::pentode;
}

int landmarkOrder(PartKind kind) {
    switch (kind) {
        case PartKind::opamp:
            return 0;
        case PartKind::bipolar:
        case PartKind::jfet:
        case PartKind::mosfet:
        case PartKind::triode:
        case PartKind::pentode:
            return 1;
        case PartKind::potentiometer:
            return 2;
        case PartKind::diode:
            return 3;
        case PartKind::resistor:
            return 4;
        default:
            return 5;
    }
}

QString netOfItsOwn(const Circuit& circuit, const NetName& net) {
    if (net == groundNet) {
        return "ground (jack sleeve)";
    }
    if (!circuit.ports.jack.empty() && net == circuit.ports.jack) {
        return "input jack tip";
    }
    if (!circuit.ports.output.empty() && net == circuit.ports.output) {
        return "output jack tip";
    }
    return {};
}

/// Whether a net has only parts that look like many others: two of them tell more than one.
bool isPlain(const Circuit& circuit, const NetName& net, const PartId& apart) {
    if (!netOfItsOwn(circuit, net).isEmpty()) {
        return false;
    }
    return std::none_of(circuit.parts.begin(), circuit.parts.end(), [&](const Part& part) {
        const bool stands = part.kind == PartKind::opamp || isAmplifying(part.kind);
        return stands && part.id != apart && std::find(part.nets.begin(), part.nets.end(), net) != part.nets.end();
    });
}

bool conductsDirectly(const Part& part) {
    switch (part.kind) {
        case PartKind::link:
        case PartKind::inductor:
        case PartKind::potentiometer:
            return true;
        case PartKind::resistor:
            return part.value < silentFromOhms;
        default:
            return false;
    }
}

}  // namespace

QString printedMarking(const Part& part) {
    if (!part.printed.empty()) {
        return paperText(part.printed);
    }
    if (part.kind == PartKind::capacitor) {
        return QString::fromStdString(capacitorCode(part.value));
    }
    if (part.kind != PartKind::resistor) {
        return {};
    }
    // Where no tolerance is known, its band is left out: only the value's bands are certain.
    constexpr double anyTolerance = 0.05;
    const bool isKnown = part.tolerance > 0.0;
    const auto bands = colourBandsOf(part.value, isKnown ? part.tolerance : anyTolerance);
    if (!bands) {
        return {};
    }
    QStringList words;
    for (const std::string& band : *bands) {
        words.append(QString::fromStdString(band));
    }
    if (!isKnown) {
        words.removeLast();
    }
    return words.join('-');
}

QString valueWords(const Part& part) {
    if (hasValue(part.kind)) {
        return QString::fromStdString(formatPartValue({part.value, unitOf(part.kind)}));
    }
    return paperText(part.model.empty() ? std::string(kindName(part.kind)) : part.model);
}

QString pinWords(const Part& part, int pin) {
    const auto index = static_cast<std::size_t>(pin);
    const QString printed = index < part.pins.size() ? paperText(part.pins[index]) : QString();
    const QString name =
        QString::fromUtf8(pinName(part.kind, pin).data(), static_cast<qsizetype>(pinName(part.kind, pin).size()));
    if (part.kind == PartKind::opamp) {
        return chipName(part) + (printed.isEmpty() ? " " + name : " pin " + printed);
    }
    if (part.kind == PartKind::diode) {
        return (pin == 1 ? "band leg of " : "plain leg of ") + paperText(part.reference);
    }
    if (isAmplifying(part.kind) || part.kind == PartKind::potentiometer) {
        return paperText(part.reference) + " " + name;
    }
    return "one leg of " + paperText(displayName(part));
}

QStringList landmarks(const Circuit& circuit, const NetName& net, const PartId& apart, int most) {
    QStringList words;
    if (const QString own = netOfItsOwn(circuit, net); !own.isEmpty()) {
        words.append(own);
    }
    std::vector<std::pair<int, QString>> found;
    for (const Part& part : circuit.parts) {
        if (part.id == apart || isSource(part) || part.id == circuit.ports.load) {
            continue;
        }
        for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
            if (part.nets[pin] == net) {
                found.emplace_back(landmarkOrder(part.kind), pinWords(part, static_cast<int>(pin)));
                break;
            }
        }
    }
    std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (const auto& [order, text] : found) {
        words.append(text);
    }
    return words.mid(0, most);
}

QString joinsWords(const Circuit& circuit, const NetName& net, const PartId& apart) {
    const QStringList words = landmarks(circuit, net, apart, 2);
    if (words.isEmpty()) {
        return "no other part";
    }
    // A jack, a chip's pin or a transistor's leg is found without a second landmark.
    return isPlain(circuit, net, apart) ? words.join(" and ") : words.first();
}

bool staysSilent(const Circuit& circuit, const NetName& a, const NetName& b) {
    NetGroups beeping;
    for (const Part& part : circuit.parts) {
        if (!conductsDirectly(part)) {
            continue;
        }
        for (std::size_t pin = 1; pin < part.nets.size(); ++pin) {
            beeping.join(part.nets[0], part.nets[pin]);
        }
    }
    return !beeping.joined(a, b);
}

}  // namespace ohmwright
