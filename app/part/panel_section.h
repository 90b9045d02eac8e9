/// A section of the part panel: a line over it, and the panel's margins.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFrame>
#include <QVBoxLayout>

namespace ohmwright {

/// Between the panel's edge and what stands in it [px].
inline constexpr int partMargin = 14;

inline QFrame* ruler(QWidget* parent) {
    auto* line = new QFrame(parent);
    line->setFixedHeight(1);
    line->setAutoFillBackground(true);
    line->setBackgroundRole(QPalette::Midlight);
    return line;
}

/// The layout in which the section's rows go. @param sideMargin  0 for a list that goes from edge to edge.
inline QVBoxLayout* layOutSection(QWidget& box, int sideMargin = partMargin) {
    auto* outer = new QVBoxLayout(&box);
    outer->setContentsMargins(0, 0, 0, 0);
    outer->setSpacing(0);
    outer->addWidget(ruler(&box));
    auto* inner = new QVBoxLayout;
    inner->setContentsMargins(sideMargin, 10, sideMargin, 10);
    inner->setSpacing(4);
    outer->addLayout(inner);
    return inner;
}

}  // namespace ohmwright
