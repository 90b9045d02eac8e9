/// The focus sign: a 2 px ink outline standing 2 px outside the widget that has the keyboard.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QPointer>

class QFocusFrame;
class QWidget;

namespace ohmwright {

/// Follows the application's focus. Stock controls get the outline by themselves; a custom widget asks for it
/// with the property "focusOutline" = true, and one that shows focus in its own way refuses it with false.
class FocusOutline : public QObject {
    Q_OBJECT
public:
    /// Call once, after the style is set.
    static void install();

    static bool isWantedBy(const QWidget& widget);

private:
    explicit FocusOutline(QObject* parent) : QObject(parent) {}
    void follow(QWidget* widget);

    QPointer<QFocusFrame> m_frame;
};

}  // namespace ohmwright
