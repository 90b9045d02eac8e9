/// A word of the customer with its verdict and figures; pressed, what it is held against opens below.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/look/sign_text.h"
#include "core/plan/consequences.h"

#include <QAbstractButton>
#include <QWidget>

namespace ohmwright {

/// Tick for yes, ring for partly and no, triangle for the other way; a word that could not be held has none.
SignKind signOf(ClaimVerdict verdict);
/// "“fuller”: yes"
QString verdictWords(const ClaimAnswer& answer);

/// The line that is pressed: sign, word, verdict.
class ClaimHead : public QAbstractButton {
    Q_OBJECT
public:
    explicit ClaimHead(QWidget* parent = nullptr);

    void show(const QString& words, SignKind sign);

    [[nodiscard]] bool hasHeightForWidth() const override { return true; }
    [[nodiscard]] int heightForWidth(int width) const override;
    [[nodiscard]] QSize sizeHint() const override { return {200, heightForWidth(200)}; }
    [[nodiscard]] QSize minimumSizeHint() const override { return {80, heightForWidth(200)}; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    SignKind m_sign = SignKind::none;
};

class ClaimRow : public QWidget {
    Q_OBJECT
public:
    /// @param rule  what the word is held against; empty for a word that the shop's table does not know.
    ClaimRow(const QString& word, const QString& rule, QWidget* parent = nullptr);

    void show(const WordAnswer& answer);
    /// Nothing is known (yet): "solving" or why not.
    void showWithout(const QString& reason);
    [[nodiscard]] const QString& word() const { return m_word; }

signals:
    void removeAsked(const QString& word);

private:
    void clearFigures();

    QString m_word;
    ClaimHead* m_head;
    QWidget* m_figures;
    QWidget* m_details;
};

}  // namespace ohmwright
