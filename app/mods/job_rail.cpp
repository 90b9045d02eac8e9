// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/mods/job_rail.h"

#include "app/background/consequence_service.h"
#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/icons.h"
#include "app/look/level_units.h"
#include "app/look/panel_title.h"
#include "app/look/said_text.h"
#include "app/look/sign_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/mods/mod_delegate.h"
#include "app/mods/mod_list.h"
#include "app/mods/mod_menu.h"
#include "app/mods/mods_model.h"
#include "app/mods/unit_view.h"
#include "app/mods/value_form.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/plan/compare.h"
#include "core/plan/edits.h"

#include <QGridLayout>
#include <QMenu>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>
#include <array>
#include <utility>

namespace ohmwright {

namespace {

constexpr int margin = 12;

QFrame* ruler(QWidget* parent) {
    auto* line = new QFrame(parent);
    line->setFixedHeight(1);
    line->setAutoFillBackground(true);
    line->setBackgroundRole(QPalette::Midlight);
    return line;
}

using Section = ConsequenceService::Section;

QStringList lettersOn(const Plan& plan) {
    QStringList letters;
    for (const Mod& mod : plan) {
        if (mod.on) {
            letters << text(mod.letter);
        }
    }
    return letters;
}

/// "All four"
QString allOf(std::size_t mods) {
    constexpr std::array all{toSay("All none"),  toSay("All one"),  toSay("All two"), toSay("All three"),
                             toSay("All four"),  toSay("All five"), toSay("All six"), toSay("All seven"),
                             toSay("All eight"), toSay("All nine")};
    return mods < all.size() ? saidText(all[mods]) : QObject::tr("All %1").arg(mods);
}

QStringList lettersOf(const std::vector<std::string>& letters) {
    QStringList words;
    for (const std::string& letter : letters) {
        words << text(letter);
    }
    return words;
}

/// "All but D"
QString allBut(const std::vector<std::string>& leftOut, std::size_t mods) {
    return leftOut.empty() ? allOf(mods) : QObject::tr("All but %1").arg(lettersOf(leftOut).join(", "));
}

QString alternativesOf(const std::vector<std::string>& leftOut) {
    if (leftOut.empty()) {
        return {};
    }
    return (leftOut.size() == 1 ? QObject::tr("%1 is an alternative to a mod on the same part")
                                : QObject::tr("%1 are alternatives to a mod on the same part"))
        .arg(lettersOf(leftOut).join(", "));
}

QString signedDb(double db) {
    return text(formatFixed(db, 2, Sign::always)) + " dB";
}

/// "sum of singles 3.23, interaction +1.26"
QString sumOf(const FigureShares& shares) {
    if (!shares.sumOfSingles || !shares.interaction || shares.mods.size() < 2) {
        return {};
    }
    // The figure stays beside its word.
    return QObject::tr("sum of singles\u00a0%1, interaction\u00a0%2")
        .arg(text(formatFixed(*shares.sumOfSingles, 2)), text(formatFixed(*shares.interaction, 2, Sign::always)));
}

/// "shares of A, B, C"
QString sharersOf(const FigureShares& shares) {
    QStringList letters;
    for (const ModShare& mod : shares.mods) {
        if (mod.share) {
            letters << text(mod.letter);
        }
    }
    return letters.size() < 2 ? QString() : QObject::tr("shares of %1").arg(letters.join(", "));
}

QString conditionText(const Setting& setting) {
    return JobRail::tr("Level out in dB, %1, %2")
        .arg(text(formatFrequency(setting.toneHz)), pickLevelText(setting.pickVoltsPeak));
}

}  // namespace

JobRail::JobRail(JobDocument& document, Selection& selection, SolverService& solver, ConsequenceService& consequences,
                 QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_selection(selection),
      m_solver(solver),
      m_consequences(consequences),
      m_mods(new ModsModel(document, this)),
      m_menu(new ModMenu(document, this)) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    layout->addWidget(new UnitView(document, this));
    layout->addWidget(ruler(this));
    addModsSection(*layout);
    addTotalSection(*layout);
    addNewModSection(*layout);
    connectList();
    connect(m_menu, &ModMenu::valueAsked, this, &JobRail::ask);
    connect(&document, &JobDocument::jobChanged, this, &JobRail::followJob);
    connect(&selection, &Selection::partChanged, this, &JobRail::followPart);
    connect(&solver, &SolverService::linearReady, this, &JobRail::showCornerNote);
    connect(&solver, &SolverService::largeSignalReady, this, &JobRail::showEffects);
    connect(&solver, &SolverService::stateChanged, this, &JobRail::followState);
    connect(&consequences, &ConsequenceService::ready, this, [this](Section section) {
        if (section == Section::together) {
            showTogether();
        }
    });
    connect(&consequences, &ConsequenceService::stateChanged, this, &JobRail::showTogether);
    connect(&Theme::current(), &Theme::changed, this, &JobRail::showColumnHeads);
    connect(&LevelUnits::current(), &LevelUnits::changed, this, &JobRail::showWords);
    followJob();
    followState();
    showTogether();
}

QSize JobRail::sizeHint() const {
    return {qRound(space::leftRail * Theme::current().textScale()), layout()->sizeHint().height()};
}

void JobRail::showColumnHeads() {
    m_head->setColumns({{tr("alone"), ModDelegate::columnWidth(m_mods) + 4}, {tr("share"), 0}});
}

void JobRail::setModels(std::vector<Model> models) {
    m_menu->setModels(std::move(models));
}

void JobRail::addModsSection(QVBoxLayout& layout) {
    m_head = new PanelTitle(tr("Mods"), this);
    showColumnHeads();
    auto* headBox = new QVBoxLayout;
    headBox->setContentsMargins(margin, 8, margin, 2);
    headBox->addWidget(m_head);
    layout.addLayout(headBox);
    m_list = new ModList(this);
    m_list->setModel(m_mods);
    layout.addWidget(m_list);
    m_empty = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this);
    m_empty->setText(tr("No mods yet. Select a part and type its new value."));
    m_empty->setWordWrap(true);
    m_empty->setContentsMargins(margin, 4, margin, 8);
    layout.addWidget(m_empty);
}

