// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/board/board_place.h"

#include "app/board/board_view.h"
#include "app/board/knowledge_counts.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/choice_row.h"
#include "app/look/elided_label.h"
#include "app/look/hint_field.h"
#include "app/look/text.h"
#include "app/look/themed_label.h"
#include "core/bench/board_edits.h"
#include "core/board/board_legs.h"
#include "core/board/side_map.h"
#include "core/plan/apply.h"

#include <QFileInfo>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>
#include <QShortcut>
#include <QVBoxLayout>

#include <algorithm>

namespace ohmwright {

namespace {

/// Parts that the plan changes: of a fitted one too.
std::set<PartId> changedParts(const Circuit& stock, const Circuit& now) {
    std::set<PartId> changed;
    for (const BoardEdit& edit : boardEdits(stock, now)) {
        changed.insert(edit.part().id);
    }
    return changed;
}

}  // namespace

BoardPlace::BoardPlace(JobDocument& document, Selection& selection, QWidget* parent)
    : QWidget(parent), m_document(document), m_selection(selection) {
    build();
    connectView();
    connect(&m_photos, &PhotoService::read, this, [this](const std::shared_ptr<const PhotoPicture>& picture) {
        m_fault = picture->fault;
        m_view->showPicture(picture);
        followWords();
    });
    connect(&document, &JobDocument::jobChanged, this, &BoardPlace::follow);
    connect(&selection, &Selection::partChanged, this, &BoardPlace::followSelection);
    connect(&Theme::current(), &Theme::changed, this, [this] { update(); });
}

BoardPlace::~BoardPlace() = default;

// --- building ----------------------------------------------------------------------------------------------------

void BoardPlace::build() {
    setAcceptDrops(true);
    m_view = new BoardView(this);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(1);
    layout->addWidget(buildTop());
    layout->addWidget(m_view, 1);
    layout->addWidget(buildStrip());
}

QWidget* BoardPlace::buildTop() {
    auto* top = new QWidget(this);
    m_top = top;
    top->setAutoFillBackground(true);
    m_sides = new ChoiceRow(tr("side of the board"), {tr("Part side"), tr("Solder side")}, top);
    auto* flipHint = new ThemedLabel(TextRole::body, false, &ThemeColours::ink3, top);
    flipHint->setText(tr("X: mirrored together with pins"));
    m_ground = new ElidedLabel(TextRole::body, true, &ThemeColours::ink, top);
    m_name = new HintField(tr("part and leg, as C4 1"), top);
    m_name->setAccessibleName(tr("Go to a part and leg"));
    m_add = new QPushButton(tr("Add photo …"), top);
    m_remove = new QPushButton(tr("Remove photo"), top);
    m_counts = new KnowledgeCounts(top);
    auto* layout = new QHBoxLayout(top);
    layout->setContentsMargins(12, 8, 12, 8);
    layout->setSpacing(10);
    layout->addWidget(m_sides);
    layout->addWidget(flipHint);
    layout->addWidget(m_ground, 1);
    layout->addWidget(m_name);
    layout->addWidget(m_add);
    layout->addWidget(m_remove);
    layout->addWidget(m_counts);
    connect(m_sides, &ChoiceRow::choiceMade, this,
            [this](int index) { setSide(boardSides.at(static_cast<std::size_t>(index))); });
    connect(m_add, &QPushButton::clicked, this, &BoardPlace::askPhoto);
    connect(m_remove, &QPushButton::clicked, this, &BoardPlace::removePhoto);
    connect(m_name, &QLineEdit::returnPressed, this, [this] {
        if (goTo(m_name->text())) {
            m_name->clear();
            m_view->setFocus();
        } else {
            m_name->selectAll();
        }
    });
    return top;
}

/// Net, heat and words side by side, as in a drawing's title block.
QWidget* BoardPlace::buildStrip() {
    auto* strip = new QWidget(this);
    strip->setAutoFillBackground(true);
    const auto column = [strip](QHBoxLayout& row, const QString& head, std::initializer_list<QWidget*> lines,
                                int stretch) {
        auto* layout = new QVBoxLayout;
        layout->setSpacing(2);
        ThemedLabel* label = nullptr;
        if (!head.isEmpty()) {
            label = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, strip);
            label->setText(head);
            layout->addWidget(label);
        }
        for (QWidget* line : lines) {
            layout->addWidget(line);
        }
        layout->addStretch(1);
        row.addLayout(layout, stretch);
        return label;
    };
    m_net = new ThemedLabel(TextRole::lead, true, &ThemeColours::now, strip);
    m_legs = new ElidedLabel(TextRole::caption, false, &ThemeColours::ink2, strip);
    m_heated = new ThemedLabel(TextRole::lead, true, &ThemeColours::ink, strip);
    m_before = new ElidedLabel(TextRole::caption, false, &ThemeColours::ink2, strip);
    m_where = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, strip);
    m_where->setWordWrap(true);
    m_where->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    for (ThemedLabel* label : {m_net, m_heated}) {
        label->setWordWrap(true);
    }
    auto* row = new QHBoxLayout(strip);
    row->setContentsMargins(16, 10, 16, 10);
    row->setSpacing(28);
    m_netHead = column(*row, tr("Net at the leg"), {m_net, m_legs}, 3);
    column(*row, tr("Pads heated this visit"), {m_heated, m_before}, 2);
    column(*row, {}, {m_where}, 4);
    constexpr int stripHeight = 104;
    strip->setMinimumHeight(stripHeight);
    return strip;
}

