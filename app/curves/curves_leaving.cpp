/// What leaves the curves: pictures and values of what is shown.
// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curves_panel.h"

#include "app/background/solver_service.h"
#include "app/curves/clip_figures.h"
#include "app/curves/clip_plot.h"
#include "app/curves/cursor_column.h"
#include "app/curves/curve_pane.h"
#include "app/curves/hair_rule.h"
#include "app/curves/job_sheet.h"
#include "app/curves/response_plot.h"
#include "app/curves/table_plot.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/level_units.h"
#include "core/measure/curve_read.h"
#include "core/plan/pinned.h"

#include <QDir>
#include <QHBoxLayout>
#include <QMenu>
#include <QPixmap>
#include <QVBoxLayout>

namespace ohmwright {

namespace {

constexpr QSize pictureSize{1120, 560};

/// Lays the page out and draws it without ever showing it.
bool savePage(QWidget& page, CurveKind kind, std::vector<LegendEntry> legend, QLayout* body, const QString& path) {
    auto* tabs = new CurveTabs(&page);
    tabs->setKinds({kind});
    tabs->setShown({kind});
    tabs->setLegend(std::move(legend));
    auto* layout = new QVBoxLayout(&page);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(tabs);
    layout->addLayout(body, 1);
    page.setAttribute(Qt::WA_DontShowOnScreen);
    page.resize(pictureSize);
    page.show();
    for (auto* plot : page.findChildren<ResponsePlot*>()) {
        plot->replotNow();
    }
    for (auto* plot : page.findChildren<ClipPlot*>()) {
        plot->replotNow();
    }
    return page.grab().save(path, "PNG");
}

}  // namespace

void CurvesPanel::showMenu(CurvePlot& plot, const QPoint& at) {
    plot.setFocus(Qt::PopupFocusReason);
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    menu->addAction(tr("&Copy picture"), m_export, [this] { m_export->copyPicture(); });
    menu->addAction(tr("&Export …"), m_export, [this] { m_export->ask(); });
    menu->addSeparator();
    menu->addAction(tr("&Values as table"), this, &CurvesPanel::toggleTable);
    menu->addAction(tr("Pin &ghost"), this, &CurvesPanel::pinNow);
    if (auto* clip = qobject_cast<ClipPlot*>(&plot)) {
        QAction* equal = menu->addAction(tr("&Equal scales"), clip, &ClipPlot::setEqualScales);
        equal->setShortcut(Qt::Key_E);
        equal->setCheckable(true);
        equal->setChecked(clip->hasEqualScales());
    }
    if (plot.isZoomed()) {
        menu->addAction(tr("&Whole axis"), &plot, [&plot] { plot.showHz(wholeHz); });
    }
    menu->popup(at);
}

/// Why a kind may not leave as it is; empty when it may.
QString CurvesPanel::obstacle(CurveKind kind) const {
    const bool isLinear = kind == CurveKind::response;
    const bool isOwn = isLinear || kind == CurveKind::clip;
    const CurveService& service = m_panes[index(m_side)]->service();
    const bool hasCurrent = isOwn ? (isLinear ? isLinearOfJob() : isLargeSignalOfJob())
                                  : service.isCurrent() && service.answer()->curve.has_value();
    if (hasCurrent) {
        return {};
    }
    const QString own = !isOwn && service.isCurrent() ? service.answer()->fault : QString();
    const QString fault = own.isEmpty() ? m_solver.fault() : own;
    if (!fault.isEmpty()) {
        return tr("The curve is not current and does not leave: %1").arg(fault);
    }
    return lack().isEmpty() ? tr("The curve is still being solved: it leaves when it is there.") : lack();
}

std::optional<ComparedCurve> CurvesPanel::curveOf(CurveKind kind) const {
    const Ports& ports = m_document.job()->stock.ports;
    if (kind == CurveKind::response && m_linear) {
        return ComparedCurve{tableOfResponse(m_linear->stock.response, ports.output),
                             tableOfResponse(m_linear->now.response, ports.output)};
    }
    if (kind == CurveKind::clip && m_largeSignal) {
        return ComparedCurve{tableOfClip(m_largeSignal->stock.clip, ports.clipNode),
                             tableOfClip(m_largeSignal->now.clip, ports.clipNode)};
    }
    const CurveAnswer* answer = m_panes[index(m_side)]->service().answer();
    return answer != nullptr && answer->kind == kind ? answer->curve : std::nullopt;
}

ShownCurve CurvesPanel::shownCurve() const {
    const CurveKind kind = kindAt(m_side);
    ShownCurve shown{kind, QString::fromStdString(m_document.job()->unit.name), obstacle(kind), {}, {}};
    const std::optional<ComparedCurve> curve = curveOf(kind);
    if (shown.obstacle.isEmpty() && curve) {
        shown.curve = *curve;
        shown.sheet = sheetOf(kind, *curve);
    }
    return shown;
}

CurveSheet CurvesPanel::sheetOf(CurveKind kind, const ComparedCurve& curve) const {
    const Job& job = *m_document.job();
    CurveSheet sheet = headOfSheet(kind, job);
    const LevelUnit unitOfLevels = LevelUnits::current().unit();
    if (kind == CurveKind::response) {
        sheet.curve = curve;
        sheet.axes = responseAxes(m_response->gainShown());
        sheet.pins = m_response->pins();
    } else if (kind == CurveKind::clip) {
        sheet.curve = m_clip->drawnTables();
        sheet.axes = clipAxes(m_clip->voltsShown(), m_clip->pickShown(), job.setting, unitOfLevels, m_clip->node());
        sheet.pins = m_clip->drawnPins();
    } else if (const TablePlot& plot = m_panes[index(m_side)]->plot(); plot.drawnTables() && plot.kind() == kind) {
        sheet.curve = *plot.drawnTables();
        sheet.axes = plot.axes();
        sheet.pins = plot.drawnPins();
    } else {
        // Shown as its values, the kind is not drawn; its picture is made all the same.
        sheet.curve = asDrawn(curve, unitOfLevels);
        sheet.axes = kind == CurveKind::bias ? TableAxes() : tableAxes(sheet.curve, job.setting, unitOfLevels);
    }
    for (const PinnedCurve& pin : sheet.pins) {
        const PinnedState* state = findPinned(job, pin.letter.toStdString());
        sheet.pinNames.push_back(state != nullptr ? QString::fromStdString(state->name) : QString());
    }
    return sheet;
}

bool CurvesPanel::savePictures(const QString& folder) const {
    const bool isCurrent = m_response->state().isCurrent && m_clip->state().isCurrent;
    if (!m_linear || !m_largeSignal || !isCurrent) {
        return false;
    }
    const QDir place(folder);
    return saveResponse(place.filePath(QStringLiteral("response.png"))) &&
           saveClip(place.filePath(QStringLiteral("clip.png")));
}

bool CurvesPanel::saveResponse(const QString& path) const {
    QWidget page;
    auto* response = new ResponsePlot(&page);
    auto* cursor = new CursorColumn(&page);
    response->setAnswer(m_linear.get());
    response->setThrows(m_throws);
    response->setPins(m_response->pins());
    response->setCursorHz(m_selection.cursorHz());
    cursor->setReadout(readoutOf(*m_response));
    auto* body = new QHBoxLayout;
    body->setSpacing(0);
    body->addWidget(response, 1);
    body->addWidget(new HairRule(&page));
    body->addWidget(cursor);
    return savePage(page, CurveKind::response, legend(), body, path);
}

bool CurvesPanel::saveClip(const QString& path) const {
    QWidget page;
    auto* clip = new ClipPlot(&page);
    auto* figures = new ClipFigures(&page);
    clip->setAnswer(m_largeSignal.get());
    figures->setRows(clipRows(*m_largeSignal, false));
    auto* body = new QVBoxLayout;
    body->setSpacing(0);
    body->addWidget(clip, 1);
    body->addWidget(figures);
    return savePage(page, CurveKind::clip, legend(), body, path);
}

}  // namespace ohmwright
