// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/value_drag.h"

#include "app/document/job_document.h"
#include "app/document/shop_document.h"
#include "app/part/part_words.h"
#include "core/base/value_text.h"
#include "core/parts/snap.h"
#include "core/plan/apply.h"
#include "core/plan/edits.h"
#include "core/plan/pick_list.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {

namespace {

/// A hundred times more or less is another circuit: such a value is typed.
constexpr double farthest = 2.0;

bool isDragged(PartKind kind) {
    return kind == PartKind::resistor || kind == PartKind::capacitor || kind == PartKind::inductor ||
           kind == PartKind::potentiometer;
}

double threeDigits(double value) {
    const double unit = std::pow(10.0, std::floor(std::log10(value)) - 2.0);
    return std::round(value / unit) * unit;
}

QString valueWords(const Part& part, double value) {
    return QString::fromStdString(formatPartValue({value, unitOf(part.kind)}));
}

}  // namespace

ValueDrag::ValueDrag(JobDocument& document, ShopDocument& shop, QObject* parent)
    : QObject(parent), m_document(document), m_shop(shop) {
    connect(&document, &JobDocument::jobChanged, this, [this](JobAspect aspect) {
        if (aspect == JobAspect::everything) {
            m_drag.reset();
        }
    });
}

void ValueDrag::begin(const PartId& id) {
    m_drag.reset();
    const std::shared_ptr<const Job> job = m_document.job();
    const Result<Circuit> now = nowCircuit(*job);
    const Part* part = now ? findPart(*now, id) : nullptr;
    if (part && isDragged(part->kind) && part->value > 0.0 && setElsewhere(job->stock, *part).isEmpty()) {
        m_drag = Drag{*part, part->value, part->value, job,
                      tr("%1, drag %2").arg(QString::fromStdString(id)).arg(++m_count)};
    }
}

void ValueDrag::to(double decades) {
    if (m_drag) {
        change(threeDigits(m_drag->from * std::pow(10.0, std::clamp(decades, -farthest, farthest))));
        emit moved(valueWords(m_drag->part, m_drag->value));
    }
}

void ValueDrag::drop(bool isFree) {
    if (!m_drag) {
        return;
    }
    const QString reference = QString::fromStdString(m_drag->part.reference);
    const double left = m_drag->value;
    if (isFree || left == m_drag->from) {
        emit ended(tr("%1 is %2").arg(reference, valueWords(m_drag->part, left)));
        m_drag.reset();
        return;
    }
    const Drawer& drawer = m_shop.onHand();
    const SnappedValue snapped = snapToPart(drawer, m_drag->part.kind, left, reservationName(*m_document.job()));
    change(snapped.value);
    const std::string sentence = snapSentence(m_drag->part.kind, left, snapped, !drawer.lots.empty());
    m_drag.reset();
    emit ended(QString("%1 %2").arg(reference, QString::fromStdString(sentence)));
}

void ValueDrag::cancel() {
    if (!m_drag) {
        return;
    }
    const Drag drag = *std::exchange(m_drag, std::nullopt);
    const QString words =
        tr("%1 is back at %2").arg(QString::fromStdString(drag.part.reference), valueWords(drag.part, drag.from));
    m_document.edit(*drag.before, words, JobAspect::electrical, MergeKind::value, drag.mergeKey);
    emit ended(words);
}

void ValueDrag::change(double value) {
    if (value == m_drag->value) {
        return;
    }
    const QString words =
        tr("Change %1 to %2").arg(QString::fromStdString(m_drag->part.reference), valueWords(m_drag->part, value));
    if (m_document.edit(setPartValue(*m_document.job(), m_drag->part.id, value), words, JobAspect::electrical,
                        MergeKind::value, m_drag->mergeKey)) {
        m_drag->value = value;
    }
}

}  // namespace ohmwright
