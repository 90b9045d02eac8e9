// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/map/part_fields.h"

#include "app/document/job_document.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/map/draw_hand.h"
#include "core/base/value_text.h"
#include "core/drawing/opamp_supply.h"
#include "core/plan/drawing_edits.h"

#include <QComboBox>
#include <QGridLayout>
#include <QVBoxLayout>

#include <algorithm>
#include <array>
#include <utility>

namespace ohmwright {
namespace {

constexpr int margin = 14;
constexpr std::array tapers{Taper::linear, Taper::logarithmic, Taper::reverseLogarithmic};
/// Common practice, no source: a new log pot has 15 % of its track at half a turn.
constexpr double logShareAtHalf = 0.15;

QString percentOf(double share) {
    return numberText(100.0 * share, 'g', 3);
}

double usualShare(Taper taper) {
    return taper == Taper::linear ? 0.5 : logShareAtHalf;
}

/// The law with the share that the part has, or would have.
QString lawWords(Taper taper, double share) {
    switch (taper) {
        case Taper::linear:
            return PartFields::tr("linear");
        case Taper::logarithmic:
            return PartFields::tr("log, %1 % at half").arg(percentOf(share));
        default:
            return PartFields::tr("reverse log, %1 % at half").arg(percentOf(share));
    }
}

QString valueHint(PartKind kind) {
    switch (unitOf(kind)) {
        case Unit::ohm:
            return "4k7";
        case Unit::farad:
            return "100n";
        case Unit::henry:
            return "2.8H";
        case Unit::volt:
            return "9V";
        default:
            return {};
    }
}

/// A signal source plays what the knobs' row says: it has no value of its own.
bool isSignal(const Part& part) {
    return part.kind == PartKind::voltageSource && part.acAmplitude != 0.0;
}

bool isValued(const Part& part) {
    return unitOf(part.kind) != Unit::none && !hasModel(part.kind) && !isSignal(part);
}

}  // namespace

PartFields::PartFields(JobDocument& document, DrawHand& hand, QWidget* parent)
    : EntryForm(parent), m_document(document), m_hand(hand) {
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(margin, 12, margin, 10);
    column->setSpacing(8);
    m_title = new ThemedLabel(TextRole::lead, true, &ThemeColours::ink, this);
    m_title->setWordWrap(true);
    column->addWidget(m_title);
    auto* grid = new QGridLayout;
    grid->setHorizontalSpacing(10);
    grid->setVerticalSpacing(6);
    grid->setColumnStretch(1, 1);
    column->addLayout(grid);
    buildFields(*grid);
    buildLaw(*grid);
    connect(&hand, &DrawHand::replaced, this, &PartFields::dropEntry);
    connect(&hand, &DrawHand::changed, this, &PartFields::follow);
    follow();
}

void PartFields::buildFields(QGridLayout& grid) {
    m_unit = addField(grid, tr("Unit"), tr("what it is called"), [this](auto& typed) { return takeUnitName(typed); });
    m_value = addField(grid, tr("Value"), {}, [this](auto& typed) { return takeValue(typed); });
    m_type = addField(grid, tr("Type"), "2N3904", [this](auto& typed) { return takeType(typed); });
    m_reference =
        addField(grid, tr("Reference"), "R1", [this](auto& typed) { return takeWord(&Part::reference, typed); });
    m_function = addField(grid, tr("Name"), tr("what it is for"),
                          [this](auto& typed) { return takeWord(&Part::function, typed); });
    m_build = addField(grid, tr("Build"), tr("film, electrolytic"),
                       [this](auto& typed) { return takeWord(&Part::build, typed); });
    m_tolerance = addField(grid, tr("Tolerance"), "5 %", [this](auto& typed) { return takeTolerance(typed); });
    m_knob =
        addField(grid, tr("Knob"), tr("Drive; empty for a trimmer"), [this](auto& typed) { return takeKnob(typed); });
    m_plus = addField(grid, tr("Plus supply"), tr("9 V, or a net"), [this](auto&) { return takeSupplies(); });
    m_minus = addField(grid, tr("Minus supply"), tr("ground, or a net"), [this](auto&) { return takeSupplies(); });
}

void PartFields::buildLaw(QGridLayout& grid) {
    m_lawLabel = new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this);
    m_lawLabel->setText(tr("Law"));
    m_law = new QComboBox(this);
    m_law->setAccessibleName(tr("Law"));
    m_lawLabel->setBuddy(m_law);
    for (const Taper taper : tapers) {
        m_law->addItem(lawWords(taper, usualShare(taper)));
    }
    const int row = grid.rowCount();
    grid.addWidget(m_lawLabel, row, 0);
    grid.addWidget(m_law, row, 1);
    connect(m_law, &QComboBox::activated, this, &PartFields::takeLaw);
}

