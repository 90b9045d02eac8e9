// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/typed_reading.h"

#include "core/base/value_text.h"

#include <QObject>

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright {

namespace {

struct Prefix {
    double factor;
    const char* letter;
};

/// The largest prefix that keeps the value at 1 or above, as the house writes it.
Prefix prefixOf(double value) {
    constexpr std::array prefixes{Prefix{1e6, "M"},  Prefix{1e3, "k"},  Prefix{1.0, ""},   Prefix{1e-3, "m"},
                                  Prefix{1e-6, "µ"}, Prefix{1e-9, "n"}, Prefix{1e-12, "p"}};
    const auto* found = std::find_if(prefixes.begin(), prefixes.end(),
                                     [&](const Prefix& each) { return std::abs(value) >= each.factor; });
    return found == prefixes.end() ? prefixes.back() : *found;
}

Prefix entryPrefix(const BenchStep& step) {
    const double value = std::abs(step.nominal ? *step.nominal : step.low ? *step.low : step.high ? *step.high : 1.0);
    switch (step.unit) {
        case Unit::ohm:
            return value < 1e3 ? Prefix{1.0, ""} : prefixOf(value);
        case Unit::farad:
        case Unit::henry:
            return prefixOf(value);
        case Unit::ampere:
            return {1e-3, "m"};
        default:
            return {1.0, ""};
    }
}

}  // namespace

QString entryUnit(const BenchStep& step) {
    return QString::fromUtf8(entryPrefix(step).letter) + QString::fromUtf8(unitSymbol(step.unit));
}

Result<double> typedReading(const QString& text, const BenchStep& step) {
    const QString plain = text.trimmed().replace(',', '.').replace(QChar(0x2212), '-');
    bool isNumber = false;
    const double number = plain.toDouble(&isNumber);
    if (isNumber && std::isfinite(number)) {
        return number * entryPrefix(step).factor;
    }
    const bool isMilli = plain.endsWith('m') && (step.unit == Unit::volt || step.unit == Unit::ampere);
    const double shortened = plain.chopped(isMilli ? 1 : 0).toDouble(&isNumber);
    if (isMilli && isNumber && std::isfinite(shortened)) {
        return 1e-3 * shortened;
    }
    if (step.unit == Unit::ohm || step.unit == Unit::farad || step.unit == Unit::henry) {
        if (const Result<Quantity> read = parsePartValue(plain.toStdString(), step.unit)) {
            return read->si;
        }
    }
    const QString sentence =
        QObject::tr("\"%1\" is no reading: type the meter's figure in %2.").arg(text, entryUnit(step));
    return Error{ErrorCode::invalidInput, sentence.toStdString(), {}};
}

}  // namespace ohmwright
