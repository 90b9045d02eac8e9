// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/mod_spine.h"

#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/look/painters.h"
#include "app/look/theme.h"
#include "core/base/number_text.h"
#include "core/plan/edits.h"

#include <QHelpEvent>
#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>

#include <algorithm>

namespace ohmwright {

namespace {

constexpr int spineWidth = 64;
constexpr int unfoldedWidth = 28;
constexpr int unfoldHeight = 56;
constexpr int modHeight = 58;

/// Follows the text size.
int sized(int pixels) {
    return qRound(pixels * Theme::current().textScale());
}

QString decibelWords(double db) {
    return QString::fromStdString(formatFixed(db, 2, Sign::always));
}

}  // namespace

ModSpine::ModSpine(JobDocument& document, SolverService& solver, QWidget* parent)
    : QWidget(parent), m_document(document), m_solver(solver) {
    setFixedWidth(sized(spineWidth));
    setFocusPolicy(Qt::StrongFocus);
    setProperty("focusOutline", true);
    connect(&document, &JobDocument::jobChanged, this, [this] { describe(); });
    connect(&solver, &SolverService::largeSignalReady, this, [this] { describe(); });
    connect(&Theme::current(), &Theme::changed, this, [this] { setUnfolded(m_isUnfolded); });
    describe();
}

QRect ModSpine::modBox(int index) const {
    return {4, sized(unfoldHeight + 20 + index * (modHeight + 2)), sized(spineWidth) - 8, sized(modHeight)};
}

QString ModSpine::figureOf(int index) const {
    const auto answer = m_solver.largeSignal();
    const auto place = static_cast<std::size_t>(index);
    if (!answer || place >= answer->modAloneDb.size() || !answer->modAloneDb[place]) {
        return {};
    }
    return decibelWords(*answer->modAloneDb[place]);
}

void ModSpine::describe() {
    QStringList words;
    const auto job = m_document.job();
    for (std::size_t i = 0; i < job->plan.size(); ++i) {
        const Mod& mod = job->plan[i];
        words.append((mod.on ? tr("%1 %2, on, alone %3 dB") : tr("%1 %2, off, alone %3 dB"))
                         .arg(QString::fromStdString(mod.letter), QString::fromStdString(mod.name),
                              figureOf(static_cast<int>(i))));
    }
    m_current = std::clamp(m_current, 0, std::max(0, static_cast<int>(job->plan.size()) - 1));
    setAccessibleName(tr("Mods"));
    setAccessibleDescription(words.join("; "));
    update();
}

void ModSpine::switchMod(int index) {
    const auto job = m_document.job();
    if (m_isUnfolded || index < 0 || index >= static_cast<int>(job->plan.size())) {
        return;
    }
    m_current = index;
    const Mod& mod = job->plan[static_cast<std::size_t>(index)];
    m_document.edit(
        setModOn(*job, mod.id, !mod.on),
        (mod.on ? tr("Switch mod %1 off") : tr("Switch mod %1 on")).arg(QString::fromStdString(mod.letter)));
}

void ModSpine::setUnfolded(bool unfolded) {
    m_isUnfolded = unfolded;
    setFixedWidth(unfolded ? unfoldedWidth : sized(spineWidth));
    setToolTip(unfolded ? tr("Fold the mods") : QString());
    update();
}

void ModSpine::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), Theme::current().colours().panel);
    painter.setRenderHint(QPainter::Antialiasing);
    paintArrow(painter);
    if (!m_isUnfolded) {
        paintMods(painter);
        paintTogether(painter);
    }
}

