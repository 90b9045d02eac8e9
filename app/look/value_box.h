/// The box of the value field: struck stock value, a large entry, and + and − halves. Knows texts, not quantities.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <QWidget>

class QAbstractButton;
class QLineEdit;

namespace ohmwright {

class ValueBox : public QWidget {
    Q_OBJECT
public:
    explicit ValueBox(QWidget* parent = nullptr);

    /// `stock` is shown struck through; empty when the part is as built.
    void setTexts(const QString& stock, const QString& now);
    /// Iris when the text is a plan, ink when it is what the unit was built with.
    void setPlanned(bool planned);
    [[nodiscard]] QLineEdit* entry() const { return m_entry; }
    [[nodiscard]] QString struckText() const { return m_stock; }

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

signals:
    void edited(const QString& text);
    void entered();
    /// Esc on a changed text; the owner puts the old one back.
    void abandoned();
    void stepped(int direction, Qt::KeyboardModifiers modifiers);

protected:
    void paintEvent(QPaintEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void followTheme();
    void placeChildren();
    bool handleKey(QKeyEvent& event);

    QString m_stock;
    bool m_isPlanned = false;
    QLineEdit* m_entry = nullptr;
    QAbstractButton* m_up = nullptr;
    QAbstractButton* m_down = nullptr;
    int m_wheelRest = 0;  ///< Eighths of a degree not yet a notch.
};

}  // namespace ohmwright
