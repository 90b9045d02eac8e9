// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/pin_strip.h"

#include "app/curves/pinned_lines.h"
#include "app/look/theme.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QMenu>
#include <QPainter>
#include <QToolButton>

#include <algorithm>

namespace ohmwright {

namespace {

constexpr QSize sampleSize{30, 12};
constexpr double buttonHeight = 26.0;
/// Of a name in its button.
constexpr int mostLetters = 28;

/// A piece of the state's line.
QIcon sampleOf(int pattern, double ratio) {
    QPixmap picture(sampleSize * ratio);
    picture.setDevicePixelRatio(ratio);
    picture.fill(Qt::transparent);
    QPainter painter(&picture);
    painter.setPen(pinnedPen(pattern));
    painter.drawLine(QPointF(0.0, sampleSize.height() / 2.0), QPointF(sampleSize.width(), sampleSize.height() / 2.0));
    return QIcon(picture);
}

}  // namespace

PinStrip::PinStrip(QWidget* parent) : QWidget(parent), m_row(new QHBoxLayout(this)) {
    constexpr int side = 10;
    setObjectName(QStringLiteral("pinStrip"));
    setAccessibleName(tr("Pinned states"));
    m_row->setContentsMargins(side, 1, side, 1);
    m_row->setSpacing(side / 2);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(&Theme::current(), &Theme::changed, this, &PinStrip::build);
    hide();
}

void PinStrip::setEntries(const std::vector<Entry>& entries) {
    if (entries == m_entries) {
        return;
    }
    m_entries = entries;
    m_naming.clear();
    build();
    setVisible(!m_entries.empty());
}

void PinStrip::build() {
    while (QLayoutItem* item = m_row->takeAt(0)) {
        if (QWidget* widget = item->widget()) {
            widget->hide();
            widget->deleteLater();
        }
        delete item;
    }
    for (const Entry& entry : m_entries) {
        if (entry.letter == m_naming) {
            auto* field = new QLineEdit(entry.name, this);
            field->setAccessibleName(tr("Name of %1").arg(entry.letter));
            field->selectAll();
            field->installEventFilter(this);
            connect(field, &QLineEdit::returnPressed, this, [this, field, letter = entry.letter] {
                const QString name = field->text();
                endNaming();
                emit named(letter, name);
            });
            m_row->addWidget(field);
            field->setFocus(Qt::OtherFocusReason);
        } else {
            m_row->addWidget(buttonOf(entry));
        }
    }
    m_row->addStretch(1);
}

QToolButton* PinStrip::buttonOf(const Entry& entry) {
    auto* button = new QToolButton(this);
    const QString name = entry.name.size() > mostLetters ? entry.name.left(mostLetters) + QChar(0x2026) : entry.name;
    const QString words = entry.fault.isEmpty() ? name : tr("%1: cannot be solved").arg(name);
    button->setText(QStringLiteral("%1  %2").arg(entry.letter, QString(words).replace('&', "&&")));
    button->setObjectName(QStringLiteral("pin") + entry.letter);
    button->setIcon(sampleOf(entry.pattern, devicePixelRatioF()));
    button->setIconSize(sampleSize);
    button->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    button->setPopupMode(QToolButton::InstantPopup);
    button->setAutoRaise(true);
    button->setFixedHeight(qRound(buttonHeight * Theme::current().textScale()));
    button->setFocusPolicy(Qt::StrongFocus);
    button->setAccessibleName(tr("Pinned state %1, %2").arg(entry.letter, entry.name));
    button->setAccessibleDescription(entry.fault);
    button->setToolTip(entry.fault.isEmpty() ? entry.name : entry.fault);
    auto* menu = new QMenu(button);
    const QString letter = entry.letter;
    menu->addAction(tr("Make it the &plan"), this, [this, letter] { emit promoteAsked(letter); });
    menu->addAction(tr("&Name …"), this, [this, letter] { beginNaming(letter); });
    menu->addAction(tr("&Take away"), this, [this, letter] { emit removeAsked(letter); });
    button->setMenu(menu);
    button->installEventFilter(this);
    return button;
}

void PinStrip::beginNaming(const QString& letter) {
    m_naming = letter;
    build();
}

void PinStrip::endNaming() {
    m_naming.clear();
    build();
}

bool PinStrip::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::KeyPress) {
        return QWidget::eventFilter(watched, event);
    }
    const int key = static_cast<QKeyEvent*>(event)->key();
    if (qobject_cast<QLineEdit*>(watched) != nullptr) {
        if (key == Qt::Key_Escape) {
            endNaming();
            return true;
        }
        return false;
    }
    const auto* button = qobject_cast<QToolButton*>(watched);
    const auto entry = std::find_if(m_entries.begin(), m_entries.end(), [button](const Entry& each) {
        return button != nullptr && button->objectName() == QStringLiteral("pin") + each.letter;
    });
    if (entry == m_entries.end()) {
        return QWidget::eventFilter(watched, event);
    }
    const QString letter = entry->letter;
    if (key == Qt::Key_Delete || key == Qt::Key_Backspace) {
        emit removeAsked(letter);
        return true;
    }
    if (key == Qt::Key_F2) {
        beginNaming(letter);
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void PinStrip::paintEvent(QPaintEvent* event) {
    Q_UNUSED(event)
    QPainter painter(this);
    painter.fillRect(rect(), Theme::current().colours().panel);
    painter.fillRect(QRect(0, height() - 1, width(), 1), Theme::current().colours().hair);
}

}  // namespace ohmwright
