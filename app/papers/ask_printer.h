/// The system's dialog for a printer, and what is then printed on it.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/papers/paper_frame.h"

#include <QPageLayout>
#include <QString>

#include <functional>

class QPrinter;
class QPagedPaintDevice;
class QWidget;

namespace ohmwright {

struct PrinterAsked {
    QString title;  ///< "Print the bench sheet"
    PaperSize size = PaperSize::a4;
    QPageLayout::Orientation orientation = QPageLayout::Portrait;
};

/// Prints with `print` if a printer was chosen.
void askPrinter(QWidget* parent, const PrinterAsked& asked, const std::function<void(QPagedPaintDevice&)>& print);

}  // namespace ohmwright
