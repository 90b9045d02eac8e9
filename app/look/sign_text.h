/// A sentence with its sign at the left, wrapped to the width: "✓ +5.89 dB at 110 Hz is bigger than the spread".
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <QWidget>

class QPainter;

namespace ohmwright {

/// note: a ring with a bar, for what is only to be known.
enum class SignKind { none, tick, note, care, stop };

/// The sign alone inside `box`.
void paintSign(QPainter& painter, const QRectF& box, SignKind sign);

class SignText : public QWidget {
    Q_OBJECT
public:
    explicit SignText(QWidget* parent = nullptr);

    void setSentence(const QString& text, SignKind sign = SignKind::none);
    [[nodiscard]] const QString& text() const { return m_text; }
    [[nodiscard]] SignKind sign() const { return m_sign; }

    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    [[nodiscard]] int indent() const;

    QString m_text;
    SignKind m_sign = SignKind::none;
};

}  // namespace ohmwright
