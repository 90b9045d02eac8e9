/// The curve that has the keyboard leaves the program: as a picture on the clipboard, as SVG, PNG or CSV.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "app/curves/curve_sheet.h"

#include <QObject>

#include <functional>

class QWidget;

namespace ohmwright {

/// What is shown, ready to leave.
struct ShownCurve {
    CurveKind kind = CurveKind::response;
    QString unit;         ///< "Harbour Lamp"; the beginning of a file's name.
    QString obstacle;     ///< Why nothing may leave, a sentence; empty when it may.
    ComparedCurve curve;  ///< As core measures it.
    CurveSheet sheet;     ///< Empty for bias, which is a table.
};

/// What is not current does not leave: the sentence says why.
class CurveExport : public QObject {
    Q_OBJECT
public:
    /// @param shown  asked when something is to leave.
    CurveExport(std::function<ShownCurve()> shown, QWidget& parent);

    /// SVG and PNG together: the one who pastes takes what he can.
    bool copyPicture();
    /// Asks for a file's name.
    void ask();
    /// By the name's end: .svg, .png or .csv. Replaces in one step what stood there.
    bool write(const QString& path);

signals:
    void refused(const QString& sentence);
    void said(const QString& words);

private:
    bool refuse(const QString& sentence);

    std::function<ShownCurve()> m_shown;
    QWidget& m_parent;
};

}  // namespace ohmwright
