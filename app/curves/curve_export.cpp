// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_export.h"

#include "core/files/atomic_file.h"
#include "core/files/curve_csv.h"

#include <QClipboard>
#include <QFileDialog>
#include <QFileInfo>
#include <QGuiApplication>
#include <QMimeData>

#include <algorithm>
#include <array>
#include <filesystem>

namespace ohmwright {

namespace {

const std::array endings{QStringLiteral("svg"), QStringLiteral("png"), QStringLiteral("csv")};

QString kindId(CurveKind kind) {
    const std::string_view id = curveKindNames[static_cast<std::size_t>(kind)].id;
    return QString::fromUtf8(id.data(), static_cast<qsizetype>(id.size()));
}

std::string bytesOf(const ShownCurve& shown, const QString& ending) {
    if (ending == endings[0]) {
        return curveSheetSvg(shown.sheet).toStdString();
    }
    return ending == endings[1] ? curveSheetPng(shown.sheet).toStdString() : writeCurveCsv(sideBySide(shown.curve));
}

}  // namespace

CurveExport::CurveExport(std::function<ShownCurve()> shown, QWidget& parent)
    : QObject(&parent), m_shown(std::move(shown)), m_parent(parent) {}

bool CurveExport::refuse(const QString& sentence) {
    emit refused(sentence);
    return false;
}

bool CurveExport::copyPicture() {
    const ShownCurve shown = m_shown();
    if (!shown.obstacle.isEmpty()) {
        return refuse(shown.obstacle);
    }
    if (shown.kind == CurveKind::bias) {
        return refuse(tr("Bias is a table and has no picture: export its values as CSV."));
    }
    auto* data = new QMimeData;
    data->setImageData(curveSheetImage(shown.sheet));
    data->setData(QStringLiteral("image/svg+xml"), curveSheetSvg(shown.sheet));
    QGuiApplication::clipboard()->setMimeData(data);
    emit said(tr("picture copied: %1").arg(shown.sheet.title));
    return true;
}

void CurveExport::ask() {
    const ShownCurve shown = m_shown();
    if (!shown.obstacle.isEmpty()) {
        refuse(shown.obstacle);
        return;
    }
    QStringList filters{tr("Picture, scalable (*.svg)"), tr("Picture (*.png)"), tr("Values (*.csv)")};
    if (shown.kind == CurveKind::bias) {
        filters = {filters.last()};
    }
    QString filter = filters.first();
    const QString offered = QStringLiteral("%1 %2").arg(shown.unit, kindId(shown.kind)).simplified().replace('/', '-');
    QString path = QFileDialog::getSaveFileName(&m_parent, tr("Export curve"), offered,
                                                filters.join(QStringLiteral(";;")), &filter);
    if (path.isEmpty()) {
        return;
    }
    if (std::find(endings.begin(), endings.end(), QFileInfo(path).suffix().toLower()) == endings.end()) {
        path += filter.mid(filter.lastIndexOf(QLatin1Char('.')), 4);
    }
    write(path);
}

bool CurveExport::write(const QString& path) {
    const ShownCurve shown = m_shown();
    if (!shown.obstacle.isEmpty()) {
        return refuse(shown.obstacle);
    }
    const QString ending = QFileInfo(path).suffix().toLower();
    if (std::find(endings.begin(), endings.end(), ending) == endings.end()) {
        return refuse(tr("A curve is written as .svg, .png or .csv: end the file's name with one of these."));
    }
    if (shown.kind == CurveKind::bias && ending != endings[2]) {
        return refuse(tr("Bias is a table and has no picture: export its values as CSV."));
    }
    const Result<void> written = replaceFile(std::filesystem::path(path.toStdU16String()), bytesOf(shown, ending));
    if (!written) {
        return refuse(QString::fromStdString(written.error().message));
    }
    emit said(tr("curve written: %1").arg(path));
    return true;
}

}  // namespace ohmwright
