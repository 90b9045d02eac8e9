// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/step_chips.h"

#include "app/look/painters.h"
#include "app/look/theme.h"

#include <QPainter>

#include <algorithm>

namespace ohmwright {

namespace {

constexpr std::size_t mostChips = 15;
constexpr int chipHeight = 28;
constexpr double gap = 5.0;

}  // namespace

StepChips::StepChips(QWidget* parent) : QWidget(parent) {
    setAccessibleName(tr("Steps signed"));
    setFixedHeight(chipHeight);
    connect(&Theme::current(), &Theme::changed, this, [this] { update(); });
}

void StepChips::showSteps(const WorkLog& log, std::size_t here) {
    m_chips.clear();
    std::size_t signedSteps = 0;
    for (std::size_t k = 0; k < log.size(); ++k) {
        const bool isPassed = log.has(k, StepResult::passed);
        m_chips.push_back(isPassed ? Chip::passed : log.isOpen(k) ? Chip::open : Chip::wrong);
        signedSteps += isPassed ? 1 : 0;
    }
    m_here = here;
    setAccessibleDescription(tr("%1 of %2 signed").arg(signedSteps).arg(m_chips.size()));
    update();
}

void StepChips::paintEvent(QPaintEvent*) {
    if (m_chips.empty()) {
        return;
    }
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const std::size_t shown = std::min(mostChips, m_chips.size());
    const std::size_t first = std::min(m_here > shown / 2 ? m_here - shown / 2 : 0, m_chips.size() - shown);
    const double width = (this->width() - gap * static_cast<double>(shown - 1)) / static_cast<double>(shown);
    for (std::size_t k = 0; k < shown; ++k) {
        const std::size_t step = first + k;
        const QRectF box(static_cast<double>(k) * (width + gap) + 1.0, 1.0, width - 2.0, chipHeight - 2.0);
        paintChip(painter, box, step);
    }
}

void StepChips::paintChip(QPainter& painter, const QRectF& box, std::size_t step) const {
    const ThemeColours& c = Theme::current().colours();
    const bool isHere = step == m_here;
    const bool isWrong = m_chips[step] == Chip::wrong;
    const bool isPassed = m_chips[step] == Chip::passed;
    painter.setPen(QPen(isWrong ? c.stop : isHere ? c.ink : isPassed ? c.okSoft : c.hair, isWrong ? 2.0 : 1.0));
    painter.setBrush(isHere ? c.ink : isPassed ? c.okSoft : c.panel);
    painter.drawRoundedRect(box, radius::plate / 2.0, radius::plate / 2.0);
    if (isPassed && !isHere) {
        constexpr double tick = 14.0;
        paintTick(painter, QRectF(box.center().x() - tick / 2.0, box.center().y() - tick / 2.0, tick, tick));
        return;
    }
    painter.setPen(isHere ? c.panel : isWrong ? c.stop : c.ink3);
    painter.setFont(Theme::current().font(TextRole::body, isHere || isWrong));
    painter.drawText(box, Qt::AlignCenter, QString::number(step + 1));
}

}  // namespace ohmwright
