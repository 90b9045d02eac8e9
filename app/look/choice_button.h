/// A large answer to a question asked in place: a bold title over a short reason, at least 48 px high.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractButton>
#include <QString>

namespace ohmwright {

class ChoiceButton : public QAbstractButton {
    Q_OBJECT
public:
    ChoiceButton(const QString& title, const QString& reason, QWidget* parent = nullptr);

    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {120, 48}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_reason;
};

}  // namespace ohmwright
