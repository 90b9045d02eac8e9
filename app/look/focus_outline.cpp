// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/focus_outline.h"

#include "app/look/theme.h"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAbstractSlider>
#include <QAbstractSpinBox>
#include <QApplication>
#include <QComboBox>
#include <QFocusFrame>
#include <QLineEdit>
#include <QTabBar>
#include <QVariant>

namespace ohmwright {

void FocusOutline::install() {
    auto* outline = new FocusOutline(qApp);
    connect(qApp, &QApplication::focusChanged, outline,
            [outline](QWidget*, QWidget* widget) { outline->follow(widget); });
    // A new style sheet hides the frame.
    connect(&Theme::current(), &Theme::changed, outline, [outline] {
        outline->follow(nullptr);
        outline->follow(QApplication::focusWidget());
    });
}

bool FocusOutline::isWantedBy(const QWidget& widget) {
    const QVariant asked = widget.property("focusOutline");
    if (asked.isValid()) {
        return asked.toBool();
    }
    return qobject_cast<const QAbstractButton*>(&widget) || qobject_cast<const QLineEdit*>(&widget) ||
           qobject_cast<const QAbstractSpinBox*>(&widget) || qobject_cast<const QComboBox*>(&widget) ||
           qobject_cast<const QAbstractItemView*>(&widget) || qobject_cast<const QTabBar*>(&widget) ||
           qobject_cast<const QAbstractSlider*>(&widget);
}

void FocusOutline::follow(QWidget* widget) {
    if (widget == nullptr || widget->isWindow() || !isWantedBy(*widget)) {
        if (m_frame) {
            m_frame->setWidget(nullptr);
        }
        return;
    }
    // The frame lives in the focused widget's window and dies with it.
    if (!m_frame) {
        m_frame = new QFocusFrame(widget);
    }
    m_frame->setWidget(widget);
}

}  // namespace ohmwright
