// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/draw_side.h"

#include "app/document/job_document.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/map/draw_hand.h"
#include "core/base/text.h"
#include "core/base/value_text.h"
#include "core/drawing/arrange.h"
#include "core/drawing/rejoin.h"
#include "core/drawing/zones.h"
#include "core/plan/drawing_edits.h"

#include <QComboBox>
#include <QGridLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>
#include <array>

namespace ohmwright {
namespace {

constexpr int margin = 14;
constexpr std::array laws{std::pair{Taper::linear, "linear"}, std::pair{Taper::logarithmic, "log, 15 % at half"},
                          std::pair{Taper::reverseLogarithmic, "reverse log, 15 % at half"}};
constexpr double logShareAtHalf = 0.15;

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

QString valueOf(const Part& part) {
    if (hasModel(part.kind)) {
        return text(part.model);
    }
    return part.value == 0.0 ? QString() : text(formatPartValue({part.value, unitOf(part.kind)}));
}

bool isValued(PartKind kind) {
    return unitOf(kind) != Unit::none;
}

}  // namespace

DrawSide::DrawSide(JobDocument& document, DrawHand& hand, QWidget* parent)
    : QWidget(parent), m_document(document), m_hand(hand) {
    setAccessibleName("What is picked");
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    auto* part = new QWidget(this);
    buildPart(*part);
    column->addWidget(part);
    auto* place = new QWidget(this);
    buildPlace(*place);
    column->addWidget(place);
    auto* toDo = new ThemedLabel(TextRole::panelTitle, true, &ThemeColours::ink, this);
    toDo->setText("Still to do");
    toDo->setContentsMargins(margin, 6, margin, 2);
    column->addWidget(toDo);
    m_state = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this);
    m_state->setWordWrap(true);
    m_state->setContentsMargins(margin, 2, margin, 6);
    column->addWidget(m_state);
    m_list = new QListWidget(this);
    m_list->setAccessibleName("Still to do");
    m_list->setWordWrap(true);
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setSpacing(3);
    m_list->setTextElideMode(Qt::ElideNone);
    m_list->setResizeMode(QListView::Adjust);
    m_list->setUniformItemSizes(false);
    m_list->viewport()->setAutoFillBackground(false);
    auto* inset = new QHBoxLayout;
    inset->setContentsMargins(margin - 6, 0, margin - 6, 8);
    inset->addWidget(m_list);
    column->addLayout(inset, 1);
    column->addStretch(0);
    const auto show = [this](const QListWidgetItem* item) {
        const auto row = static_cast<std::size_t>(m_list->row(item));
        if (row < m_faults.size() && m_faults[row].first.hasPlace) {
            m_hand.setCaret(m_faults[row].first.at);
        }
    };
    connect(m_list, &QListWidget::itemClicked, this, show);
    connect(m_list, &QListWidget::itemActivated, this, [this, show](const QListWidgetItem* item) {
        show(item);
        emit done();
    });
    connect(&hand, &DrawHand::changed, this, &DrawSide::follow);
    follow();
}

QLineEdit* DrawSide::addField(QGridLayout& grid, const char* label, const char* hint) {
    auto* words = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this);
    words->setText(label);
    auto* field = new QLineEdit(this);
    field->setAccessibleName(label);
    field->setPlaceholderText(hint);
    field->installEventFilter(this);
    words->setBuddy(field);
    const int row = grid.rowCount();
    grid.addWidget(words, row, 0);
    grid.addWidget(field, row, 1);
    m_labels[field] = words;
    return field;
}

void DrawSide::buildPart(QWidget& box) {
    auto* column = new QVBoxLayout(&box);
    column->setContentsMargins(margin, 12, margin, 10);
    column->setSpacing(8);
    m_title = new ThemedLabel(TextRole::lead, true, &ThemeColours::ink, &box);
    m_title->setWordWrap(true);
    column->addWidget(m_title);
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(10);
    grid->setVerticalSpacing(6);
    grid->setColumnStretch(1, 1);
    column->addLayout(grid);
    m_unit = addField(*grid, "Unit", "what it is called");
    connect(m_unit, &QLineEdit::returnPressed, this, &DrawSide::takeUnitName);
    m_value = addField(*grid, "Value", "4k7");
    m_type = addField(*grid, "Type", "2N3904");
    m_reference = addField(*grid, "Reference", "R1");
    m_function = addField(*grid, "Name", "what it is for");
    m_build = addField(*grid, "Build", "film, electrolytic");
    m_tolerance = addField(*grid, "Tolerance", "5 %");
    m_knob = addField(*grid, "Knob", "Drive; empty for a trimmer");
    m_plus = addField(*grid, "Plus supply", "net");
    m_minus = addField(*grid, "Minus supply", "net");
    m_lawLabel = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, &box);
    m_lawLabel->setText("Law");
    m_law = new QComboBox(&box);
    m_law->setAccessibleName("Law");
    for (const auto& [taper, words] : laws) {
        m_law->addItem(QString::fromUtf8(words));
    }
    grid->addWidget(m_lawLabel, grid->rowCount(), 0);
    grid->addWidget(m_law, grid->rowCount() - 1, 1);
    connect(m_law, &QComboBox::activated, this, [this](int index) {
        if (const Part* part = picked()) {
            Part changed = *part;
            changed.taper = laws.at(static_cast<std::size_t>(index)).first;
            changed.shareAtHalf = changed.taper == Taper::linear ? 0.5 : logShareAtHalf;
            describe(changed, {}, QString("Change the law of %1").arg(text(part->reference)));
        }
    });
    for (QLineEdit* field : {m_value, m_type, m_reference, m_function, m_build, m_tolerance, m_knob, m_plus, m_minus}) {
        connect(field, &QLineEdit::returnPressed, this, [this, field] { takePart(field); });
    }
}

