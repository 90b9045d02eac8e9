// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/choice_button.h"

#include "app/look/theme.h"

#include <QFontMetrics>
#include <QPainter>

namespace ohmwright {
namespace {

constexpr int margin = 10;
constexpr int leastHeight = 48;  // tokens hit.bench: answers are large
constexpr int wrapFlags = Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap;

}  // namespace

ChoiceButton::ChoiceButton(const QString& title, const QString& reason, QWidget* parent)
    : QAbstractButton(parent), m_reason(reason) {
    setText(title);
    setAccessibleName(title);
    setAccessibleDescription(reason);
    setFocusPolicy(Qt::StrongFocus);
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

int ChoiceButton::heightForWidth(int width) const {
    const QFontMetrics title(Theme::current().font(TextRole::figure, true));
    const QFontMetrics reason(Theme::current().font(TextRole::caption));
    const QRect room(0, 0, qMax(60, width - 2 * margin), 10000);
    const int reasonHeight = m_reason.isEmpty() ? 0 : reason.boundingRect(room, wrapFlags, m_reason).height() + 2;
    return qMax(leastHeight, title.height() + reasonHeight + 12);
}

QSize ChoiceButton::sizeHint() const {
    return {220, heightForWidth(width() > 0 ? width() : 220)};
}

void ChoiceButton::paintEvent(QPaintEvent*) {
    const Theme& theme = Theme::current();
    const ThemeColours& c = theme.colours();
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(underMouse() ? c.ink : c.edge, line::hair));
    painter.setBrush(isDown() ? c.app : c.raised);
    painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), radius::button, radius::button);
    const QFont titleFont = theme.font(TextRole::figure, true);
    const int titleHeight = QFontMetrics(titleFont).height();
    const int used = heightForWidth(width());
    const int top = m_reason.isEmpty() ? (height() - titleHeight) / 2 : 6 + (height() - used) / 2;
    painter.setFont(titleFont);
    painter.setPen(c.ink);
    painter.drawText(QRect(margin, top, width() - 2 * margin, titleHeight), Qt::AlignLeft | Qt::AlignVCenter, text());
    painter.setFont(theme.font(TextRole::caption));
    painter.setPen(c.ink2);
    const QRect reasonBox(margin, top + titleHeight + 2, width() - 2 * margin, height() - top - titleHeight - 2);
    painter.drawText(reasonBox, wrapFlags, m_reason);
}

}  // namespace ohmwright
