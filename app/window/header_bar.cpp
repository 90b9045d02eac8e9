// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/window/header_bar.h"

#include "app/look/action_table.h"
#include "app/look/icons.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/window/place_tabs.h"
#include "app/window/stock_hold.h"
#include "app/window/visit_strip.h"

#include <QAction>
#include <QEvent>
#include <QHBoxLayout>
#include <QMenuBar>
#include <QPainter>
#include <QPushButton>
#include <QToolButton>

namespace ohmwright {

namespace {

/// On the hold button; not its checked state, which the same click would take back.
constexpr auto shownProperty = "stockShown";

/// The mark and the program's name.
class NameSign : public QWidget {
public:
    void setShort(bool isShort) {
        if (isShort != m_isShort) {
            m_isShort = isShort;
            updateGeometry();
            update();
        }
    }
    [[nodiscard]] int wholeWidth() const {
        return 34 + QFontMetrics(Theme::current().font(TextRole::panelTitle, true)).horizontalAdvance("Ohmwright");
    }

    explicit NameSign(QWidget* parent) : QWidget(parent) {
        setAccessibleName("Ohmwright");
        setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
    }

    [[nodiscard]] QSize sizeHint() const override { return {m_isShort ? markWidth : wholeWidth(), 30}; }

protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        paintMark(painter, QRectF(0.0, (height() - 26.0) / 2.0, 26.0, 26.0));
        painter.setFont(Theme::current().font(TextRole::panelTitle, true));
        painter.setPen(Theme::current().colours().ink);
        if (!m_isShort) {
            painter.drawText(rect().adjusted(34, 0, 0, 0), Qt::AlignVCenter, "Ohmwright");
        }
    }

private:
    static constexpr int markWidth = 26;
    bool m_isShort = false;  ///< The mark alone.
};

/// "Hold for stock" with its key beside it in a small frame.
class HoldButton : public QPushButton {
public:
    explicit HoldButton(QWidget* parent) : QPushButton(QObject::tr("Hold for stock"), parent) {
        setAccessibleName(QObject::tr("Hold for stock, key S"));
        setToolTip(QObject::tr("Shows the unit as built while it is down; pressed twice it stays."));
    }

    [[nodiscard]] QSize sizeHint() const override { return QPushButton::sizeHint() + QSize(capWidth + 8, 0); }

protected:
    void paintEvent(QPaintEvent*) override {
        const ThemeColours& colours = Theme::current().colours();
        const bool isOn = isDown() || property(shownProperty).toBool();
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(QPen(isOn || underMouse() ? colours.edge : colours.hair, 1.0));
        painter.setBrush(isOn ? colours.ink : colours.raised);
        painter.drawRoundedRect(QRectF(rect()).adjusted(0.5, 0.5, -0.5, -0.5), radius::button, radius::button);
        const QColor ink = !isEnabled() ? colours.ink3 : isOn ? colours.panel : colours.ink;
        painter.setPen(QPen(ink, 1.0));
        painter.setBrush(Qt::NoBrush);
        painter.setFont(font());
        painter.drawText(rect().adjusted(0, 0, -capWidth - 8, 0), Qt::AlignCenter, text());
        const QRectF cap(width() - capWidth - 12.0, (height() - 20.0) / 2.0, capWidth, 20.0);
        painter.drawRoundedRect(cap.adjusted(0.5, 0.5, -0.5, -0.5), 3.0, 3.0);
        painter.setFont(Theme::current().font(TextRole::caption));
        painter.drawText(cap, Qt::AlignCenter, "S");
    }

private:
    static constexpr int capWidth = 20;
};

QToolButton* stepButton(const ActionTable& actions, const char* id, QWidget* parent) {
    auto* button = new QToolButton(parent);
    button->setDefaultAction(actions.action(id));
    button->setToolButtonStyle(Qt::ToolButtonIconOnly);
    button->setFixedSize(38, 36);
    button->setAccessibleName(actions.wordsWithKeys(id));
    return button;
}

}  // namespace

