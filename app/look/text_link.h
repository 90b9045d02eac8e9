/// Words that are pressed, underlined: for what is asked for seldom and has no room for a button.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractButton>

namespace ohmwright {

class TextLink : public QAbstractButton {
    Q_OBJECT
public:
    explicit TextLink(const QString& words, QWidget* parent = nullptr);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }

protected:
    void paintEvent(QPaintEvent* event) override;
};

}  // namespace ohmwright