void DrawSide::buildPlace(QWidget& box) {
    auto* column = new QVBoxLayout(&box);
    column->setContentsMargins(margin, 10, margin, 12);
    column->setSpacing(6);
    m_place = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, &box);
    m_place->setWordWrap(true);
    column->addWidget(m_place);
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(10);
    grid->setVerticalSpacing(6);
    grid->setColumnStretch(1, 1);
    column->addLayout(grid);
    m_net = addField(*grid, "Net", "no net here");
    m_stage = addField(*grid, "Stage", "name it");
    connect(m_net, &QLineEdit::returnPressed, this, &DrawSide::takeNetName);
    connect(m_stage, &QLineEdit::returnPressed, this, &DrawSide::takeStageName);
    m_stageHere = new QPushButton("Begin a stage here", &box);
    m_frameHere = new QPushButton("Frame the box as a field", &box);
    column->addWidget(m_stageHere);
    column->addWidget(m_frameHere);
    m_tidy = new QPushButton(&box);
    m_keep = new QPushButton("Keep as a stage for the shelf …", &box);
    m_tidy->setAccessibleName("Tidy");
    m_keep->setAccessibleName("Keep as a stage");
    column->addWidget(m_tidy);
    column->addWidget(m_keep);
    connect(m_tidy, &QPushButton::clicked, this, &DrawSide::tidy);
    connect(m_keep, &QPushButton::clicked, this, &DrawSide::keepAsked);
    connect(m_stageHere, &QPushButton::clicked, this, &DrawSide::typeStageName);
    connect(m_frameHere, &QPushButton::clicked, this, &DrawSide::typeFrameName);
}

const Part* DrawSide::picked() const {
    const Picked& picked = m_hand.picked();
    return picked.parts.size() == 1 ? findPart(m_document.job()->stock, picked.parts.front()) : nullptr;
}

void DrawSide::follow() {
    showPart(picked());
    showPlace();
}

void DrawSide::showPart(const Part* part) {
    const auto show = [this](QLineEdit* field, bool shown, const QString& words) {
        m_labels.at(field)->setVisible(shown);
        field->setVisible(shown);
        if (!field->hasFocus() || !field->isModified()) {
            field->setText(words);
        }
    };
    const Picked& all = m_hand.picked();
    const auto count = all.parts.size() + all.wires.size() + all.flags.size();
    const PartKind kind = part ? part->kind : PartKind::resistor;
    m_title->setText(part         ? text(displayName(*part)) + ", " + text(std::string(kindName(kind)))
                     : count == 1 ? QString("One thing picked")
                     : count > 1  ? QString("%1 things picked").arg(count)
                                  : QString("Nothing picked"));
    const Part shown = part ? *part : Part();
    const bool isPot = part && kind == PartKind::potentiometer;
    show(m_unit, count == 0, text(m_document.job()->unit.name));
    show(m_value, part && isValued(kind), valueOf(shown));
    show(m_type, part && hasModel(kind), text(shown.model));
    show(m_reference, part != nullptr, text(shown.reference));
    show(m_function, part != nullptr, text(shown.function));
    show(m_build, part && kind == PartKind::capacitor, text(shown.build));
    show(m_tolerance, part && hasValue(kind),
         shown.tolerance > 0.0 ? QString::number(100.0 * shown.tolerance, 'g', 3) + " %" : QString());
    const Knob* knob = part ? knobOf(m_document.job()->stock, part->id) : nullptr;
    show(m_knob, isPot, knob ? text(knob->name) : QString());
    const bool isOpamp = part && kind == PartKind::opamp;
    show(m_plus, isOpamp, isOpamp ? text(shown.nets[3]) : QString());
    show(m_minus, isOpamp, isOpamp ? text(shown.nets[4]) : QString());
    m_lawLabel->setVisible(isPot);
    m_law->setVisible(isPot);
    const auto law =
        std::find_if(laws.begin(), laws.end(), [&shown](const auto& entry) { return entry.first == shown.taper; });
    m_law->setCurrentIndex(static_cast<int>(law - laws.begin()));
}