void BoardPlace::connectView() {
    connect(m_view, &BoardView::legChosen, this, &BoardPlace::choose);
    connect(m_view, &BoardView::legStepped, this, &BoardPlace::stepLeg);
    connect(m_view, &BoardView::partStepped, this, &BoardPlace::stepPart);
    connect(m_view, &BoardView::markAsked, this, &BoardPlace::markNext);
    connect(m_view, &BoardView::markMoved, this, &BoardPlace::moveMark);
    connect(m_view, &BoardView::unmarkAsked, this, &BoardPlace::unmark);
    connect(m_view, &BoardView::flipAsked, this, &BoardPlace::flip);
    connect(m_view, &BoardView::legGivenUp, this, [this] {
        m_leg.reset();
        m_selection.setPart({});
        followSelection();
    });
    // A name that is half typed: the keyboard goes back to the board, and the chosen leg stays.
    auto* leave = new QShortcut(QKeySequence(Qt::Key_Escape), m_name);
    leave->setContext(Qt::WidgetShortcut);
    connect(leave, &QShortcut::activated, this, [this] {
        m_name->clear();
        m_view->setFocus();
    });
    connect(m_view, &BoardView::nameTyped, this, [this](const QString& typed) {
        m_name->setFocus();
        m_name->setText(typed);
    });
}

std::vector<QWidget*> BoardPlace::panels() const {
    return {m_top, m_view};
}

// --- following ---------------------------------------------------------------------------------------------------

void BoardPlace::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    follow();
    if (!m_isBench) {
        m_view->setFocus();
    }
}

void BoardPlace::follow() {
    if (!isVisible()) {
        return;
    }
    const auto job = m_document.job();
    const Result<Circuit> now = nowCircuit(*job);
    m_circuit = std::make_shared<const Circuit>(now ? *now : job->stock);
    m_sheet = boardSheet(job->board, *m_circuit, m_side);
    const auto heat = padHeat(*job);
    m_heat = heat ? *heat : std::vector<VisitHeat>();
    if (m_leg && m_sheet.find(*m_leg) == nullptr) {
        m_leg.reset();
    }
    m_counts->show(walkProgress(job->stock));
    const bool isBack = m_side == BoardSide::solder;
    m_view->showSheet(m_sheet, m_circuit, {isBack, isBack, changedParts(job->stock, *m_circuit)});
    m_view->showHeat(timesHeated(m_heat));
    m_remove->setEnabled(job->board.face(m_side).photo.has_value());
    m_sides->setChosen(m_side == BoardSide::part ? 0 : 1);
    followPhoto();
    followSelection();
    followProbes();
}

void BoardPlace::followPhoto() {
    m_fault.clear();
    const auto& photo = m_document.job()->board.face(m_sheet.face).photo;
    if (!photo) {
        m_photos.forget();
        m_view->showPicture(nullptr);
        return;
    }
    const QString folder = m_document.path().isEmpty() ? QString() : QFileInfo(m_document.path()).absolutePath();
    m_photos.ask(folder, *photo, m_sheet.face);
}

/// A part that was chosen elsewhere shows its first leg; one that was chosen here keeps the leg.
void BoardPlace::followSelection() {
    if (!isVisible() || m_isChoosing) {
        return;
    }
    const PartId& part = m_selection.part();
    const bool isOther = !m_leg || m_leg->part != part;
    if (isOther) {
        const auto first = std::find_if(m_sheet.legs.begin(), m_sheet.legs.end(),
                                        [&part](const PlacedLeg& leg) { return leg.leg.part == part; });
        m_leg = first != m_sheet.legs.end() ? std::optional<Leg>(first->leg) : std::nullopt;
    }
    m_view->setSelected(part, m_leg);
    followWords();
}

