// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/mod_list.h"

#include "app/look/theme.h"
#include "app/mods/mod_delegate.h"

#include <QKeyEvent>

namespace ohmwright {

ModList::ModList(QWidget* parent) : QListView(parent) {
    setItemDelegate(new ModDelegate(this));
    setFrameShape(QFrame::NoFrame);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setEditTriggers(QAbstractItemView::EditKeyPressed);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setContextMenuPolicy(Qt::CustomContextMenu);
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Maximum);
    setAccessibleName(tr("Mods"));
    viewport()->setAutoFillBackground(false);
    // The row itself shows the focus.
    setProperty("focusOutline", false);
    connect(&Theme::current(), &Theme::changed, this, [this] { doItemsLayout(); });
}

QSize ModList::sizeHint() const {
    int height = 0;
    for (int row = 0; model() && row < model()->rowCount(); ++row) {
        height += sizeHintForRow(row);
    }
    return {space::leftRail, height};
}

QSize ModList::minimumSizeHint() const {
    return {0, sizeHint().height()};  // the rail scrolls as a whole
}

bool ModList::takeKey(const QKeyEvent& event) {
    const QModelIndex current = currentIndex();
    const bool isMove =
        event.modifiers() == Qt::AltModifier && (event.key() == Qt::Key_Up || event.key() == Qt::Key_Down);
    if (event.modifiers() == Qt::ShiftModifier && event.key() >= Qt::Key_A && event.key() <= Qt::Key_F) {
        emit letterPressed(QString(QChar(event.key())));
    } else if (event.modifiers() == Qt::NoModifier && event.key() == Qt::Key_M) {
        emit muteAsked();
    } else if (event.key() == Qt::Key_Delete && current.isValid()) {
        emit removeAsked(current);
    } else if (isMove && current.isValid()) {
        emit moveAsked(current, event.key() == Qt::Key_Up ? -1 : 1);
    } else {
        return false;
    }
    return true;
}

void ModList::keyPressEvent(QKeyEvent* event) {
    if (takeKey(*event)) {
        return;
    }
    // Letters are keys of the window here, not a search for a name.
    const bool isLetter = !event->text().isEmpty() && event->text()[0].isLetterOrNumber();
    if (isLetter) {
        event->ignore();
        return;
    }
    QListView::keyPressEvent(event);
}

}  // namespace ohmwright