const Part* PartFields::picked() const {
    const Picked& picked = m_hand.picked();
    return picked.parts.size() == 1 ? findPart(m_document.job()->stock, picked.parts.front()) : nullptr;
}

const Part* PartFields::entered() const {
    return findPart(m_document.job()->stock, m_part);
}

void PartFields::begin(QLineEdit* /*field*/) {
    const Part* part = picked();
    m_part = part ? part->id : PartId();
}

void PartFields::follow() {
    const Part* part = picked();
    const PartId now = part ? part->id : PartId();
    if (isTyping() && now != m_part) {
        finishEntry();  // comes back here
        return;
    }
    m_part = now;
    showPart(part);
    showPot(part);
}

void PartFields::showPart(const Part* part) {
    const Picked& all = m_hand.picked();
    const auto count = static_cast<int>(all.parts.size() + all.wires.size() + all.flags.size());
    const Part shown = part ? *part : Part();
    m_title->setText(part         ? tr("%1, %2").arg(text(displayName(*part)), saidText(kindName(part->kind)))
                     : count == 1 ? tr("One thing picked")
                     : count > 1  ? tr("%1 things picked").arg(count)
                                  : tr("Nothing picked"));
    showField(m_unit, count == 0, text(m_document.job()->unit.name));
    m_value->setPlaceholderText(valueHint(shown.kind));
    showField(m_value, part && isValued(shown),
              shown.value == 0.0 ? QString() : text(formatPartValue({shown.value, unitOf(shown.kind)})));
    showField(m_type, part && hasModel(shown.kind), text(shown.model));
    showField(m_reference, part != nullptr, text(shown.reference));
    showField(m_function, part != nullptr, text(shown.function));
    showField(m_build, part && shown.kind == PartKind::capacitor, text(shown.build));
    showField(m_tolerance, part && hasValue(shown.kind),
              shown.tolerance > 0.0 ? tr("%1 %").arg(percentOf(shown.tolerance)) : QString());
    const bool isOpamp = part && shown.kind == PartKind::opamp;
    showField(m_plus, isOpamp, isOpamp ? text(shown.nets[3]) : QString());
    showField(m_minus, isOpamp, isOpamp ? text(shown.nets[4]) : QString());
}

void PartFields::showPot(const Part* part) {
    const bool isPot = part && part->kind == PartKind::potentiometer;
    const Knob* knob = isPot ? knobOf(m_document.job()->stock, part->id) : nullptr;
    showField(m_knob, isPot, knob ? text(knob->name) : QString());
    m_lawLabel->setVisible(isPot);
    m_law->setVisible(isPot);
    for (std::size_t i = 0; isPot && i < tapers.size(); ++i) {
        const bool isItsOwn = tapers[i] == part->taper;
        m_law->setItemText(static_cast<int>(i),
                           lawWords(tapers[i], isItsOwn ? part->shareAtHalf : usualShare(tapers[i])));
        if (isItsOwn) {
            m_law->setCurrentIndex(static_cast<int>(i));
        }
    }
}

void PartFields::typeValue(const QString& typed) {
    const Part* part = picked();
    if (part && (isValued(*part) || hasModel(part->kind))) {
        enter(isValued(*part) ? m_value : m_type, typed);
    }
}

// --- entries -------------------------------------------------------------------------------------------------------

bool PartFields::refuse(const Error& error) {
    emit refused(text(error.message));
    return false;
}