void DrawSide::showPlace() {
    const Circuit& circuit = m_document.job()->stock;
    m_place->setText(m_hand.placeWords());
    const NetName net = netAt(circuit, m_hand.caret());
    if (!m_net->hasFocus()) {
        m_net->setText(text(net));
    }
    m_net->setEnabled(!net.empty() && net != groundNet);
    if (!m_stage->hasFocus()) {
        const std::optional<std::size_t> stage = stageAt(circuit, m_hand.caret().x);
        m_stage->setText(stage ? text(circuit.stages[*stage].name) : QString());
        m_stage->setProperty("begins", false);
        m_stage->setProperty("frames", false);
        m_labels.at(m_stage)->setText("Stage");
        m_stage->setEnabled(stage.has_value());
    }
    const bool isSome = !m_hand.picked().parts.empty();
    m_frameHere->setVisible(m_hand.picked().parts.size() > 1);
    m_keep->setVisible(isSome);
    m_tidy->setText(isSome ? "Tidy what is picked" : "Tidy the whole drawing");
    m_tidy->setEnabled(!circuit.parts.empty());
}

void DrawSide::setFaults(const std::vector<DrawFault>& faults) {
    m_faults = faultLines(faults, m_document.job()->stock);
    m_list->clear();
    m_list->setVisible(!m_faults.empty());
    for (const DrawFaultLine& line : m_faults) {
        m_list->addItem(line.sentence);
    }
    fitLines();
    const auto wrong = std::count_if(faults.begin(), faults.end(),
                                     [](const DrawFault& fault) { return fault.severity == Severity::wrong; });
    m_state->setText(faults.empty() ? QString("Nothing: the circuit is whole.")
                     : wrong > 0    ? QString("Curves come when these are mended.")
                                    : QString("The curves can be drawn; look at these."));
}

/// Each sentence has the lines that it needs at this width.
void DrawSide::fitLines() {
    constexpr int inset = 14;
    const int width = m_list->viewport()->width() - inset;
    for (int row = 0; row < m_list->count(); ++row) {
        QListWidgetItem* item = m_list->item(row);
        const QRect words =
            m_list->fontMetrics().boundingRect(QRect(0, 0, width, 1000), Qt::TextWordWrap, item->text());
        item->setSizeHint({width, words.height() + 6});
    }
}

void DrawSide::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitLines();
}

// --- entries -------------------------------------------------------------------------------------------------------

void DrawSide::typeValue(const QString& text) {
    QLineEdit* field = m_value->isVisibleTo(this) ? m_value : m_type;
    if (field->isVisibleTo(this)) {
        field->setFocus(Qt::OtherFocusReason);
        field->setText(text);
        field->setModified(true);
    }
}

void DrawSide::typeNetName() {
    if (m_net->isEnabled()) {
        m_net->setFocus(Qt::OtherFocusReason);
        m_net->selectAll();
    } else {
        emit said(m_net->text().isEmpty() ? QString("There is no net under the caret: go to a pin or a wire.")
                                          : QString("Ground keeps its name."));
    }
}

void DrawSide::typeStageName() {
    m_stage->setEnabled(true);
    m_stage->setFocus(Qt::OtherFocusReason);
    m_stage->clear();
    m_stage->setProperty("begins", true);
    m_labels.at(m_stage)->setText("New stage");
}

void DrawSide::typeFrameName() {
    m_stage->setEnabled(true);
    m_stage->setFocus(Qt::OtherFocusReason);
    m_stage->setText("Supply");
    m_stage->selectAll();
    m_stage->setProperty("frames", true);
    m_labels.at(m_stage)->setText("Field");
}

bool DrawSide::describe(const Part& part, const std::optional<Model>& type, const QString& words) {
    const Result<Circuit> described = describePart(m_document.job()->stock, part, type);
    const EditResult edit =
        described ? EditResult(Edited{*described, {}, m_hand.picked()}) : EditResult(described.error());
    return m_hand.edit(edit, words);
}

