// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/checklist/work_list.h"

#include "app/checklist/bench_label.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "core/base/number_text.h"
#include "core/bench/judge_step.h"
#include "core/bench/place_hint.h"

#include <QHeaderView>
#include <QPainter>
#include <QTableWidget>
#include <QTimer>
#include <QVBoxLayout>

#include <algorithm>

namespace ohmwright {

namespace {

struct Standing {
    QString words;
    QColor ThemeColours::*colour;
};

Standing standingOf(const WorkLog& log, std::size_t step) {
    const std::optional<StepMark>& mark = log.mark(step);
    if (!mark) {
        return {QObject::tr("open"), &ThemeColours::ink2};
    }
    const QString read = saidText(mark->read);
    switch (mark->result) {
        case StepResult::passed:
            return {read.isEmpty() ? QObject::tr("done") : read, &ThemeColours::measured};
        case StepResult::failed:
            return {read.isEmpty() ? QObject::tr("failed") : QObject::tr("failed, %1").arg(read), &ThemeColours::stop};
        case StepResult::skipped:
            return {QObject::tr("skipped"), &ThemeColours::stop};
        case StepResult::refused:
            return {QObject::tr("refused"), &ThemeColours::stop};
    }
    return {};
}

/// The group whose card stands beside a powered step.
const PoweredGroup* groupOf(const WorkPlan& work, std::size_t step) {
    const StepKind kind = work.steps[step].kind;
    if (kind == StepKind::probe) {
        return &work.powered[static_cast<std::size_t>(work.steps[step].sheet)];
    }
    const bool isNext = step + 1 < work.steps.size() && work.steps[step + 1].kind == StepKind::probe;
    return kind == StepKind::powerUp && isNext ? groupOf(work, step + 1) : nullptr;
}

QString voltsBand(double low, double high) {
    return QObject::tr("%1 to %2 V").arg(text(formatFixed(low, 2)), text(formatFixed(high, 2)));
}

QString placeSentence(const Circuit& circuit, const QString& colour, const Probe& probe) {
    const QString hint = text(placeHint(circuit, probe));
    const QString place = text(probe.words);
    return colour + ": " + place + (hint.isEmpty() ? QString() : ", " + hint);
}

}  // namespace

WorkList::WorkList(QWidget* parent)
    : QWidget(parent),
      m_title(new BenchLabel(bench::place, true, &ThemeColours::ink, this)),
      m_note(new BenchLabel(bench::small, false, &ThemeColours::ink2, this)),
      m_table(new QTableWidget(this)),
      m_red(new BenchLabel(bench::small, true, &ThemeColours::ink, this)),
      m_black(new BenchLabel(bench::small, true, &ThemeColours::ink, this)),
      m_legs(new BenchLabel(bench::small, false, &ThemeColours::ink2, this)) {
    setAccessibleName(tr("Order of work"));
    m_table->setAccessibleName(tr("Steps"));
    m_table->setFocusPolicy(Qt::NoFocus);
    m_table->setSelectionMode(QAbstractItemView::NoSelection);
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setShowGrid(false);
    m_table->setFrameShape(QFrame::NoFrame);
    m_table->setWordWrap(true);
    m_table->setTextElideMode(Qt::ElideNone);
    m_table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    // The columns take their widths when the table is laid out; only then the rows know their heights.
    connect(m_table->horizontalHeader(), &QHeaderView::sectionResized, m_table, &QTableWidget::resizeRowsToContents);
    m_table->verticalHeader()->hide();
    m_table->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    // The place's own ground shows through.
    QPalette own = palette();
    own.setColor(QPalette::Base, Qt::transparent);
    m_table->setPalette(own);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(24, 18, 16, 18);
    layout->setSpacing(6);
    for (QWidget* part : std::initializer_list<QWidget*>{m_title, m_note}) {
        layout->addWidget(part);
    }
    layout->addWidget(m_table, 1);
    for (QWidget* part : std::initializer_list<QWidget*>{m_red, m_black, m_legs}) {
        layout->addWidget(part);
    }
}

void WorkList::setShort(bool isShort) {
    m_isShort = isShort;
    m_table->setWordWrap(!isShort);
    m_table->setTextElideMode(isShort ? Qt::ElideRight : Qt::ElideNone);
    layout()->setContentsMargins(24, isShort ? 8 : 18, 16, isShort ? 8 : 18);
    followRows();
    for (QWidget* part : std::initializer_list<QWidget*>{m_title, m_note, m_red, m_black, m_legs}) {
        part->setVisible(!isShort);
    }
}

/// Beside the board whole rows alone: the step with the one before and the one after.
void WorkList::followRows() {
    constexpr int shortRows = 3;
    m_table->resizeRowsToContents();
    if (!m_isShort) {
        setMinimumHeight(0);
        setMaximumHeight(QWIDGETSIZE_MAX);
    } else if (m_table->rowCount() > 0) {
        int rows = 0;
        for (int row = 0; row < std::min(shortRows, m_table->rowCount()); ++row) {
            rows += m_table->rowHeight(row);
        }
        const QMargins around = layout()->contentsMargins();
        setFixedHeight(around.top() + m_table->horizontalHeader()->sizeHint().height() + rows + around.bottom());
    }
    if (const QTableWidgetItem* here = m_table->item(m_here, 0)) {
        m_table->scrollToItem(here, QAbstractItemView::PositionAtCenter);
    }
}

void WorkList::showWork(const WorkPlan& work, const WorkLog& log, std::size_t step) {
    m_table->clear();
    m_table->setRowCount(0);
    if (groupOf(work, step) != nullptr) {
        showCard(work, log, step);
    } else {
        showOrder(work, log, step);
    }
    showPlaces(work, step);
    setShort(m_isShort);
    // Widths are known once the layouts have run.
    QTimer::singleShot(0, this, &WorkList::followRows);
}

void WorkList::showOrder(const WorkPlan& work, const WorkLog& log, std::size_t step) {
    m_title->say(tr("Order of work"));
    m_note->say(tr("a skipped step stays red, here and on paper"));
    m_table->setColumnCount(5);
    m_table->setHorizontalHeaderLabels({"", tr("mod"), tr("step"), tr("allowed"), tr("read")});
    for (std::size_t k = 0; k < work.steps.size(); ++k) {
        const Standing standing = standingOf(log, k);
        addRow({QString::number(k + 1), text(work.steps[k].letter), text(work.steps[k].title),
                text(allowedWords(work.steps[k])), standing.words},
               standing.colour, k == step);
    }
    m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_table->horizontalHeader()->setSectionResizeMode(2, QHeaderView::Stretch);
    // The step at hand says what is allowed: where there is little room, titles take it.
    constexpr int roomy = 900;
    m_table->setColumnHidden(3, m_isShort && width() < roomy);
    m_here = static_cast<int>(step);
}

void WorkList::showCard(const WorkPlan& work, const WorkLog& log, std::size_t step) {
    const PoweredGroup& group = *groupOf(work, step);
    m_title->say(tr("Probe card"));
    m_note->say(text(group.card.words));
    m_table->setColumnCount(5);
    m_table->setHorizontalHeaderLabels(
        {tr("place"), tr("should be"), tr("allowed"), tr("by copies alone"), tr("read")});
    int here = 0;
    for (std::size_t line = 0; line < group.card.lines.size(); ++line) {
        const ProbeLine& probe = group.card.lines[line];
        Standing standing{"", &ThemeColours::ink};
        bool isHere = false;
        for (std::size_t k = 0; k < work.steps.size(); ++k) {
            const BenchStep& each = work.steps[k];
            if (each.kind == StepKind::probe && &work.powered[static_cast<std::size_t>(each.sheet)] == &group &&
                each.line == line) {
                standing = standingOf(log, k);
                isHere = k == step;
            }
        }
        here = isHere ? static_cast<int>(line) : here;
        const bool byCopies = probe.highByDevices - probe.lowByDevices >= 0.01;
        addRow({text(probe.place), text(formatFixed(probe.nominal, 2)) + " V", voltsBand(probe.low, probe.high),
                byCopies ? voltsBand(probe.lowByDevices, probe.highByDevices) : tr("none"), standing.words},
               standing.colour, isHere);
    }
    if (group.card.supply) {
        constexpr double milli = 1e3;
        const auto& supply = *group.card.supply;
        addRow(
            {tr("supply current"), text(formatFixed(milli * supply.nominal, 2)) + " mA",
             tr("%1 to %2 mA").arg(text(formatFixed(milli * supply.low, 2)), text(formatFixed(milli * supply.high, 2))),
             "", ""},
            &ThemeColours::ink, work.steps[step].kind == StepKind::powerUp);
    }
    m_table->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    m_table->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    m_table->setColumnHidden(3, false);
    m_here = here;
}

void WorkList::showPlaces(const WorkPlan& work, std::size_t step) {
    const BenchStep& own = work.steps[step];
    const bool hasPlaces = own.check && own.check->kind != CheckKind::tone && !work.powered.empty();
    if (!hasPlaces) {
        m_red->say({});
        m_black->say({});
        m_legs->say({});
        return;
    }
    // The board that stands on the bench at this step: of its own group.
    std::size_t group = 0;
    for (std::size_t k = 0; k < step; ++k) {
        group += work.steps[k].kind == StepKind::powerUp && own.kind != StepKind::probe ? 1 : 0;
    }
    const std::size_t sheet = own.kind == StepKind::probe ? static_cast<std::size_t>(own.sheet) : group;
    const Circuit& circuit = work.powered[std::min(sheet, work.powered.size() - 1)].finished;
    m_red->say(placeSentence(circuit, tr("red"), own.check->red));
    m_black->say(placeSentence(circuit, tr("black"), own.check->black));
    m_legs->say(text(legsAtPlace(circuit, own.check->red)));
}

void WorkList::addRow(const QStringList& cells, QColor ThemeColours::*colour, bool isHere) {
    const ThemeColours& c = Theme::current().colours();
    const int row = m_table->rowCount();
    m_table->insertRow(row);
    for (int column = 0; column < cells.size(); ++column) {
        auto* item = new QTableWidgetItem(cells[column]);
        item->setFlags(Qt::ItemIsEnabled);
        item->setFont(benchFont(bench::small, isHere));
        const bool isLast = column + 1 == cells.size();
        item->setForeground(isHere && !isLast ? c.ink : isLast ? c.*colour : c.ink2);
        if (isHere) {
            item->setBackground(c.raised);
        }
        m_table->setItem(row, column, item);
    }
}

QStringList WorkList::rows() const {
    QStringList rows;
    for (int row = 0; row < m_table->rowCount(); ++row) {
        QStringList cells;
        for (int column = 0; column < m_table->columnCount(); ++column) {
            cells << m_table->item(row, column)->text();
        }
        rows << cells.join(" | ");
    }
    return rows;
}

}  // namespace ohmwright
