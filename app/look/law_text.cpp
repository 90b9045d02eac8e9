// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/law_text.h"

#include "app/look/said_text.h"
#include "app/look/text.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"

#include <QStringList>

namespace ohmwright {

namespace {

/// "2 V/V", "1 mA/V": what comes out for one of what goes in.
QString gainText(const Part& part, Unit out, const char* in) {
    return text(formatPartValue({part.value, out})) + "/" + in;
}

QString couplingText(const Part& part) {
    return QString("k %1, %2")
        .arg(numberText(part.value, 'g', 4), text(saidList({part.controls.begin(), part.controls.end()})));
}

QString sourceText(const Part& part) {
    QString steady = text(formatPartValue({part.value, unitOf(part.kind)}));
    if (!part.wave) {
        return steady;
    }
    return part.wave->shape == SourceWave::Shape::pulse
               ? QObject::tr("%1, pulse").arg(steady)
               : QObject::tr("%1, sine %2").arg(steady, text(formatFrequency(part.wave->hertz)));
}

}  // namespace

QString lawText(const Part& part) {
    switch (part.kind) {
        case PartKind::voltageSource:
        case PartKind::currentSource:
            return sourceText(part);
        case PartKind::voltageControlledVoltage:
            return gainText(part, Unit::volt, "V");
        case PartKind::voltageControlledCurrent:
            return gainText(part, Unit::ampere, "V");
        case PartKind::currentControlledCurrent:
            return gainText(part, Unit::ampere, "A");
        case PartKind::currentControlledVoltage:
            return gainText(part, Unit::volt, "A");
        case PartKind::behaviouralVoltage:
            return "V = " + text(part.law);
        case PartKind::behaviouralCurrent:
            return "I = " + text(part.law);
        case PartKind::coupling:
            return couplingText(part);
        case PartKind::switchContact:
            return part.value != 0.0 ? QObject::tr("closed") : QObject::tr("open");
        default:
            return {};
    }
}

}  // namespace ohmwright
