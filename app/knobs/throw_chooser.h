/// A switch that the plan fits, in the knob row: its throws side by side, the one it stands at filled.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>
#include <QWidget>

namespace ohmwright {

/// Knows no job: says which throw was asked for and shows what it is given.
///
/// A click chooses; Left/Up and Right/Down go to the throw beside it, Home and End to the first and the last, digits to
/// the one of that number.
class ThrowChooser : public QWidget {
    Q_OBJECT
public:
    /// @param name  "S Clip switch"
    ThrowChooser(QString name, QStringList throws, QWidget* parent = nullptr);

    [[nodiscard]] const QString& name() const { return m_name; }
    [[nodiscard]] const QStringList& throwNames() const { return m_throws; }
    [[nodiscard]] int chosen() const { return m_chosen; }
    void setChosen(int index);
    /// "level jump +7.47 dB, step at the contact 0.0 V"
    [[nodiscard]] const QString& facts() const { return m_facts; }
    void setFacts(const QString& facts);
    /// On two lines, for small windows: the facts follow the name.
    void setFolded(bool folded);
    /// Where a throw is pressed.
    [[nodiscard]] QRect throwBox(int index) const;

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

signals:
    void asked(int index);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void describe();
    void askWithin(int index);
    [[nodiscard]] QString head(const QString& facts) const;
    [[nodiscard]] int linesHeight() const;

    QString m_name;
    QStringList m_throws;
    QString m_facts;
    QString m_widestFacts;  ///< Keeps the row still while new ones are solved.
    int m_chosen = 0;
    bool m_isFolded = false;
};

}  // namespace ohmwright
