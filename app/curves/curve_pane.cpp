// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/curves/curve_pane.h"

#include "app/curves/curve_table_model.h"
#include "app/curves/table_plot.h"
#include "app/document/job_document.h"
#include "app/look/level_units.h"
#include "app/look/said_text.h"
#include "app/look/theme.h"
#include "core/measure/curve_read.h"
#include "core/measure/model_notes.h"
#include "core/plan/apply.h"

#include <QHeaderView>
#include <QTableView>

#include <algorithm>

namespace ohmwright {

namespace {

QString kindName(CurveKind kind) {
    const auto found = std::find_if(curveKindNames.begin(), curveKindNames.end(),
                                    [kind](const CurveKindName& each) { return each.kind == kind; });
    return saidText(found->name);
}

}  // namespace

CurvePane::CurvePane(JobDocument& document, QWidget* parent)
    : QStackedWidget(parent),
      m_document(document),
      m_service(document),
      m_plot(new TablePlot(this)),
      m_table(new QTableView(this)),
      m_model(new CurveTableModel(this)) {
    m_table->setModel(m_model);
    m_table->setTabKeyNavigation(false);  // Tab leads on; arrows walk the cells.
    m_table->setFrameShape(QFrame::NoFrame);
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->verticalHeader()->hide();
    followTheme();
    connect(&Theme::current(), &Theme::changed, this, &CurvePane::followTheme);
    m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    addWidget(m_plot);
    addWidget(m_table);
    connect(&m_service, &CurveService::changed, this, &CurvePane::follow);
    connect(&LevelUnits::current(), &LevelUnits::changed, this, &CurvePane::follow);
}

void CurvePane::show(CurveKind kind, bool asTable) {
    m_isTable = asTable || kind == CurveKind::bias;
    setCurrentWidget(m_isTable ? static_cast<QWidget*>(m_table) : m_plot);
    m_plot->setAccessibleName(kindName(kind));
    m_table->setAccessibleName(tr("Table of %1").arg(kindName(kind)));
    setFocusProxy(currentWidget());
    m_service.show(kind);
    follow();
}

void CurvePane::rest() {
    m_service.show(std::nullopt);
}

void CurvePane::setHoldsStock(bool holds) {
    m_plot->setHoldsStock(holds);
}

void CurvePane::setPins(std::vector<PinnedCurve> pins) {
    m_plot->setPins(std::move(pins));
}

void CurvePane::setCursorHz(double hz) {
    m_cursorHz = hz;
    if (m_plot->kind() == CurveKind::noise) {
        m_plot->setCursorAt(hz);
    }
}

CursorReadout CurvePane::readout() const {
    CursorReadout readout = m_plot->readout();
    if (const CurveAnswer* answer = m_service.answer()) {
        readout.conditions = conditionsText(answer->kind, *answer->job);
    }
    return readout;
}

void CurvePane::setLack(const QString& sentence) {
    m_lack = sentence;
    follow();
}

void CurvePane::followTheme() {
    constexpr double air = 1.35;
    m_table->verticalHeader()->setDefaultSectionSize(qRound(air * Theme::current().pixels(TextRole::body)) + 2);
}

void CurvePane::follow() {
    const CurveAnswer* answer = m_service.answer();
    const bool hasCurve = answer != nullptr && answer->curve;
    const bool isCurrent = answer != nullptr && m_service.isCurrent();
    m_plot->setState({isCurrent ? hasCurve : !hasCurve, isCurrent ? answer->fault : QString(),
                      isCurrent && hasCurve ? QString() : m_lack});
    // A table cannot be stamped: old figures are not shown in it.
    const bool isTabled = m_isTable && hasCurve && isCurrent;
    const LevelUnit unit = LevelUnits::current().unit();
    m_model->setTable(isTabled
                          ? sideBySide({inLevelUnit(answer->curve->stock, unit), inLevelUnit(answer->curve->now, unit)})
                          : CurveTable());
    if (!m_isTable) {
        m_plot->setCurve(hasCurve ? &*answer->curve : nullptr,
                         (answer != nullptr ? *answer->job : *m_document.job()).setting);
        setCursorHz(m_cursorHz);
        const Result<Circuit> now = answer != nullptr ? nowCircuit(*answer->job) : Result<Circuit>(Circuit());
        m_plot->setNote(answer != nullptr && now
                            ? QString::fromStdString(modelNotes(answer->kind, answer->job->stock, *now))
                            : QString());
    }
}

}  // namespace ohmwright