bool PartFields::describe(const Part& part, const std::optional<Model>& type) {
    const Result<Circuit> described = describePart(m_document.job()->stock, part, type);
    return m_hand.edit(described ? EditResult(Edited{*described, {}, m_hand.picked()}) : EditResult(described.error()),
                       tr("Describe %1").arg(text(part.reference)));
}

bool PartFields::takeUnitName(const QString& typed) {
    Job job = *m_document.job();
    job.unit.name = typed.toStdString();
    return m_document.edit(job, tr("Name the unit"), JobAspect::words);
}

bool PartFields::takeValue(const QString& typed) {
    const Part* part = entered();
    if (!part) {
        return true;
    }
    const Result<Quantity> read = parsePartValue(typed.toStdString(), unitOf(part->kind));
    if (!read) {
        return refuse(read.error());
    }
    Part changed = *part;
    changed.value = read->si;
    return describe(changed);
}

bool PartFields::takeType(const QString& typed) {
    const Part* part = entered();
    if (!part) {
        return true;
    }
    const Result<Model> named = typeNamed(typed.toStdString(), part->kind, m_hand.models());
    if (!named) {
        return refuse(named.error());
    }
    Part changed = *part;
    changed.model = named->name;
    return describe(changed, *named);
}

/// An empty one: none is known.
bool PartFields::takeTolerance(const QString& typed) {
    const Part* part = entered();
    if (!part) {
        return true;
    }
    const Result<double> share = typed.isEmpty() ? Result<double>(0.0) : parseShare(typed.toStdString());
    if (!share) {
        return refuse(share.error());
    }
    if (*share >= 1.0) {
        emit refused(tr("A tolerance is less than 100 %: type the printed one, as in 5 %."));
        return false;
    }
    Part changed = *part;
    changed.tolerance = *share;
    return describe(changed);
}

bool PartFields::takeWord(std::string Part::*word, const QString& typed) {
    const Part* part = entered();
    if (!part) {
        return true;
    }
    Part changed = *part;
    changed.*word = typed.toStdString();
    if (word == &Part::reference) {
        return describe(changed);  // answers name it
    }
    const Result<Circuit> described = describePart(m_document.job()->stock, changed);
    return m_hand.editWords(
        described ? EditResult(Edited{*described, {}, m_hand.picked()}) : EditResult(described.error()),
        tr("Describe %1").arg(text(changed.reference)));
}

bool PartFields::takeSupplies() {
    const Part* part = entered();
    return !part || m_hand.edit(supplyOpamp(m_document.job()->stock, part->id, m_plus->text().trimmed().toStdString(),
                                            m_minus->text().trimmed().toStdString()),
                                tr("Supply %1").arg(text(part->reference)));
}

/// An empty name makes the pot a trimmer: it stands where its value says.
bool PartFields::takeKnob(const QString& typed) {
    const Part* part = entered();
    if (!part) {
        return true;
    }
    const std::string reference = part->reference;
    const std::string name = typed.toStdString();
    Circuit circuit = m_document.job()->stock;
    const auto knob = std::find_if(circuit.knobs.begin(), circuit.knobs.end(),
                                   [this](const Knob& other) { return other.part == m_part; });
    if (name.empty()) {
        std::erase_if(circuit.knobs, [this](const Knob& other) { return other.part == m_part; });
    } else if (knob == circuit.knobs.end()) {
        circuit.knobs.push_back({m_part, name, m_part});
    } else {
        knob->name = name;
    }
    return m_hand.edit(Edited{std::move(circuit), {}, m_hand.picked()}, tr("Name the knob of %1").arg(text(reference)));
}

/// Another law comes with its usual share; the same law keeps the part's own.
void PartFields::takeLaw(int index) {
    const Part* part = picked();
    const Taper taper = tapers.at(static_cast<std::size_t>(index));
    if (!part || part->taper == taper) {
        return;
    }
    Part changed = *part;
    changed.taper = taper;
    changed.shareAtHalf = usualShare(taper);
    describe(changed);
}

}  // namespace ohmwright
