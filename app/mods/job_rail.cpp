// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/job_rail.h"

#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/icons.h"
#include "app/look/panel_title.h"
#include "app/look/sign_text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/mods/mod_list.h"
#include "app/mods/mod_menu.h"
#include "app/mods/mods_model.h"
#include "app/mods/unit_view.h"
#include "app/mods/value_form.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/plan/compare.h"
#include "core/plan/edits.h"

#include <QMenu>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>
#include <utility>

namespace ohmwright {

namespace {

constexpr int margin = 12;

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QFrame* ruler(QWidget* parent) {
    auto* line = new QFrame(parent);
    line->setFixedHeight(1);
    line->setAutoFillBackground(true);
    line->setBackgroundRole(QPalette::Midlight);
    return line;
}

/// "All on: A, B"; "None on".
QString lettersOn(const Plan& plan) {
    QStringList letters;
    for (const Mod& mod : plan) {
        if (mod.on) {
            letters << text(mod.letter);
        }
    }
    return letters.isEmpty() ? QString("None on") : "All on: " + letters.join(", ");
}

QString conditionText(const Setting& setting) {
    return QString("Level out in dB, %1, %2 mVpk")
        .arg(text(formatFrequency(setting.toneHz)), text(formatFigure(setting.pickVoltsPeak * 1e3)));
}

}  // namespace

JobRail::JobRail(JobDocument& document, Selection& selection, SolverService& solver, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_selection(selection),
      m_solver(solver),
      m_mods(new ModsModel(document, this)),
      m_menu(new ModMenu(document, this)) {
    setFixedWidth(sizeHint().width());
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(new UnitView(document, this));
    layout->addWidget(ruler(this));
    addModsSection(*layout);
    addTotalSection(*layout);
    addNewModSection(*layout);
    layout->addStretch(1);
    connectList();
    connect(m_menu, &ModMenu::valueAsked, this, &JobRail::ask);
    connect(&document, &JobDocument::jobChanged, this, &JobRail::followJob);
    connect(&selection, &Selection::partChanged, this, &JobRail::followPart);
    connect(&solver, &SolverService::linearReady, this, &JobRail::showCornerNote);
    connect(&solver, &SolverService::largeSignalReady, this, &JobRail::showEffects);
    connect(&solver, &SolverService::stateChanged, this, &JobRail::followState);
    connect(&Theme::current(), &Theme::changed, this, [this] { setFixedWidth(sizeHint().width()); });
    followJob();
    followState();
}

QSize JobRail::sizeHint() const {
    return {qRound(space::leftRail * Theme::current().textScale()), 400};
}

void JobRail::setModels(std::vector<Model> models) {
    m_menu->setModels(std::move(models));
}

void JobRail::addModsSection(QVBoxLayout& layout) {
    auto* head = new PanelTitle("Mods", this);
    head->setColumns({{"alone", 0}});
    head->setContentsMargins(0, 0, 0, 0);
    auto* headBox = new QVBoxLayout;
    headBox->setContentsMargins(margin, 8, margin, 2);
    headBox->addWidget(head);
    layout.addLayout(headBox);
    m_list = new ModList(this);
    m_list->setModel(m_mods);
    layout.addWidget(m_list);
    m_empty = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this);
    m_empty->setText("No mods yet. Select a part and type its new value.");
    m_empty->setWordWrap(true);
    m_empty->setContentsMargins(margin, 4, margin, 8);
    layout.addWidget(m_empty);
}

void JobRail::addTotalSection(QVBoxLayout& layout) {
    m_together = new ThemedLabel(TextRole::body, false, &ThemeColours::ink, this);
    m_together->setWordWrap(true);
    m_togetherDb = new ThemedLabel(TextRole::body, true, &ThemeColours::ink, this);
    m_togetherDb->setAlignment(Qt::AlignRight | Qt::AlignTop);
    m_condition = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this);
    m_cornerNote = new SignText(this);
    auto* total = new QHBoxLayout;
    total->addWidget(m_together, 1);
    total->addWidget(m_togetherDb);
    auto* section = new QVBoxLayout;
    section->setContentsMargins(margin, 10, margin, 0);
    section->setSpacing(3);
    section->addLayout(total);
    section->addWidget(m_condition);
    section->addWidget(m_cornerNote);
    layout.addLayout(section);
}

