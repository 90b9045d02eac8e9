// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/board/knowledge_counts.h"

#include "app/look/painters.h"
#include "app/look/theme.h"

#include <QPainter>

#include <array>

namespace ohmwright {

namespace {

constexpr int dotRoom = 16;
constexpr int between = 14;

}  // namespace

KnowledgeCounts::KnowledgeCounts(QWidget* parent) : QWidget(parent) {
    connect(&Theme::current(), &Theme::changed, this, [this] { updateGeometry(); });
}

void KnowledgeCounts::show(const WalkProgress& progress) {
    m_progress = progress;
    setAccessibleName(words());
    updateGeometry();
    update();
}

QStringList KnowledgeCounts::parts() const {
    return {tr("%1 drawn").arg(m_progress.drawn), tr("%1 seen").arg(m_progress.seen),
            tr("%1 measured").arg(m_progress.measured)};
}

QString KnowledgeCounts::words() const {
    return parts().join(", ");
}

QSize KnowledgeCounts::sizeHint() const {
    const QFontMetrics metrics(Theme::current().font(TextRole::body));
    int width = 0;
    for (const QString& part : parts()) {
        width += dotRoom + metrics.horizontalAdvance(part) + between;
    }
    return {width, metrics.height() + 4};
}

void KnowledgeCounts::paintEvent(QPaintEvent*) {
    constexpr std::array known{Knowledge::drawn, Knowledge::seen, Knowledge::measured};
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(Theme::current().font(TextRole::body));
    double x = 0.0;
    QStringList words = parts();
    if (width() < sizeHint().width()) {
        // The dots alone tell them apart where there is no room.
        words = {QString::number(m_progress.drawn), QString::number(m_progress.seen),
                 QString::number(m_progress.measured)};
        setToolTip(this->words());
    }
    for (int k = 0; k < words.size(); ++k) {
        paintKnowledgeDot(painter, {x + 6.0, height() / 2.0}, known.at(static_cast<std::size_t>(k)));
        painter.setPen(Theme::current().colours().ink2);
        const double width = painter.fontMetrics().horizontalAdvance(words[k]);
        painter.drawText(QRectF(x + dotRoom, 0.0, width + 4.0, height()), Qt::AlignVCenter, words[k]);
        x += dotRoom + width + between;
    }
}

}  // namespace ohmwright
