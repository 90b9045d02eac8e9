// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/hint_field.h"

#include <QStyle>
#include <QStyleOptionFrame>

namespace ohmwright {

HintField::HintField(const QString& hint, QWidget* parent) : QLineEdit(parent) {
    setPlaceholderText(hint);
    setSizePolicy(QSizePolicy::Minimum, QSizePolicy::Fixed);
}

QSize HintField::sizeHint() const {
    constexpr int ownMargins = 6;  // What a QLineEdit keeps clear beside its words, whatever the style.
    QStyleOptionFrame frame;
    initStyleOption(&frame);
    const QSize words(fontMetrics().horizontalAdvance(placeholderText()) + ownMargins, fontMetrics().height());
    return {style()->sizeFromContents(QStyle::CT_LineEdit, &frame, words, this).width(),
            QLineEdit::sizeHint().height()};
}

}  // namespace ohmwright