HeaderBar::HeaderBar(const ActionTable& actions, StockHold& hold, QWidget* parent)
    : QWidget(parent),
      m_menus(new QMenuBar(this)),
      m_place(new PlaceTabs(this)),
      m_visit(new VisitStrip(this)),
      m_obstacle(new ThemedLabel(TextRole::caption, false, &ThemeColours::warn, this)) {
    setFixedHeight(space::header);
    m_menus->setNativeMenuBar(false);
    m_menus->setSizePolicy(QSizePolicy::Minimum, QSizePolicy::Fixed);
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(14, 0, 12, 0);
    layout->setSpacing(8);
    auto* name = new NameSign(this);
    m_name = name;
    layout->addWidget(name);
    layout->addSpacing(16);
    layout->addWidget(m_place);
    layout->addSpacing(8);
    layout->addWidget(m_menus);
    layout->addStretch(1);
    layout->addWidget(m_visit);
    layout->addStretch(1);
    addButtons(actions, hold, *layout);
    connect(m_visit, &VisitStrip::stateAsked, this, &HeaderBar::visitStateAsked);
    setFolded(false);
}

void HeaderBar::addButtons(const ActionTable& actions, StockHold& hold, QHBoxLayout& layout) {
    for (const char* id : {"edit.undo", "edit.redo"}) {
        m_hiddenAtBench.push_back(stepButton(actions, id, this));
        layout.addWidget(m_hiddenAtBench.back());
    }
    layout.addSpacing(4);

    m_hold = new HoldButton(this);
    // The button is pressed with the mouse; the key goes its own way and must not find the focus here.
    m_hold->setFocusPolicy(Qt::TabFocus);
    layout.addWidget(m_hold);
    connect(m_hold, &QPushButton::pressed, &hold, &StockHold::press);
    connect(m_hold, &QPushButton::released, &hold, &StockHold::release);
    connect(&hold, &StockHold::shownChanged, m_hold, [this](bool shown) {
        m_hold->setProperty(shownProperty, shown);
        m_hold->setText(shown ? tr("Showing stock") : tr("Hold for stock"));
        m_hold->update();
    });
    layout.addSpacing(4);

    layout.addWidget(m_obstacle);
    m_sheet = new QPushButton(icon(IconName::print, IconGround::ink), {}, this);
    m_sheet->setAccessibleName(tr("Bench sheet"));
    m_sheet->setProperty("primary", true);
    m_sheet->setToolTip(actions.wordsWithKeys("paper.benchSheet"));
    layout.addWidget(m_sheet);
    QAction* print = actions.action("paper.benchSheet");
    m_leave = new QPushButton(tr("Leave bench mode, Esc"), this);
    m_leave->setFocusPolicy(Qt::NoFocus);
    m_leave->hide();
    layout.addWidget(m_leave);
    connect(m_leave, &QPushButton::clicked, this, &HeaderBar::leaveBenchAsked);
    m_hiddenAtBench.insert(m_hiddenAtBench.end(), {m_menus, m_hold, m_sheet, m_obstacle});
    connect(m_sheet, &QPushButton::clicked, print, &QAction::trigger);
    connect(print, &QAction::changed, m_sheet, [this, print] { m_sheet->setEnabled(print->isEnabled()); });
}

void HeaderBar::setVisit(const Visit& visit) {
    m_visit->setVisit(visit);
}

void HeaderBar::setSheetObstacle(const QString& words) {
    m_obstacle->setText(words);
    m_obstacle->setVisible(!words.isEmpty() && !m_isBenchMode);
}

void HeaderBar::setFolded(bool folded) {
    m_visit->setFolded(folded);
    // Qt leaves no room between an icon and its word.
    m_sheet->setText(' ' + (folded ? tr("Sheet") : tr("Bench sheet")));
    setFixedHeight(folded ? space::header - 8 : space::header);
}

void HeaderBar::setBenchMode(bool on) {
    if (on == m_isBenchMode) {
        return;
    }
    m_isBenchMode = on;
    for (QWidget* widget : m_hiddenAtBench) {
        widget->setVisible(!on);
    }
    setSheetObstacle(m_obstacle->text());
    m_visit->setEnabled(!on);
    m_leave->setVisible(on);
}

void HeaderBar::setJobOpen(bool open) {
    m_place->setVisible(open);
    m_visit->setVisible(open);
    m_hold->setEnabled(open);
}

/// The title of the window says the name as well: it goes before a word of the places does.
void HeaderBar::shareRoom() {
    auto* name = static_cast<NameSign*>(m_name);
    const int others = layout()->sizeHint().width() - name->sizeHint().width();
    name->setShort(others + name->wholeWidth() > width());
}

void HeaderBar::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    shareRoom();
}

bool HeaderBar::event(QEvent* event) {
    if (event->type() == QEvent::LayoutRequest) {
        shareRoom();
    }
    return QWidget::event(event);
}

void HeaderBar::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().panel);
}

}  // namespace ohmwright
