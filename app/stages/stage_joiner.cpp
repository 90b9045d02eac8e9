// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/stages/stage_joiner.h"

#include "app/look/panel_title.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/stages/piece_delegate.h"
#include "app/stages/piece_model.h"
#include "app/stages/small_drawing.h"
#include "core/base/said.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QListView>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include <filesystem>
#include <utility>

namespace ohmwright {

namespace {

constexpr int margin = 12;

QListView* listOf(PieceModel& model, bool isNumbered, const QString& name, QWidget* parent) {
    auto* view = new QListView(parent);
    view->setModel(&model);
    view->setItemDelegate(new PieceDelegate(isNumbered, view));
    view->setAccessibleName(name);
    view->setFrameShape(QFrame::NoFrame);
    view->setResizeMode(QListView::Adjust);
    view->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    view->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    QObject::connect(&Theme::current(), &Theme::changed, view, [view] { view->doItemsLayout(); });
    return view;
}

QPushButton* buttonOf(const QString& words, const QString& hint, QWidget* parent) {
    auto* button = new QPushButton(words, parent);
    button->setToolTip(hint);
    button->setAccessibleDescription(hint);
    return button;
}

QLayout* titleOf(const QString& words, QWidget* parent) {
    auto* row = new QHBoxLayout;
    row->setContentsMargins(margin, 4, margin, 0);
    row->addWidget(new PanelTitle(words, parent));
    return row;
}

QWidget* panelOf(QWidget* parent) {
    auto* panel = new QFrame(parent);
    panel->setProperty("panel", true);
    return panel;
}

}  // namespace

StageJoiner::StageJoiner(QWidget* parent)
    : QWidget(parent), m_shelf(new PieceModel(this)), m_path(new PieceModel(this)) {
    auto* lists = new QHBoxLayout;
    lists->setSpacing(1);
    lists->addWidget(buildShelf(), 1);
    lists->addWidget(buildPath(), 1);
    m_drawing = new SmallDrawing(this);
    m_drawing->setAccessibleName(tr("Drawing of the new unit"));
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(1);
    layout->addLayout(lists, 3);
    layout->addWidget(m_drawing, 2);
    layout->addWidget(buildFoot());
    m_shelfView->installEventFilter(this);
    m_pathView->installEventFilter(this);
    for (const PieceModel* model : {m_shelf, m_path}) {
        for (const auto changed : {&QAbstractItemModel::rowsInserted, &QAbstractItemModel::rowsRemoved}) {
            connect(model, changed, this, &StageJoiner::follow);
        }
        connect(model, &QAbstractItemModel::rowsMoved, this, &StageJoiner::follow);
        connect(model, &QAbstractItemModel::modelReset, this, &StageJoiner::follow);
    }
    for (const QListView* view : {m_shelfView, m_pathView}) {
        connect(view->selectionModel(), &QItemSelectionModel::currentChanged, this, &StageJoiner::follow);
    }
    follow();
}

QWidget* StageJoiner::buildShelf() {
    QWidget* panel = panelOf(this);
    m_shelfView = listOf(*m_shelf, false, tr("Shelf of stages"), panel);
    m_add = buttonOf(tr("Put it into the path"),
                     tr("Behind the chosen stage of the path, or at its end. Enter on the shelf."), panel);
    auto* buttons = new QHBoxLayout;
    buttons->setContentsMargins(margin, 0, margin, margin);
    buttons->addWidget(m_add);
    buttons->addStretch();
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addLayout(titleOf(tr("Shelf"), panel));
    layout->addWidget(m_shelfView, 1);
    layout->addLayout(buttons);
    connect(m_add, &QPushButton::clicked, this, &StageJoiner::addChosen);
    connect(m_shelfView, &QListView::doubleClicked, this, &StageJoiner::addChosen);
    return panel;
}

QWidget* StageJoiner::buildPath() {
    QWidget* panel = panelOf(this);
    m_pathView = listOf(*m_path, true, tr("Signal path"), panel);
    m_ends = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, panel);
    m_ends->setContentsMargins(margin, 0, margin, 0);
    m_ends->setWordWrap(true);
    m_ends->setText(
        tr("From the guitar, which is zone 1, to the next box. Source, output and the supply that the stages "
           "need are added by themselves."));
    m_up = buttonOf(tr("Earlier"), tr("One place towards the guitar. Alt+Up in the path."), panel);
    m_down = buttonOf(tr("Later"), tr("One place towards the next box. Alt+Down in the path."), panel);
    m_remove = buttonOf(tr("Take out"), tr("The chosen stage leaves the path. Delete in the path."), panel);
    auto* buttons = new QHBoxLayout;
    buttons->setContentsMargins(margin, 0, margin, margin);
    for (QPushButton* button : {m_up, m_down, m_remove}) {
        buttons->addWidget(button);
    }
    buttons->addStretch();
    auto* layout = new QVBoxLayout(panel);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addLayout(titleOf(tr("Signal path"), panel));
    layout->addWidget(m_ends);
    layout->addWidget(m_pathView, 1);
    layout->addLayout(buttons);
    connect(m_up, &QPushButton::clicked, this, [this] { moveChosen(-1); });
    connect(m_down, &QPushButton::clicked, this, [this] { moveChosen(1); });
    connect(m_remove, &QPushButton::clicked, this, &StageJoiner::removeChosen);
    return panel;
}