void ModSpine::paintArrow(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    // To the right: the rail comes; to the left: it goes.
    const double way = m_isUnfolded ? -1.0 : 1.0;
    painter.setPen(QPen(colours.ink, line::icon, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    const QPointF tip(width() / 2.0 + 3.0 * way, 24.0);
    painter.drawPolyline(QPolygonF({tip + QPointF(-6.0 * way, -6.0), tip, tip + QPointF(-6.0 * way, 6.0)}));
    if (m_isUnfolded) {
        return;
    }
    painter.setFont(Theme::current().font(TextRole::caption));
    painter.setPen(colours.ink2);
    painter.drawText(QRect(0, sized(unfoldHeight - 16), width(), sized(20)), Qt::AlignCenter, tr("Mods"));
}

void ModSpine::paintMods(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    const auto job = m_document.job();
    for (int i = 0; i < static_cast<int>(job->plan.size()); ++i) {
        const Mod& mod = job->plan[static_cast<std::size_t>(i)];
        const QRect box = modBox(i);
        if (mod.on) {
            painter.setPen(Qt::NoPen);
            painter.setBrush(colours.nowSoft);
            painter.drawRoundedRect(box, radius::plate, radius::plate);
            painter.setBrush(Qt::NoBrush);
        }
        paintRevisionTriangle(painter, QRectF(box.center().x() - sized(12), box.top() + sized(6), sized(26), sized(24)),
                              QString::fromStdString(mod.letter), mod.on ? TriangleState::active : TriangleState::off);
        painter.setFont(Theme::current().font(TextRole::caption, mod.on));
        painter.setPen(mod.on ? colours.now : colours.ink2);
        painter.drawText(box.adjusted(-4, sized(32), 4, -4), Qt::AlignCenter, figureOf(i));
        if (hasFocus() && i == m_current) {
            paintSelectionBrackets(painter, QRectF(box).adjusted(2.0, 2.0, -2.0, -2.0));
        }
    }
}

void ModSpine::paintTogether(QPainter& painter) const {
    const ThemeColours& colours = Theme::current().colours();
    const QFont caption = Theme::current().font(TextRole::caption);
    const auto job = m_document.job();
    const int top = modBox(static_cast<int>(job->plan.size())).top() + 6;
    if (const auto answer = m_solver.largeSignal(); answer && !job->plan.empty()) {
        painter.fillRect(QRect(8, top, width() - 16, 1), colours.hair);
        painter.setFont(caption);
        painter.setPen(colours.ink2);
        painter.drawText(QRect(0, top + sized(8), width(), sized(16)), Qt::AlignCenter, tr("together"));
        painter.drawText(QRect(0, top + sized(44), width(), sized(16)), Qt::AlignCenter, "dB");
        painter.setFont(Theme::current().font(TextRole::body, true));
        painter.setPen(colours.ink);
        painter.drawText(QRect(0, top + sized(24), width(), sized(20)), Qt::AlignCenter,
                         decibelWords(answer->togetherDb));
    }
    painter.setFont(caption);
    painter.setPen(colours.ink2);
    painter.drawText(QRect(0, height() - sized(44), width(), sized(36)), Qt::AlignCenter,
                     tr("level,\n%1 Hz").arg(QString::fromStdString(formatFigure(job->setting.toneHz))));
}

void ModSpine::mousePressEvent(QMouseEvent* event) {
    if (m_isUnfolded || event->position().y() < sized(unfoldHeight + 8)) {
        emit unfoldAsked();
        return;
    }
    for (int i = 0; i < static_cast<int>(m_document.job()->plan.size()); ++i) {
        if (modBox(i).contains(event->position().toPoint())) {
            switchMod(i);
            return;
        }
    }
}

void ModSpine::keyPressEvent(QKeyEvent* event) {
    const int last = static_cast<int>(m_document.job()->plan.size()) - 1;
    switch (event->key()) {
        case Qt::Key_Up:
            m_current = std::max(0, m_current - 1);
            break;
        case Qt::Key_Down:
            m_current = std::clamp(m_current + 1, 0, std::max(0, last));
            break;
        case Qt::Key_Space:
            switchMod(m_current);
            break;
        case Qt::Key_Return:
        case Qt::Key_Enter:
        case Qt::Key_Right:
        case Qt::Key_Left:
            emit unfoldAsked();
            break;
        default:
            QWidget::keyPressEvent(event);
            return;
    }
    update();
}

bool ModSpine::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip && !m_isUnfolded) {
        const auto* help = static_cast<QHelpEvent*>(event);
        const auto job = m_document.job();
        for (std::size_t i = 0; i < job->plan.size(); ++i) {
            if (modBox(static_cast<int>(i)).contains(help->pos())) {
                QToolTip::showText(help->globalPos(), QString::fromStdString(job->plan[i].name), this);
                return true;
            }
        }
        QToolTip::hideText();
        return true;
    }
    return QWidget::event(event);
}

}  // namespace ohmwright
