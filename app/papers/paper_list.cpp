// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/paper_list.h"

#include "app/look/said_text.h"
#include "app/look/sign_text.h"
#include "app/look/theme.h"
#include "app/papers/paper_frame.h"

#include <QPainter>

#include <QVBoxLayout>
#include <algorithm>

namespace ohmwright {

namespace {

constexpr int margin = 14;
constexpr int lead = 8;  ///< Above the first line and below the last.

QString purposeOf(PaperKind kind) {
    switch (kind) {
        case PaperKind::bench:
            return QObject::tr("the work, step by step, and its proof");
        case PaperKind::wayBack:
            return QObject::tr("back to stock, with stock's readings");
        case PaperKind::customer:
            return QObject::tr("what was asked, done and changed");
        case PaperKind::label:
            return QObject::tr("for inside the lid");
        case PaperKind::quote:
            return QObject::tr("work, parts, consent");
    }
    return {};
}

int lineHeight(TextRole role, bool bold) {
    return QFontMetrics(Theme::current().font(role, bold)).height() + 2;
}

}  // namespace

PaperRow::PaperRow(PaperKind kind, QWidget* parent) : QAbstractButton(parent), m_purpose(purposeOf(kind)) {
    setText(saidText(paperName(kind)));
    setCheckable(true);
    setAutoExclusive(true);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(text());
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setProperty("focusOutline", true);
    connect(&Theme::current(), &Theme::changed, this, [this] { updateGeometry(); });
}

void PaperRow::setState(const QString& words, bool isVoid) {
    m_state = words;
    m_isVoid = isVoid;
    setAccessibleDescription(m_purpose + "; " + words);
    update();
}

QSize PaperRow::sizeHint() const {
    const QFontMetrics small(Theme::current().font(TextRole::caption));
    return {std::max(space::leftRail, small.horizontalAdvance(m_purpose) + 2 * margin + 1),
            2 * lead + lineHeight(TextRole::body, true) + 2 * lineHeight(TextRole::caption, false)};
}

void PaperRow::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const ThemeColours& colours = Theme::current().colours();
    painter.fillRect(rect(), isChecked() || underMouse() ? colours.raised : colours.panel);
    if (isChecked()) {
        painter.fillRect(QRectF(0.0, 0.0, line::zoneMark, height()), colours.ink);
    }
    const auto put = [&](int y, TextRole role, bool bold, const QColor& colour, const QString& words, int indent) {
        const QFont font = Theme::current().font(role, bold);
        const QRect box(margin + indent, y, width() - 2 * margin - indent, lineHeight(role, bold));
        painter.setFont(font);
        painter.setPen(colour);
        painter.drawText(box, Qt::AlignLeft | Qt::AlignVCenter, words);
        return y + box.height();
    };
    int y = put(lead, TextRole::body, true, colours.ink, text(), 0);
    y = put(y, TextRole::caption, false, colours.ink2, m_purpose, 0);
    const int signWidth = m_isVoid ? 18 : 0;
    if (m_isVoid) {
        const int height = lineHeight(TextRole::caption, false);
        paintSign(painter, QRectF(margin, y + (height - 14) / 2.0, 14.0, 14.0), SignKind::care);
    }
    put(y, TextRole::caption, m_isVoid, m_isVoid ? colours.ink : colours.ink3, m_state, signWidth);
    painter.setPen(QPen(colours.hair, line::hair));
    painter.drawLine(rect().bottomLeft(), rect().bottomRight());
}

PaperList::PaperList(QWidget* parent) : QWidget(parent) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    for (const PaperKind kind : allPaperKinds) {
        auto* row = new PaperRow(kind, this);
        m_rows[kind] = row;
        layout->addWidget(row);
        connect(row, &QAbstractButton::toggled, this, [this, kind](bool isChecked) {
            if (isChecked && m_chosen != kind) {
                m_chosen = kind;
                emit paperChosen(kind);
            }
        });
    }
    m_rows.at(m_chosen)->setChecked(true);
}

void PaperList::setChosen(PaperKind kind) {
    m_rows.at(kind)->setChecked(true);
}

void PaperList::follow(const Job& job) {
    for (const auto& [kind, row] : m_rows) {
        const PrintedPaper* last = lastPaper(job.visit, kind);
        if (last == nullptr) {
            row->setState(tr("not printed yet"), false);
        } else if (isVoid(job, *last)) {
            row->setState(tr("void: printed from an earlier plan"), true);
        } else {
            row->setState(tr("current, %1").arg(paperTime(last->when)), false);
        }
    }
}

}  // namespace ohmwright