void DrawSide::takePart(QLineEdit* from) {
    const Part* part = picked();
    if (!part) {
        return;
    }
    Part changed = *part;
    std::optional<Model> type;
    const QString typed = from->text().trimmed();
    if (from == m_value || from == m_tolerance) {
        QString figure = typed;
        const bool isShare = from == m_tolerance;
        const Result<Quantity> read =
            isShare ? Result<Quantity>(
                          Quantity{figure.remove('%').trimmed().replace(',', '.').toDouble() / 100.0, Unit::none})
                    : parsePartValue(typed.toStdString(), unitOf(part->kind));
        if (!read) {
            emit said(text(read.error().message));
            from->selectAll();
            return;
        }
        (isShare ? changed.tolerance : changed.value) = read->si;
    } else if (from == m_type) {
        const Result<Model> named = typeNamed(typed.toStdString(), part->kind, m_hand.models());
        if (!named) {
            emit said(text(named.error().message));
            from->selectAll();
            return;
        }
        type = *named;
        changed.model = named->name;
    } else if (from == m_knob) {
        takeKnob(changed);
        return;
    } else if (from == m_plus || from == m_minus) {
        changed.nets[from == m_plus ? 3U : 4U] = typed.toStdString();
    } else {
        (from == m_reference  ? changed.reference
         : from == m_function ? changed.function
                              : changed.build) = typed.toStdString();
    }
    from->setModified(false);
    if (describe(changed, type, QString("Describe %1").arg(text(changed.reference)))) {
        emit done();
    }
}

/// An empty name makes the pot a trimmer: it stands where its value says.
void DrawSide::takeKnob(Part& part) {
    Circuit circuit = m_document.job()->stock;
    const std::string name = m_knob->text().trimmed().toStdString();
    const auto knob = std::find_if(circuit.knobs.begin(), circuit.knobs.end(),
                                   [&part](const Knob& other) { return other.part == part.id; });
    if (name.empty()) {
        std::erase_if(circuit.knobs, [&part](const Knob& other) { return other.part == part.id; });
    } else if (knob == circuit.knobs.end()) {
        circuit.knobs.push_back({part.id, name, part.id});
    } else {
        knob->name = name;
    }
    m_knob->setModified(false);
    if (m_hand.edit(Edited{std::move(circuit), {}, m_hand.picked()},
                    QString("Name the knob of %1").arg(text(part.reference)))) {
        emit done();
    }
}

/// The drawing, or what is picked of it, laid out anew; undo brings the old one back.
void DrawSide::tidy() {
    const Circuit& circuit = m_document.job()->stock;
    const std::vector<PartId>& chosen = m_hand.picked().parts;
    const bool isWhole = chosen.empty();
    Rejoined tidied = rejoin(isWhole ? arrange(circuit) : arrange(circuit, chosen));
    m_hand.edit(Edited{std::move(tidied.circuit), std::move(tidied.goneInto), {chosen, {}, {}}},
                isWhole ? QString("Tidy the drawing") : QString("Tidy what is picked"));
    emit done();
}

void DrawSide::takeUnitName() {
    Job job = *m_document.job();
    job.unit.name = m_unit->text().trimmed().toStdString();
    m_unit->setModified(false);
    if (m_document.edit(job, "Name the unit", JobAspect::words)) {
        emit done();
    }
}

void DrawSide::takeNetName() {
    const Circuit& circuit = m_document.job()->stock;
    const NetName net = netAt(circuit, m_hand.caret());
    const NetName name = m_net->text().trimmed().toStdString();
    if (m_hand.edit(nameNet(circuit, net, name), QString("Name the net %1").arg(text(name)))) {
        emit done();
    }
}

void DrawSide::takeStageName() {
    const Circuit& circuit = m_document.job()->stock;
    const std::string name = m_stage->text().trimmed().toStdString();
    const int column = m_hand.caret().x;
    bool taken = false;
    if (m_stage->property("frames").toBool()) {
        Field field;
        field.name = name;
        field.topLeft = m_hand.boxCorners().first;
        field.bottomRight = m_hand.boxCorners().second;
        taken = m_hand.edit(frameField(circuit, field), QString("Frame %1").arg(text(name)));
    } else if (m_stage->property("begins").toBool()) {
        taken = m_hand.edit(beginStage(circuit, column, name), QString("Begin the stage %1").arg(text(name)));
    } else if (const std::optional<std::size_t> stage = stageAt(circuit, column)) {
        // Without a name the stage goes up into its neighbour.
        taken = m_hand.edit(name.empty() ? endStage(circuit, *stage) : nameStage(circuit, *stage, name),
                            QString("Name the stage %1").arg(text(name)));
    }
    if (taken) {
        emit done();
    }
}

bool DrawSide::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::KeyPress && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
        if (auto* field = qobject_cast<QLineEdit*>(watched)) {
            field->setModified(false);
            emit done();
            follow();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

}  // namespace ohmwright