void JobRail::addNewModSection(QVBoxLayout& layout) {
    m_addMod = new QPushButton(icon(IconName::plus), "Add mod", this);
    m_addTo = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, this);
    m_form = new ValueForm(this);
    auto* section = new QVBoxLayout;
    section->setContentsMargins(margin, 10, margin, margin);
    section->setSpacing(4);
    section->addWidget(m_addMod);
    section->addWidget(m_addTo);
    section->addWidget(m_form);
    layout.addLayout(section);
    connect(m_addMod, &QPushButton::clicked, this, [this] {
        m_menu->build(m_selection.part(), this)->popup(m_addMod->mapToGlobal(QPoint(0, m_addMod->height())));
    });
    connect(m_form, &ValueForm::closed, m_addMod, [this] { m_addMod->setFocus(Qt::OtherFocusReason); });
}

void JobRail::connectList() {
    connect(m_list->selectionModel(), &QItemSelectionModel::currentChanged, this, [this](const QModelIndex& current) {
        if (current.isValid()) {
            m_selection.setPart(current.data(ModsModel::PartRole).toString().toStdString());
        }
    });
    // A row that is current already still brings its part back.
    connect(m_list, &QListView::clicked, this, [this](const QModelIndex& index) {
        m_selection.setPart(index.data(ModsModel::PartRole).toString().toStdString());
    });
    connect(m_list, &QListView::customContextMenuRequested, this, &JobRail::showRowMenu);
    connect(m_list, &ModList::removeAsked, this, &JobRail::removeModAt);
    connect(m_list, &ModList::moveAsked, this, &JobRail::moveModBy);
    connect(m_list, &ModList::letterPressed, this, &JobRail::toggleMod);
    connect(m_list, &ModList::muteAsked, this, &JobRail::muteSelectedPart);
}

void JobRail::followJob() {
    const bool hasMods = m_mods->rowCount() > 0;
    m_list->setVisible(hasMods);
    m_list->updateGeometry();
    m_empty->setVisible(!hasMods);
    showWords();
    followPart();
}

/// The row of the selected part is current; a current row that is on the part stays.
void JobRail::followPart() {
    const QString part = text(m_selection.part());
    const Circuit now = circuitNow(*m_document.job());
    const Part* selected = findPart(now, m_selection.part());
    m_addMod->setEnabled(selected != nullptr);
    m_addTo->setText(selected ? "to " + text(displayName(*selected)) : QString("select a part first"));
    const auto isOnPart = [&part](const QModelIndex& index) {
        // A part that a mod has fitted carries the mod's id.
        return index.isValid() && !part.isEmpty() &&
               (index.data(ModsModel::PartRole) == part || index.data(ModsModel::IdRole) == part);
    };
    if (isOnPart(m_list->currentIndex())) {
        return;
    }
    QModelIndex found;
    for (int row = 0; row < m_mods->rowCount() && !found.isValid(); ++row) {
        if (isOnPart(m_mods->index(row))) {
            found = m_mods->index(row);
        }
    }
    const QSignalBlocker noEcho(m_list->selectionModel());
    m_list->setCurrentIndex(found);
    if (!found.isValid()) {
        m_list->clearSelection();
    }
    m_list->viewport()->update();
}

void JobRail::showCornerNote() {
    const auto answer = m_solver.linear();
    const QString note = answer ? text(cornerNote(answer->stock, answer->now)) : QString();
    m_cornerNote->setSentence(note, SignKind::care);
    m_cornerNote->setVisible(!note.isEmpty());
}

void JobRail::showEffects() {
    if (const auto answer = m_solver.largeSignal()) {
        m_mods->showEffects(answer->job->plan, answer->modAloneDb);
        m_togetherDb->setText(text(formatFixed(answer->togetherDb, 2, Sign::always)) + " dB");
    }
}

