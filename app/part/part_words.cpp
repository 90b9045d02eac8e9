// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/part_words.h"

#include "app/look/said_text.h"
#include "app/look/text.h"
#include "core/base/value_text.h"

#include <QStringList>

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

QString netText(const NetName& net) {
    return net == groundNet ? QObject::tr("ground") : text(net);
}

/// Four significant digits, the very small and the very large with an SI suffix: "2.52n", "416.4".
QString suffixed(double value) {
    static constexpr std::array suffixes = {"f", "p", "n", "µ", "m", "", "k", "M", "G"};
    constexpr int unity = 5;
    const double size = std::abs(value);
    // Ratios and voltages read better without a suffix: 0.737, 416.4.
    const bool isPlain = size == 0.0 || !std::isfinite(size) || (size >= 1e-2 && size < 1e4);
    const int thousands = isPlain ? 0 : static_cast<int>(std::floor(std::log10(size) / 3.0 + 1e-12));
    const int place = std::clamp(thousands + unity, 0, static_cast<int>(suffixes.size()) - 1);
    QString digits = numberText(value / std::pow(1000.0, place - unity), 'g', 4);
    return digits.replace('-', "−") + QString::fromUtf8(suffixes[static_cast<std::size_t>(place)]);
}

}  // namespace

QString roleText(const Part& part) {
    return part.role.empty() ? saidText(kindName(part.kind)) : text(part.role);
}

QString placeText(const Part& part) {
    QStringList words;
    if (!part.boardNote.empty()) {
        words << text(part.boardNote);
    } else if (part.nets.empty()) {
        words << QObject::tr("joins %1").arg(text(saidList({part.controls.begin(), part.controls.end()})));
    } else if (part.nets.size() == 2) {
        words << QObject::tr("between %1 and %2").arg(netText(part.nets[0]), netText(part.nets[1]));
    } else {
        QStringList legs;
        for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
            legs << QObject::tr("%1 on %2")
                        .arg(saidText(pinName(part.kind, static_cast<int>(pin))), netText(part.nets[pin]));
        }
        words << legs.join(", ");
    }
    if (!part.build.empty()) {
        words << text(part.build);
    }
    return words.join("; ");
}

QString valueNote(const Part& stock, const Part& now) {
    const Unit unit = unitOf(now.kind);
    QString note = text(formatQuantity({now.value, unit}));
    if (now.tolerance > 0.0) {
        note += QString(" ±%1 %").arg(numberText(now.tolerance * 100.0, 'g', 3));
    }
    if (now.value == stock.value && stock.measured) {
        note = QObject::tr("%1, this one %2").arg(note, text(formatQuantity({*stock.measured, unit})));
    }
    return note;
}

std::vector<std::pair<QString, QString>> parameterTexts(const Model& model) {
    std::vector<std::pair<QString, QString>> texts;
    for (const auto& [name, value] : model.parameters) {
        texts.emplace_back(text(name), suffixed(value));
    }
    return texts;
}

QString setElsewhere(const Circuit& circuit, const Part& part) {
    if (part.id == circuit.ports.source) {
        return QObject::tr("The string's pick level is set in the knob row.");
    }
    if (part.id == circuit.ports.battery) {
        return QObject::tr("The battery is set in the knob row.");
    }
    if (part.id == circuit.ports.load) {
        return QObject::tr("The next box is set in the knob row.");
    }
    return {};
}

}  // namespace ohmwright
