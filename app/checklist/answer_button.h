/// One of the two answers of a step: 128 px high at least, its words and its key.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractButton>

namespace ohmwright {

class AnswerButton : public QAbstractButton {
    Q_OBJECT
public:
    static constexpr int leastHeight = 128;

    /// Pass is filled, fail is an outline: told apart without colour.
    enum class Kind { pass, fail };

    explicit AnswerButton(Kind kind, QWidget* parent = nullptr);

    /// "Beeps", "Space or foot key, next step".
    void setWords(const QString& answer, const QString& key);
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override { return {180, leastHeight}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    Kind m_kind;
    QString m_key;
};

}  // namespace ohmwright