QWidget* StageJoiner::buildFoot() {
    QWidget* panel = panelOf(this);
    m_sentence = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, panel);
    m_sentence->setWordWrap(true);
    auto* nameLabel = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, panel);
    nameLabel->setText(tr("Name of the unit"));
    m_name = new QLineEdit(panel);
    m_name->setAccessibleName(tr("Name of the unit"));
    m_name->setPlaceholderText(tr("New unit"));
    constexpr int longestName = 60;
    m_name->setMaxLength(longestName);
    m_name->setMinimumWidth(240);
    m_make =
        buttonOf(tr("Make the drawing"), tr("A new job with this circuit, to be corrected and planned on."), panel);
    m_make->setProperty("primary", true);
    QPushButton* back = buttonOf(tr("Back"), tr("Leaves this page; nothing is made. Esc."), panel);
    auto* layout = new QHBoxLayout(panel);
    layout->setContentsMargins(margin, margin, margin, margin);
    layout->setSpacing(margin);
    layout->addWidget(m_sentence, 1);
    layout->addWidget(nameLabel);
    layout->addWidget(m_name);
    layout->addWidget(m_make);
    layout->addWidget(back);
    connect(m_make, &QPushButton::clicked, this, &StageJoiner::make);
    connect(m_name, &QLineEdit::returnPressed, this, &StageJoiner::make);
    connect(back, &QPushButton::clicked, this, &StageJoiner::closed);
    return panel;
}

void StageJoiner::begin(const QString& shopFolder, const QString& first) {
    m_path->setPieces({});
    m_name->clear();
    m_shelf->setPieces(stagesToChoose(std::filesystem::path(shopFolder.toStdU16String())));
    const std::vector<ShelfStage>& shelf = m_shelf->pieces();
    const auto chosen = std::find_if(shelf.begin(), shelf.end(),
                                     [&first](const ShelfStage& stage) { return stage.id == first.toStdString(); });
    m_shelfView->setCurrentIndex(m_shelf->index(chosen == shelf.end() ? 0 : int(chosen - shelf.begin()), 0));
    if (chosen != shelf.end()) {
        addChosen();
    }
    m_shelfView->setFocus();
}

void StageJoiner::addChosen() {
    const QModelIndex chosen = m_shelfView->currentIndex();
    if (!chosen.isValid() || !m_shelf->pieces()[static_cast<std::size_t>(chosen.row())].piece) {
        return;
    }
    const QModelIndex before = m_pathView->currentIndex();
    const int row = m_path->insert(before.isValid() ? before.row() + 1 : m_path->rowCount(),
                                   m_shelf->pieces()[static_cast<std::size_t>(chosen.row())]);
    m_pathView->setCurrentIndex(m_path->index(row, 0));
}

void StageJoiner::removeChosen() {
    const int row = m_pathView->currentIndex().row();
    m_path->remove(row);
    m_pathView->setCurrentIndex(m_path->index(std::min(row, m_path->rowCount() - 1), 0));
}

void StageJoiner::moveChosen(int step) {
    const int row = m_path->move(m_pathView->currentIndex().row(), step);
    m_pathView->setCurrentIndex(m_path->index(row, 0));
}

Result<Job> StageJoiner::unit() const {
    std::vector<StagePiece> pieces;
    for (const ShelfStage& stage : m_path->pieces()) {
        pieces.push_back(*stage.piece);
    }
    Result<Circuit> circuit = joinUnit(pieces);
    if (!circuit) {
        return circuit.error();
    }
    const QString name = m_name->text().simplified();
    return jobOfUnit(*std::move(circuit), name.isEmpty() ? said("New unit") : name.toStdString());
}

void StageJoiner::follow() {
    const QModelIndex shelf = m_shelfView->currentIndex();
    const QModelIndex path = m_pathView->currentIndex();
    m_add->setEnabled(shelf.isValid() && m_shelf->pieces()[static_cast<std::size_t>(shelf.row())].piece.has_value());
    m_up->setEnabled(path.isValid() && path.row() > 0);
    m_down->setEnabled(path.isValid() && path.row() + 1 < m_path->rowCount());
    m_remove->setEnabled(path.isValid());
    const Result<Job> job = unit();
    m_make->setEnabled(job.hasValue());
    QString words;
    if (m_path->rowCount() == 0) {
        words = tr("Choose the first stage on the shelf.");
    } else if (!job) {
        words = QString::fromStdString(job.error().message);
    } else {
        words = tr("%1 zones, %2 parts, %3 knobs.")
                    .arg(QString::number(job->stock.stages.size()), QString::number(job->stock.parts.size()),
                         QString::number(job->stock.knobs.size()));
    }
    m_sentence->setText(words);
    m_sentence->setColour(m_path->rowCount() > 0 && !job ? &ThemeColours::warn : &ThemeColours::ink2);
    m_drawing->setCircuit(job ? job->stock : Circuit(), words);
}

void StageJoiner::make() {
    if (const Result<Job> job = unit()) {
        emit made(*job);
    }
}

bool StageJoiner::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() != QEvent::KeyPress) {
        return QWidget::eventFilter(watched, event);
    }
    const auto* key = static_cast<QKeyEvent*>(event);
    const bool isEnter = key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter;
    if (watched == m_shelfView && isEnter) {
        addChosen();
        return true;
    }
    const bool isStep = key->key() == Qt::Key_Up || key->key() == Qt::Key_Down;
    if (watched == m_pathView && isStep && key->modifiers().testFlag(Qt::AltModifier)) {
        moveChosen(key->key() == Qt::Key_Up ? -1 : 1);
        return true;
    }
    if (watched == m_pathView && key->key() == Qt::Key_Delete) {
        removeChosen();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

void StageJoiner::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        emit closed();
        return;
    }
    QWidget::keyPressEvent(event);
}

void StageJoiner::paintEvent(QPaintEvent*) {
    // Panels meet at lines of 1 px: the ground shows through between them.
    QPainter(this).fillRect(rect(), Theme::current().colours().hair);
}

}  // namespace ohmwright
