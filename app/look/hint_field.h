/// A line to type in that is never too narrow for what it shows while it is empty.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLineEdit>

namespace ohmwright {

/// As wide as its hint; wider where a layout stretches it.
class HintField : public QLineEdit {
    Q_OBJECT
public:
    explicit HintField(const QString& hint, QWidget* parent = nullptr);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return sizeHint(); }
};

}  // namespace ohmwright
