// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/stages/stage_keeper.h"

#include "app/look/panel_title.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/stages/small_drawing.h"
#include "core/drawing/take_piece.h"
#include "core/plan/board_walk.h"

#include <QComboBox>
#include <QFrame>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

#include <filesystem>
#include <utility>

namespace ohmwright {

namespace {

constexpr int margin = 12;
constexpr int formWidth = 380;
constexpr int longestWords = 120;
/// What stands in the list of parts beside the indices of stages.
constexpr int chosenOnMap = -1;
constexpr int wholeUnit = -2;

void addField(QVBoxLayout& column, const QString& words, QWidget* field) {
    auto* label = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, field->parentWidget());
    label->setText(words);
    field->setAccessibleName(words);
    column.addWidget(label);
    column.addWidget(field);
    column.addSpacing(6);
}

void fillNets(QComboBox& box, const std::vector<NetName>& nets) {
    box.clear();
    box.addItem(StageKeeper::tr("found by itself"), QString());
    for (const NetName& net : nets) {
        const QString name = QString::fromStdString(net);
        box.addItem(name, name);
    }
}

}  // namespace

StageKeeper::StageKeeper(QWidget* parent) : QWidget(parent) {
    auto* form = new QFrame(this);
    form->setProperty("panel", true);
    form->setFixedWidth(formWidth);
    auto* column = new QVBoxLayout(form);
    column->setContentsMargins(margin, margin, margin, margin);
    column->addWidget(new PanelTitle(tr("Keep as a stage"), form));
    m_which = new QComboBox(form);
    m_name = new QLineEdit(form);
    m_does = new QLineEdit(form);
    m_input = new QComboBox(form);
    m_output = new QComboBox(form);
    buildFields(*column);
    m_drawing = new SmallDrawing(this);
    m_drawing->setAccessibleName(tr("Drawing of the stage"));
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(1);
    layout->addWidget(form);
    layout->addWidget(m_drawing, 1);
}

void StageKeeper::buildFields(QVBoxLayout& column) {
    QWidget* form = m_which->parentWidget();
    addField(column, tr("Which parts"), m_which);
    addField(column, tr("Name on the shelf"), m_name);
    addField(column, tr("What it does, in one line"), m_does);
    addField(column, tr("Net of its input"), m_input);
    addField(column, tr("Net of its output"), m_output);
    for (QLineEdit* edit : {m_name, m_does}) {
        edit->setMaxLength(longestWords);
        connect(edit, &QLineEdit::textChanged, this, &StageKeeper::follow);
    }
    m_sentence = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, form);
    m_sentence->setWordWrap(true);
    m_keep = new QPushButton(tr("Keep it"), form);
    m_keep->setProperty("primary", true);
    m_keep->setToolTip(tr("Into the shop's folder; one of that name is kept as an earlier version."));
    m_folder = new QPushButton(tr("Choose the shop's folder …"), form);
    auto* back = new QPushButton(tr("Back"), form);
    auto* buttons = new QHBoxLayout;
    for (QPushButton* button : {m_keep, m_folder, back}) {
        buttons->addWidget(button);
    }
    buttons->addStretch();
    column.addWidget(m_sentence);
    column.addLayout(buttons);
    column.addStretch();
    connect(m_which, &QComboBox::currentIndexChanged, this, &StageKeeper::chooseParts);
    connect(m_input, &QComboBox::currentIndexChanged, this, &StageKeeper::follow);
    connect(m_output, &QComboBox::currentIndexChanged, this, &StageKeeper::follow);
    connect(m_keep, &QPushButton::clicked, this, &StageKeeper::keep);
    connect(m_folder, &QPushButton::clicked, this, &StageKeeper::shopFolderAsked);
    connect(back, &QPushButton::clicked, this, &StageKeeper::closed);
}

void StageKeeper::begin(const Circuit& circuit, const std::vector<PartId>& parts, const QString& shopFolder) {
    m_circuit = circuit;
    m_chosen = parts;
    m_shopFolder = shopFolder;
    m_isFilling = true;
    m_which->clear();
    if (!parts.empty()) {
        m_which->addItem(tr("the %1 chosen on the map").arg(parts.size()), chosenOnMap);
    }
    for (std::size_t i = 0; i < circuit.stages.size(); ++i) {
        if (circuit.stages[i].output != circuit.ports.jack) {
            m_which->addItem(tr("stage %1").arg(QString::fromStdString(circuit.stages[i].name)), static_cast<int>(i));
        }
    }
    m_which->addItem(tr("the whole unit without its ends"), wholeUnit);
    m_name->setText({});  // Which counts as not typed, as clear() does not.
    m_does->clear();
    m_isFilling = false;
    chooseParts();
    m_which->setFocus();
}

