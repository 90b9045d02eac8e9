/// The view of the mods list and its keys.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QListView>

namespace ohmwright {

/// Space switches the current mod, F2 renames it, Delete takes it out, Alt+Up and Alt+Down move it in the order of
/// fitting; Shift and a letter switches that mod, M the selected part's.
class ModList : public QListView {
    Q_OBJECT
public:
    explicit ModList(QWidget* parent = nullptr);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

signals:
    void removeAsked(const QModelIndex& index);
    /// -1 earlier, 1 later in the order of fitting.
    void moveAsked(const QModelIndex& index, int by);
    void letterPressed(const QString& letter);
    void muteAsked();

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    bool takeKey(const QKeyEvent& event);
};

}  // namespace ohmwright