void BoardPlace::followWords() {
    const Leg* leg = m_leg ? &*m_leg : nullptr;
    const NetName net = leg != nullptr ? netAt(*m_circuit, *leg) : NetName();
    m_netHead->setText(m_check ? tr("Net under the probes") : tr("Net at the leg"));
    m_net->setText(leg != nullptr ? text(netTitle(*m_circuit, net)) : tr("no leg chosen"));
    m_legs->setText(leg != nullptr ? text(netLegsWords(*m_circuit, net)) : tr("Press a leg, or walk with the arrows."));
    const QString sides = [this] {
        const auto map = sideMap(m_document.job()->board);
        return map ? text(sideMapWords(*map)) : QString();
    }();
    // At the bench nothing is marked: what counts there is whether the probes' legs are, and those words stand below.
    const QString unmarked = m_isBench ? QString() : text(unmarkedWords(m_sheet));
    QStringList above{m_fault, unmarked, sides};
    above.removeAll({});
    m_ground->setText(above.join(' '));
    m_ground->setColour(m_fault.isEmpty() ? &ThemeColours::ink : &ThemeColours::stop);
    const VisitHeat present = m_heat.empty() ? VisitHeat() : m_heat.back();
    m_heated->setText(m_heat.empty() ? tr("not known") : text(heatedWords(*m_circuit, present.heated)));
    m_before->setText(heatWords());
    m_where->setText(whereText());
    m_view->setAccessibleDescription(words());
}

/// "to come: C4 Cg: both; none in visit 1"
QString BoardPlace::heatWords() const {
    QStringList words;
    for (const VisitHeat& visit : m_heat) {
        if (visit.isPresent && !visit.planned.empty()) {
            words << tr("to come: %1").arg(text(heatedWords(*m_circuit, visit.planned)));
        } else if (!visit.isPresent) {
            words << tr("%1 in visit %2").arg(text(heatedWords(*m_circuit, visit.heated))).arg(visit.visit);
        }
    }
    return words.join("; ");
}

QString BoardPlace::whereText() const {
    QStringList lines;
    const auto add = [this, &lines](const std::optional<Leg>& leg) {
        const QString where = leg ? text(whereWords(*m_circuit, m_sheet, *leg)) : QString();
        if (!where.isEmpty() && !lines.contains(where)) {
            lines << where;
        }
    };
    if (m_check) {
        add(legOfProbe(*m_circuit, m_check->red, m_check->black));
        add(legOfProbe(*m_circuit, m_check->black, m_check->red));
    } else {
        add(m_leg);
        if (m_sheet.mayMark() && !m_isBench) {
            const auto next = nextUnmarked(m_sheet, m_selection.part(), m_leg);
            if (next && next != m_leg) {
                lines << text(markPrompt(*m_circuit, *next)) + '.';
            }
        }
    }
    // What the picture is comes first: on a narrow window there is room for it here alone.
    const QString ground = text(sheetWords(m_sheet));
    const QString rings = tr("Rings mark legs, not bodies.");
    QStringList sentences{ground, rings};
    sentences.removeAll({});
    return (sentences + lines).join(' ');
}

QString BoardPlace::words() const {
    return QStringList{m_ground->text(), m_net->text(),    m_legs->text(),
                       m_heated->text(), m_before->text(), m_where->text()}
        .join('\n');
}

// --- probes ------------------------------------------------------------------------------------------------------

void BoardPlace::setBench(bool isBench) {
    m_isBench = isBench;
    m_view->setBench(isBench);
    for (QWidget* tool : std::initializer_list<QWidget*>{m_name, m_add, m_remove}) {
        tool->setVisible(!isBench);
    }
    m_sides->setFocusPolicy(Qt::NoFocus);
    for (const int side : {0, 1}) {
        m_sides->button(side).setFocusPolicy(isBench ? Qt::NoFocus : Qt::StrongFocus);
    }
    if (!isBench) {
        showCheck(std::nullopt);
    }
}

void BoardPlace::showCheck(const std::optional<Check>& check) {
    m_check = check && check->kind != CheckKind::tone ? check : std::nullopt;
    followProbes();
}

void BoardPlace::followProbes() {
    if (!isVisible() || !m_circuit) {
        return;
    }
    ShownProbe red, black;
    if (m_check) {
        red = {legOfProbe(*m_circuit, m_check->red, m_check->black), tr("red: %1")};
        black = {legOfProbe(*m_circuit, m_check->black, m_check->red), tr("black: %1")};
        red.words = red.words.arg(red.leg ? text(legWords(*m_circuit, *red.leg)) : text(m_check->red.words));
        black.words = black.words.arg(black.leg ? text(legWords(*m_circuit, *black.leg)) : text(m_check->black.words));
        m_leg = black.leg ? black.leg : red.leg;
        m_view->setSelected({}, m_leg);
    }
    m_view->showProbes(red, black);
    followWords();
}

void BoardPlace::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().hair);
}

}  // namespace ohmwright
