// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/papers/ask_printer.h"

#include <QPageSize>
#include <QPrintDialog>
#include <QPrinter>

namespace ohmwright {

void askPrinter(QWidget* parent, const PrinterAsked& asked, const std::function<void(QPagedPaintDevice&)>& print) {
    QPrinter printer(QPrinter::HighResolution);
    printer.setPageSize(QPageSize(asked.size == PaperSize::a4 ? QPageSize::A4 : QPageSize::Letter));
    printer.setPageOrientation(asked.orientation);
    QPrintDialog dialog(&printer, parent);
    dialog.setWindowTitle(asked.title);
    if (dialog.exec() == QDialog::Accepted) {
        print(printer);
    }
}

}  // namespace ohmwright
