// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_palette.h"

#include "app/look/symbols.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/map/draw_hand.h"

#include <QAbstractButton>
#include <QPainter>
#include <QVBoxLayout>

namespace ohmwright {
namespace {

constexpr int rowHeight = 30;
constexpr int symbolWidth = 64;
constexpr double symbolScale = 0.62;

/// One thing: its symbol, its name, its key.
class ThingButton : public QAbstractButton {
public:
    ThingButton(DrawHand& hand, const DrawThing* thing, QWidget* parent)
        : QAbstractButton(parent), m_hand(hand), m_thing(thing) {
        const QString name = thing ? QString::fromUtf8(thing->name) : QString("wire");
        const QString keyName = thing ? QString(QLatin1Char(thing->key)) : QString("Space");
        setText(name);
        setAccessibleName(QString("%1, key %2").arg(name, keyName));
        setToolTip(QString("%1 (%2)").arg(name, keyName));
        setFixedHeight(qRound(rowHeight * Theme::current().textScale()));
        setFocusPolicy(Qt::TabFocus);
        m_key = keyName;
        connect(&hand, &DrawHand::changed, this, qOverload<>(&QWidget::update));
    }

protected:
    void paintEvent(QPaintEvent* /*event*/) override {
        const ThemeColours& colours = Theme::current().colours();
        QPainter painter(this);
        const bool isTaken = m_thing ? m_hand.held() && m_hand.held()->thing == m_thing : !m_hand.pen().empty();
        if (isTaken || underMouse()) {
            painter.fillRect(rect(), isTaken ? colours.edge : colours.raised);
        }
        painter.save();
        painter.setRenderHint(QPainter::Antialiasing);
        painter.translate(14, height() / 2.0);
        painter.scale(symbolScale, symbolScale);
        paintThing(painter);
        painter.restore();
        painter.setPen(colours.ink);
        painter.setFont(Theme::current().font(TextRole::body, isTaken));
        painter.drawText(rect().adjusted(symbolWidth + 12, 0, -44, 0), Qt::AlignVCenter | Qt::AlignLeft, text());
        painter.setPen(colours.ink2);
        painter.setFont(Theme::current().font(TextRole::caption, true));
        painter.drawText(rect().adjusted(0, 0, -14, 0), Qt::AlignVCenter | Qt::AlignRight, m_key);
        if (hasFocus()) {
            painter.setPen(QPen(colours.ink, line::focus));
            painter.setBrush(Qt::NoBrush);
            painter.drawRect(rect().adjusted(2, 2, -3, -3));
        }
    }

private:
    void paintThing(QPainter& painter) const {
        const ThemeColours& colours = Theme::current().colours();
        const QPen wire(colours.wire, line::body);
        painter.setPen(wire);
        if (!m_thing) {
            painter.drawPolyline(QPolygonF({{4, 10}, {40, 10}, {40, -10}, {72, -10}}));
        } else if (m_thing->isFlag) {
            paintSign(painter);
        } else {
            Part part;
            part.kind = m_thing->kind;
            part.acAmplitude = m_thing->key == 'E' ? 1.0 : 0.0;
            part.placement = Placement{{0, 0}, 0, false, 4, LabelSide::automatic};
            const Symbol symbol = symbolOf(part);
            const QRectF box = symbol.bodyBox;
            // Tall symbols are made to fit the row.
            const double fit = std::min(1.0, 40.0 / box.height());
            painter.scale(fit, fit);
            painter.translate(QPointF(40 / fit, 0) - box.center());
            paintSymbol(painter, symbol, {colours.ink, colours.wire, colours.panel, false});
        }
    }
    void paintSign(QPainter& painter) const {
        switch (m_thing->flag) {
            case FlagKind::ground:
                painter.drawLine(QPointF(40, -12), QPointF(40, -2));
                for (int bar = 0; bar < 3; ++bar) {
                    painter.drawLine(QPointF(30 + 3.5 * bar, -2 + 5 * bar), QPointF(50 - 3.5 * bar, -2 + 5 * bar));
                }
                break;
            case FlagKind::supply:
                painter.drawLine(QPointF(40, 12), QPointF(40, -4));
                painter.drawLine(QPointF(30, -4), QPointF(50, -4));
                break;
            default:
                painter.drawLine(QPointF(20, 0), QPointF(34, 0));
                painter.drawEllipse(QPointF(40, 0), 6, 6);
                break;
        }
    }

    DrawHand& m_hand;
    const DrawThing* m_thing;
    QString m_key;
};

}  // namespace

DrawPalette::DrawPalette(DrawHand& hand, QWidget* parent) : QWidget(parent), m_hand(hand) {
    setAccessibleName("Parts to put down");
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 10, 0, 10);
    column->setSpacing(0);
    auto* title = new ThemedLabel(TextRole::panelTitle, true, &ThemeColours::ink, this);
    title->setText("Put down");
    title->setContentsMargins(14, 2, 14, 6);
    column->addWidget(title);
    auto* wire = new ThingButton(m_hand, nullptr, this);
    connect(wire, &QAbstractButton::clicked, this, [this] {
        m_hand.penDown();
        emit taken();
    });
    column->addWidget(wire);
    for (const DrawThing& thing : drawThings()) {
        auto* button = new ThingButton(m_hand, &thing, this);
        connect(button, &QAbstractButton::clicked, this, [this, &thing] {
            m_hand.take(thing);
            emit taken();
        });
        column->addWidget(button);
    }
    column->addStretch(1);
}

}  // namespace ohmwright
