/// The papers that there are, a row each: what it is for, and whether the last one printed still holds.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/plan/papers.h"

#include <QAbstractButton>
#include <QWidget>

#include <map>

namespace ohmwright {

/// One paper of the list; Up and Down walk the rows.
class PaperRow : public QAbstractButton {
    Q_OBJECT
public:
    PaperRow(PaperKind kind, QWidget* parent);

    /// What became of the last one printed.
    void setState(const QString& words, bool isVoid);
    [[nodiscard]] const QString& stateWords() const { return m_state; }
    [[nodiscard]] QSize sizeHint() const override;

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString m_purpose;
    QString m_state;
    bool m_isVoid = false;
};

class PaperList : public QWidget {
    Q_OBJECT
public:
    explicit PaperList(QWidget* parent = nullptr);

    void setChosen(PaperKind kind);
    [[nodiscard]] PaperKind chosen() const { return m_chosen; }
    void follow(const Job& job);
    /// What a user reads in the row's last line.
    [[nodiscard]] QString stateWords(PaperKind kind) const { return m_rows.at(kind)->stateWords(); }

signals:
    void paperChosen(ohmwright::PaperKind kind);

private:
    std::map<PaperKind, PaperRow*> m_rows;
    PaperKind m_chosen = PaperKind::bench;
};

}  // namespace ohmwright
