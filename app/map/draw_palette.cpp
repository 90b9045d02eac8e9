// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_palette.h"

#include "app/look/flags.h"
#include "app/look/symbols.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/map/draw_hand.h"

#include <QAbstractButton>
#include <QPainter>
#include <QVBoxLayout>

#include <algorithm>

namespace ohmwright {
namespace {

constexpr int rowHeight = 30;
/// Room of a symbol, with its leads, in a row.
constexpr double symbolWidth = 52.0;
constexpr double symbolHeight = 28.0;
constexpr double symbolScale = 0.62;
constexpr int margin = 14;
constexpr int keyWidth = 44;

/// A signal source stands as a circle with its wave, a battery as its bars.
Part shownPart(const DrawThing& thing) {
    Part part;
    part.kind = thing.kind;
    part.acAmplitude = thing.isSignalSource() ? 1.0 : 0.0;
    part.placement = Placement{{0, 0}, 0, false, 3, LabelSide::automatic};
    return part;
}

}  // namespace

/// One thing, or the wire: its symbol, its name, its key.
class ThingButton : public QAbstractButton {
public:
    /// @param thing  null: the wire.
    ThingButton(DrawHand& hand, const DrawThing* thing, QWidget* parent)
        : QAbstractButton(parent), m_hand(hand), m_thing(thing) {
        const QString name = thing ? DrawHand::nameOf(*thing) : DrawPalette::tr("wire");
        m_key = thing ? QString(QLatin1Char(thing->key)) : DrawPalette::tr("Space");
        setText(name);
        setAccessibleName(DrawPalette::tr("%1, key %2").arg(name, m_key));
        setToolTip(DrawPalette::tr("%1 (%2)").arg(name, m_key));
        setFocusPolicy(Qt::TabFocus);
        connect(&hand, &DrawHand::changed, this, qOverload<>(&QWidget::update));
    }

    void setFolded(bool isFolded) {
        m_isFolded = isFolded;
        update();
    }

protected:
    void paintEvent(QPaintEvent* /*event*/) override {
        const ThemeColours& colours = Theme::current().colours();
        QPainter painter(this);
        const bool isTaken =
            m_thing ? m_hand.held() && m_hand.held()->thing == m_thing : m_hand.takesWire() || !m_hand.pen().empty();
        if (isTaken || underMouse()) {
            painter.fillRect(rect(), colours.raised);
        }
        if (isTaken) {
            painter.fillRect(QRectF(0, 0, line::zoneMark, height()), colours.ink);
        }
        painter.save();
        painter.setRenderHint(QPainter::Antialiasing);
        painter.translate(margin + symbolWidth / 2, height() / 2.0);
        paintThing(painter);
        painter.restore();
        painter.setPen(colours.ink);
        painter.setFont(Theme::current().font(TextRole::body, isTaken));
        if (!m_isFolded) {
            const QRect room = rect().adjusted(margin + qRound(symbolWidth) + 10, 0, -keyWidth, 0);
            painter.drawText(room, Qt::AlignVCenter | Qt::AlignLeft,
                             painter.fontMetrics().elidedText(text(), Qt::ElideRight, room.width()));
        }
        painter.setPen(colours.ink2);
        painter.setFont(Theme::current().font(TextRole::caption, true));
        painter.drawText(rect().adjusted(0, 0, -margin, 0), Qt::AlignVCenter | Qt::AlignRight, m_key);
        if (hasFocus()) {
            painter.setPen(QPen(colours.ink, line::focus));
            painter.setBrush(Qt::NoBrush);
            painter.drawRect(rect().adjusted(2, 2, -3, -3));
        }
    }

private:
    /// About the middle of its room.
    void paintThing(QPainter& painter) const {
        const ThemeColours& colours = Theme::current().colours();
        painter.setPen(QPen(colours.wire, line::body));
        if (!m_thing) {
            painter.scale(symbolScale, symbolScale);
            painter.drawPolyline(QPolygonF({{-34, 10}, {0, 10}, {0, -10}, {34, -10}}));
        } else if (m_thing->isFlag) {
            // What hangs or stands is brought to the middle of the row.
            const double middle = m_thing->flag == FlagKind::ground   ? -7.0
                                  : m_thing->flag == FlagKind::supply ? 3.0
                                                                      : 0;
            paintFlag(painter, m_thing->flag, {0.0, middle});
        } else {
            const Symbol symbol = symbolOf(shownPart(*m_thing));
            // All of it, leads and all: a tall one is made smaller to stand in the row.
            QRectF box = symbol.bodyBox;
            for (const QPainterPath* path : {&symbol.outline, &symbol.body, &symbol.plates, &symbol.leads}) {
                box = box.united(path->boundingRect());
            }
            const double fit = std::min({symbolScale, symbolWidth / box.width(), symbolHeight / box.height()});
            painter.scale(fit, fit);
            painter.translate(-box.center());
            paintSymbol(painter, symbol, {colours.ink, colours.wire, colours.panel, false});
        }
    }

    DrawHand& m_hand;
    const DrawThing* m_thing;
    QString m_key;
    bool m_isFolded = false;
};

DrawPalette::DrawPalette(DrawHand& hand, QWidget* parent) : QWidget(parent), m_hand(hand) {
    setAccessibleName(tr("Parts to put down"));
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 10, 0, 10);
    column->setSpacing(0);
    m_title = new ThemedLabel(TextRole::panelTitle, true, &ThemeColours::ink, this);
    m_title->setText(tr("Put down"));
    m_title->setContentsMargins(margin, 2, margin, 6);
    column->addWidget(m_title);
    const auto addRow = [this, column](const DrawThing* thing, auto&& take) {
        auto* row = new ThingButton(m_hand, thing, this);
        connect(row, &QAbstractButton::clicked, this, [this, take] {
            take();
            emit taken();
        });
        column->addWidget(row);
        m_rows.push_back(row);
    };
    addRow(nullptr, [this] { m_hand.takeWire(); });
    for (const DrawThing& thing : drawThings()) {
        addRow(&thing, [this, &thing] { m_hand.take(thing); });
    }
    column->addStretch(1);
    connect(&Theme::current(), &Theme::changed, this, &DrawPalette::fitRows);
    fitRows();
}

void DrawPalette::setFolded(bool isFolded) {
    for (ThingButton* row : m_rows) {
        row->setFolded(isFolded);
    }
}

/// The rows are as high as the text setting asks.
void DrawPalette::fitRows() {
    for (ThingButton* row : m_rows) {
        row->setFixedHeight(qRound(rowHeight * Theme::current().textScale()));
    }
}

}  // namespace ohmwright
