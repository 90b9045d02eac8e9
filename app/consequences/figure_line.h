/// A figure in a line of words that wraps: "82 Hz: −10.5 → −4.71 dB, +5.77", now in iris, the change in bold.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLabel>
#include <QString>

#include <vector>

namespace ohmwright {

/// A run of words of one kind.
struct FigureRun {
    enum class Kind { plain, stock, now, change };
    QString text;
    Kind kind = Kind::plain;
};

/// "−10.5 → −4.71 dB", "none → 4.43 V"; only now when stock is empty; words before and after in plain.
std::vector<FigureRun> stockToNow(const QString& before, const QString& stock, const QString& now,
                                  const QString& after);

class FigureLine : public QLabel {
    Q_OBJECT
public:
    explicit FigureLine(QWidget* parent = nullptr);

    void setRuns(std::vector<FigureRun> runs);
    /// Without its kinds.
    [[nodiscard]] QString words() const;
    /// A press, or Enter while it has the focus, is told then.
    void setPressable(bool pressable);

signals:
    void pressed();

protected:
    void mousePressEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void follow();

    std::vector<FigureRun> m_runs;
};

}  // namespace ohmwright