void JobRail::addTotalSection(QVBoxLayout& layout) {
    const auto label = [this](TextRole role, bool bold, QColor ThemeColours::*colour) {
        auto* made = new ThemedLabel(role, bold, colour, this);
        made->setWordWrap(true);
        return made;
    };
    const auto figure = [this] {
        auto* made = new ThemedLabel(TextRole::body, true, &ThemeColours::ink, this);
        made->setAlignment(Qt::AlignRight | Qt::AlignTop);
        return made;
    };
    m_on = label(TextRole::body, false, &ThemeColours::ink);
    m_onDb = figure();
    m_all = label(TextRole::body, false, &ThemeColours::ink);
    m_allDb = figure();
    m_sum = label(TextRole::caption, false, &ThemeColours::ink2);
    m_note = label(TextRole::caption, false, &ThemeColours::ink3);
    m_condition = label(TextRole::caption, false, &ThemeColours::ink3);
    m_cornerNote = new SignText(this);
    auto* section = new QGridLayout;
    section->setContentsMargins(margin, 10, margin, 0);
    section->setHorizontalSpacing(6);
    section->setVerticalSpacing(3);
    section->setColumnStretch(0, 1);
    section->addWidget(m_on, 0, 0);
    section->addWidget(m_onDb, 0, 1);
    section->addWidget(m_all, 1, 0);
    section->addWidget(m_allDb, 1, 1);
    int row = 2;
    for (QWidget* line : std::initializer_list<QWidget*>{m_sum, m_note, m_condition, m_cornerNote}) {
        section->addWidget(line, row++, 0, 1, 2);
    }
    layout.addLayout(section);
}

