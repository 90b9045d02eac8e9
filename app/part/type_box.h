/// The type of a part that has a model in place of a value: struck stock beside what is planned.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <QWidget>

namespace ohmwright {

class TypeBox : public QWidget {
    Q_OBJECT
public:
    explicit TypeBox(QWidget* parent = nullptr);

    /// @param stock  empty when the type is as built.
    void setTexts(const QString& stock, const QString& now);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {120, sizeHint().height()}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_stock;
    QString m_now;
};

}  // namespace ohmwright
