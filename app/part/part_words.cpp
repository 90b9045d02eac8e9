// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/part_words.h"

#include "core/base/value_text.h"

#include <QStringList>

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

QString text(std::string_view utf8) {
    return QString::fromUtf8(utf8.data(), static_cast<qsizetype>(utf8.size()));
}

QString netText(const NetName& net) {
    return net == groundNet ? QString("ground") : text(net);
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
    QString digits = QString::number(value / std::pow(1000.0, place - unity), 'g', 4);
    return digits.replace('-', "−") + QString::fromUtf8(suffixes[static_cast<std::size_t>(place)]);
}

}  // namespace

QString placeText(const Part& part) {
    QStringList words;
    if (!part.boardNote.empty()) {
        words << text(part.boardNote);
    } else if (part.nets.empty()) {
        QStringList coils;
        for (const PartId& coil : part.controls) {
            coils << text(coil);
        }
        words << "joins " + coils.join(" and ");
    } else if (part.nets.size() == 2) {
        words << QString("between %1 and %2").arg(netText(part.nets[0]), netText(part.nets[1]));
    } else {
        QStringList legs;
        for (std::size_t pin = 0; pin < part.nets.size(); ++pin) {
            legs << QString("%1 on %2").arg(text(pinName(part.kind, static_cast<int>(pin))), netText(part.nets[pin]));
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
        note += QString(" ±%1 %").arg(now.tolerance * 100.0, 0, 'g', 3);
    }
    if (now.value == stock.value && stock.measured) {
        note += ", this one " + text(formatQuantity({*stock.measured, unit}));
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
        return "The string's pick level is set in the knob row.";
    }
    if (part.id == circuit.ports.battery) {
        return "The battery is set in the knob row.";
    }
    if (part.id == circuit.ports.load) {
        return "The next box is set in the knob row.";
    }
    return {};
}

}  // namespace ohmwright