/// While a value turns the last figures stay; when the service says that they are old, they go.
void JobRail::followState() {
    if (m_solver.isCurrent()) {
        showCornerNote();
        showEffects();
        return;
    }
    m_mods->clearEffects();
    m_cornerNote->hide();
    m_togetherDb->setText(m_solver.fault().isEmpty() ? "solving" : "not current");
}

void JobRail::showWords() {
    const Job& job = *m_document.job();
    const bool hasMods = !job.plan.empty();
    for (QWidget* shownWithMods : {m_together, m_togetherDb, m_condition}) {
        shownWithMods->setVisible(hasMods);
    }
    m_together->setText(lettersOn(job.plan));
    m_condition->setText(conditionText(job.setting));
}

void JobRail::toggleMod(const QString& letter) {
    for (int row = 0; row < m_mods->rowCount(); ++row) {
        if (m_mods->index(row).data(ModsModel::LetterRole) == letter) {
            switchMod(m_mods->index(row));
            return;
        }
    }
}

void JobRail::muteSelectedPart() {
    // followPart() has made the part's row current.
    if (m_list->currentIndex().isValid()) {
        switchMod(m_list->currentIndex());
    }
}

void JobRail::switchMod(const QModelIndex& index) {
    const bool isOn = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    m_mods->setData(index, isOn ? Qt::Unchecked : Qt::Checked, Qt::CheckStateRole);
}

void JobRail::removeModAt(const QModelIndex& index) {
    const int row = index.row();
    const QString letter = index.data(ModsModel::LetterRole).toString();
    m_document.edit(removeMod(*m_document.job(), index.data(ModsModel::IdRole).toString().toStdString()),
                    "Remove mod " + letter);
    m_list->setCurrentIndex(m_mods->index(std::min(row, m_mods->rowCount() - 1)));
}

void JobRail::moveModBy(const QModelIndex& index, int by) {
    const int to = index.row() + by;
    if (to < 0 || to >= m_mods->rowCount()) {
        return;
    }
    const std::string id = index.data(ModsModel::IdRole).toString().toStdString();
    const QString letter = index.data(ModsModel::LetterRole).toString();
    m_document.edit(moveMod(*m_document.job(), id, to), QString("Move mod %1 %2").arg(letter, by < 0 ? "up" : "down"));
    m_list->setCurrentIndex(m_mods->indexOfMod(id));
}

void JobRail::showRowMenu(const QPoint& at) {
    const QPersistentModelIndex index = m_list->indexAt(at);
    if (!index.isValid()) {
        return;
    }
    auto* menu = new QMenu(this);
    menu->setAttribute(Qt::WA_DeleteOnClose);
    const bool isOn = index.data(Qt::CheckStateRole).toInt() == Qt::Checked;
    menu->addAction(isOn ? "Switch off" : "Switch on", this, [this, index] { switchMod(index); });
    menu->addAction("Rename", this, [this, index] { m_list->edit(index); });
    menu->addSeparator();
    menu->addAction("Move up", this, [this, index] { moveModBy(index, -1); })->setEnabled(index.row() > 0);
    menu->addAction("Move down", this, [this, index] { moveModBy(index, 1); })
        ->setEnabled(index.row() + 1 < m_mods->rowCount());
    menu->addSeparator();
    menu->addAction("Remove", this, [this, index] { removeModAt(index); });
    menu->popup(m_list->viewport()->mapToGlobal(at));
}

void JobRail::ask(const ValueQuestion& question) {
    m_form->ask(question.title, question.unit, question.start, [this, question](double value) {
        Result<Job> edited = question.edit(*m_document.job(), value);
        const QString against = edited ? QString() : text(edited.error().message);
        const QString valueText = text(formatPartValue({value, question.unit}));
        m_document.edit(std::move(edited), question.editText + ' ' + valueText);
        return against;
    });
}

void JobRail::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().panel);
}

}  // namespace ohmwright