void JobRail::addNewModSection(QVBoxLayout& layout) {
    m_addMod = new QPushButton(icon(IconName::plus), tr("Add mod"), this);
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
            m_selection.setPart(current.data(ModsModel::partRole).toString().toStdString());
        }
    });
    // A row that is current already still brings its part back.
    connect(m_list, &QListView::clicked, this, [this](const QModelIndex& index) {
        m_selection.setPart(index.data(ModsModel::partRole).toString().toStdString());
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
    m_addTo->setText(selected ? tr("to %1").arg(text(displayName(*selected))) : tr("select a part first"));
    const auto isOnPart = [&part](const QModelIndex& index) {
        // A part that a mod has fitted carries the mod's id.
        return index.isValid() && !part.isEmpty() &&
               (index.data(ModsModel::partRole) == part || index.data(ModsModel::idRole) == part);
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
        m_onDb->setText(signedDb(answer->togetherDb));
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
    m_onDb->setText(m_solver.fault().isEmpty() ? tr("solving") : tr("not current"));
}

void JobRail::showTogether() {
    const auto answer = m_consequences.together();
    const bool isCurrent = answer && m_consequences.isCurrent(Section::together);
    if (!isCurrent) {
        m_mods->clearTogether();
        const QString trouble = m_consequences.trouble(Section::together);
        m_allDb->setText(trouble.isEmpty() && m_solver.fault().isEmpty() ? tr("solving") : tr("not current"));
        m_sum->hide();
        m_note->setText(trouble);
        m_note->setVisible(!trouble.isEmpty());
        return;
    }
    m_mods->showTogether(*answer);
    const bool hasAll = answer->all || !answer->allTrouble.empty();
    m_all->setVisible(hasAll);
    m_allDb->setVisible(hasAll);
    m_all->setText(allBut(answer->leftOut, m_document.job()->plan.size()));
    m_allDb->setText(answer->all && answer->all->together ? signedDb(*answer->all->together) : tr("none"));
    m_sum->setText(sumOf(answer->shared()));
    m_sum->setVisible(!m_sum->text().isEmpty());
    QStringList notes;
    const bool tellsWhose = answer->all && &answer->shared() == &answer->on;
    for (const QString& note : {alternativesOf(answer->leftOut), tellsWhose ? sharersOf(answer->shared()) : QString(),
                                text(answer->note), text(answer->allTrouble), text(answer->shared().note)}) {
        if (!note.isEmpty()) {
            notes << note;
        }
    }
    m_note->setText(notes.join(". "));
    m_note->setVisible(!notes.isEmpty());
    showColumnHeads();
    m_list->updateGeometry();
}

void JobRail::showWords() {
    const Job& job = *m_document.job();
    const bool hasMods = !job.plan.empty();
    const QStringList on = lettersOn(job.plan);
    const bool areAllOn = on.size() == static_cast<qsizetype>(job.plan.size());
    for (QWidget* shownWithMods : {m_on, m_onDb, m_condition}) {
        shownWithMods->setVisible(hasMods);
    }
    for (QWidget* shownBeside : {m_all, m_allDb}) {
        shownBeside->setVisible(hasMods && !areAllOn);
    }
    m_on->setText(on.isEmpty()                ? tr("None on")
                  : areAllOn && on.size() > 1 ? allOf(job.plan.size())
                                              : tr("On: %1").arg(on.join(", ")));
    m_all->setText(allOf(job.plan.size()));
    m_condition->setText(conditionText(job.setting));
}

void JobRail::toggleMod(const QString& letter) {
    for (int row = 0; row < m_mods->rowCount(); ++row) {
        if (m_mods->index(row).data(ModsModel::letterRole) == letter) {
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
    const QString letter = index.data(ModsModel::letterRole).toString();
    m_document.edit(removeMod(*m_document.job(), index.data(ModsModel::idRole).toString().toStdString()),
                    tr("Remove mod %1").arg(letter));
    m_list->setCurrentIndex(m_mods->index(std::min(row, m_mods->rowCount() - 1)));
}

void JobRail::moveModBy(const QModelIndex& index, int by) {
    const int to = index.row() + by;
    if (to < 0 || to >= m_mods->rowCount()) {
        return;
    }
    const std::string id = index.data(ModsModel::idRole).toString().toStdString();
    const QString letter = index.data(ModsModel::letterRole).toString();
    m_document.edit(moveMod(*m_document.job(), id, to),
                    (by < 0 ? tr("Move mod %1 up") : tr("Move mod %1 down")).arg(letter));
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
    menu->addAction(isOn ? tr("Switch off") : tr("Switch on"), this, [this, index] { switchMod(index); });
    menu->addAction(tr("Rename"), this, [this, index] { m_list->edit(index); });
    menu->addSeparator();
    menu->addAction(tr("Move up"), this, [this, index] { moveModBy(index, -1); })->setEnabled(index.row() > 0);
    menu->addAction(tr("Move down"), this, [this, index] { moveModBy(index, 1); })
        ->setEnabled(index.row() + 1 < m_mods->rowCount());
    menu->addSeparator();
    menu->addAction(tr("Remove"), this, [this, index] { removeModAt(index); });
    menu->popup(m_list->viewport()->mapToGlobal(at));
}

void JobRail::ask(const ValueQuestion& question) {
    m_form->ask(question.title, question.unit, question.start, [this, question](double value) {
        Result<Job> edited = question.edit(*m_document.job(), value);
        QString against = edited ? QString() : text(edited.error().message);
        const QString valueText = text(formatPartValue({value, question.unit}));
        m_document.edit(std::move(edited), question.editText.arg(valueText));
        return against;
    });
}

void JobRail::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().panel);
}

}  // namespace ohmwright