void StageKeeper::setShopFolder(const QString& folder) {
    m_shopFolder = folder;
    follow();
}

std::vector<PartId> StageKeeper::parts() const {
    const int which = m_which->currentData().toInt();
    if (which == chosenOnMap) {
        return m_chosen;
    }
    if (which >= 0 && which < static_cast<int>(m_circuit.stages.size())) {
        return partsToKeep(m_circuit, static_cast<std::size_t>(which));
    }
    std::vector<PartId> all;
    for (std::size_t i = 0; i < m_circuit.stages.size(); ++i) {
        if (m_circuit.stages[i].output != m_circuit.ports.jack) {
            const std::vector<PartId> own = partsToKeep(m_circuit, i);
            all.insert(all.end(), own.begin(), own.end());
        }
    }
    if (!m_circuit.stages.empty()) {
        return all;
    }
    // A drawing that has just been made has no stages yet.
    for (const Part& part : m_circuit.parts) {
        if (isOnBoard(m_circuit, part)) {
            all.push_back(part.id);
        }
    }
    return all;
}

void StageKeeper::chooseParts() {
    if (m_isFilling) {
        return;
    }
    m_isFilling = true;
    const int which = m_which->currentData().toInt();
    const std::vector<NetName> nets = outerNets(m_circuit, parts());
    fillNets(*m_input, nets);
    fillNets(*m_output, nets);
    const bool isStage = which >= 0 && which < static_cast<int>(m_circuit.stages.size());
    // A name that was typed stays.
    if (!m_name->isModified()) {
        m_name->setText(isStage ? QString::fromStdString(m_circuit.stages[static_cast<std::size_t>(which)].name)
                                : QString());
    }
    m_isFilling = false;
    follow();
}

Result<StagePiece> StageKeeper::piece() const {
    PieceEnds ends;
    ends.input = m_input->currentData().toString().toStdString();
    ends.output = m_output->currentData().toString().toStdString();
    StagePiece piece{m_name->text().simplified().toStdString(), m_does->text().simplified().toStdString(), {}};
    // Drawn before it has a name.
    Result<Circuit> circuit = takePiece(m_circuit, parts(), piece.name.empty() ? "Stage" : piece.name, ends);
    if (!circuit) {
        return circuit.error();
    }
    piece.circuit = *std::move(circuit);
    return piece;
}

void StageKeeper::follow() {
    if (m_isFilling) {
        return;
    }
    const Result<StagePiece> taken = piece();
    QString words;
    if (!taken) {
        words = QString::fromStdString(taken.error().message);
    } else if (m_shopFolder.isEmpty()) {
        words = tr("There is no shop folder yet: choose one, and stages are kept there.");
    } else {
        const QString ends =
            tr("%1 parts, input %2, output %3.")
                .arg(QString::number(taken->circuit.parts.size()), QString::fromStdString(inputOf(taken->circuit)),
                     QString::fromStdString(outputOf(taken->circuit)));
        words = taken->name.empty() ? tr("%1 Give it a name to keep it.").arg(ends) : ends;
    }
    const bool isReady = taken && !taken->name.empty() && !m_shopFolder.isEmpty();
    m_sentence->setText(words);
    m_sentence->setColour(isReady ? &ThemeColours::ink2 : &ThemeColours::warn);
    m_keep->setEnabled(isReady);
    m_folder->setVisible(m_shopFolder.isEmpty());
    m_drawing->setCircuit(taken ? taken->circuit : Circuit(), words);
}

void StageKeeper::keep() {
    const Result<StagePiece> taken = piece();
    if (!taken || !m_keep->isEnabled()) {
        return;
    }
    const auto path = saveStagePiece(*taken, std::filesystem::path(m_shopFolder.toStdU16String()));
    if (!path) {
        m_sentence->setText(QString::fromStdString(path.error().message));
        m_sentence->setColour(&ThemeColours::warn);
        return;
    }
    emit kept(tr("stage kept: %1").arg(QString::fromStdU16String(path->u16string())));
    emit closed();
}

void StageKeeper::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Escape) {
        emit closed();
        return;
    }
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        auto* pressed = qobject_cast<QPushButton*>(focusWidget());
        pressed != nullptr ? pressed->click() : keep();
        return;
    }
    QWidget::keyPressEvent(event);
}

void StageKeeper::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().hair);
}

}  // namespace ohmwright
