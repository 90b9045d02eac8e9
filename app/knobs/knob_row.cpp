// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/knobs/knob_row.h"

#include "app/background/consequence_service.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/knobs/knob_dial.h"
#include "app/knobs/throw_chooser.h"
#include "app/look/level_units.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "core/base/number_text.h"
#include "core/plan/edits.h"

#include <QHBoxLayout>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ohmwright {

namespace {

std::vector<Mod> switchesOn(const Plan& plan) {
    std::vector<Mod> switches;
    std::copy_if(plan.begin(), plan.end(), std::back_inserter(switches),
                 [](const Mod& mod) { return mod.on && std::holds_alternative<FitSwitch>(mod.change); });
    return switches;
}

QStringList throwNamesOf(const Mod& mod) {
    QStringList names;
    for (const SwitchThrow& one : std::get<FitSwitch>(mod.change).throws) {
        names << text(one.name);
    }
    return names;
}

/// "level jump +7.47 dB, step at the contact 0.0 V": the largest of each, from a throw to the one after it; with more
/// than two throws it says which: "open to LED +1.01 dB".
QString factsOf(const ThrowTable& table) {
    double largest = 0.0;
    QString pair = QObject::tr("level jump");
    for (std::size_t next = 1; next < table.throws.size(); ++next) {
        const double jump = table.throws[next].jumpDb - table.throws[next - 1].jumpDb;
        if (!std::isfinite(jump)) {
            return QObject::tr("no level jump: a throw passes no signal");
        }
        if (std::abs(jump) > std::abs(largest)) {
            largest = jump;
            pair = table.throws.size() > 2 ? QObject::tr("%1 to %2", "a change")
                                                 .arg(text(table.throws[next - 1].name), text(table.throws[next].name))
                                           : pair;
        }
    }
    const QString step =
        table.steps.empty() ? text(formatFixed(0.0, 1)) : text(formatFigure(table.steps.front().volts));
    return QObject::tr("%1 %2 dB, step at the contact %3 V").arg(pair, text(formatFigure(largest, Sign::always)), step);
}

}  // namespace

KnobRow::KnobRow(JobDocument& document, Selection& selection, QWidget* parent)
    : QWidget(parent), m_document(document), m_selection(selection) {
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    auto* layout = new QHBoxLayout(this);
    layout->setContentsMargins(0, 1, 0, 1);
    layout->setSpacing(1);
    rebuild();
    connect(&document, &JobDocument::jobChanged, this, [this] {
        const Circuit& stock = m_document.job()->stock;
        if (stock.knobs != m_builtFor || stock.ports != m_builtForPorts) {
            rebuild();
        }
        if (switchesOn(m_document.job()->plan) != m_switches) {
            rebuildChoosers();
        }
        showFaces();
    });
    connect(&selection, &Selection::partChanged, this, &KnobRow::markSelected);
    connect(&LevelUnits::current(), &LevelUnits::changed, this, &KnobRow::showFaces);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        for (KnobDial* dial : m_dials) {
            dial->updateGeometry();
            dial->update();
        }
        for (ThrowChooser* chooser : m_choosers) {
            chooser->updateGeometry();
            chooser->update();
        }
        update();
    });
}

KnobRow::~KnobRow() {
    // A field that is open loses its focus while the dials go, and would be heard by a row without controls.
    for (KnobDial* dial : m_dials) {
        dial->disconnect(this);
    }
}

void KnobRow::setFolded(bool folded) {
    m_isFolded = folded;
    for (KnobDial* dial : m_dials) {
        dial->setFolded(folded);
    }
    for (ThrowChooser* chooser : m_choosers) {
        chooser->setFolded(folded);
    }
}

void KnobRow::followSwitches(ConsequenceService& consequences) {
    m_consequences = &consequences;
    connect(&consequences, &ConsequenceService::ready, this, &KnobRow::showSwitchFacts);
    connect(&consequences, &ConsequenceService::stateChanged, this, &KnobRow::showSwitchFacts);
    showSwitchFacts();
}

void KnobRow::rebuild() {
    qDeleteAll(m_dials);
    m_dials.clear();
    const Circuit& stock = m_document.job()->stock;
    m_controls = controlsOf(stock);
    m_builtFor = stock.knobs;
    m_builtForPorts = stock.ports;
    for (const std::unique_ptr<Control>& control : m_controls) {
        m_dials.push_back(makeDial(*control));
        layout()->addWidget(m_dials.back());
    }
    rebuildChoosers();
    showFaces();
    markSelected();
}

void KnobRow::rebuildChoosers() {
    qDeleteAll(m_choosers);
    m_choosers.clear();
    const Job& job = *m_document.job();
    m_switches = switchesOn(job.plan);
    auto place = static_cast<int>(std::count_if(m_controls.begin(), m_controls.end(),
                                                [&](const auto& control) { return control->isOfUnit(job.stock); }));
    for (const Mod& mod : m_switches) {
        auto* chooser = new ThrowChooser(text(mod.letter + " " + mod.name), throwNamesOf(mod), this);
        chooser->setObjectName(text(mod.id));
        chooser->setFolded(m_isFolded);
        connect(chooser, &ThrowChooser::asked, this, [this, mod](int index) {
            const std::string& name = std::get<FitSwitch>(mod.change).throws[static_cast<std::size_t>(index)].name;
            m_document.edit(setThrow(*m_document.job(), mod.id, name),
                            tr("Switch %1 to %2").arg(text(mod.name), text(name)), JobAspect::electrical);
        });
        static_cast<QBoxLayout*>(layout())->insertWidget(place++, chooser);
        m_choosers.push_back(chooser);
    }
    // The keyboard walks the row as it stands.
    for (int item = 1; item < layout()->count(); ++item) {
        setTabOrder(layout()->itemAt(item - 1)->widget(), layout()->itemAt(item)->widget());
    }
    showSwitchFacts();
}

void KnobRow::showSwitchFacts() {
    constexpr auto section = ConsequenceService::Section::switches;
    for (ThrowChooser* chooser : m_choosers) {
        QString facts;
        if (m_consequences && m_consequences->isCurrent(section) && m_consequences->switches()) {
            for (const SwitchAnswer& answer : *m_consequences->switches()) {
                facts = text(answer.modId) == chooser->objectName() ? factsOf(answer.table) : facts;
            }
        } else if (m_consequences) {
            // The sentence on what is wrong stands in the status line.
            facts = m_consequences->trouble(section).isEmpty() ? tr("solving") : tr("not current");
        }
        chooser->setFacts(facts);
    }
}

KnobDial* KnobRow::makeDial(const Control& control) {
    auto* dial = new KnobDial(this);
    dial->setObjectName(control.id());
    dial->setFolded(m_isFolded);
    connect(dial, &KnobDial::stepped, this, [this, &control](int steps, DialStep step) {
        turn(control, control.stepped(*m_document.job(), steps, step));
    });
    connect(dial, &KnobDial::sentTo, this,
            [this, &control](double travel) { turn(control, control.atTravel(*m_document.job(), travel)); });
    connect(dial, &KnobDial::restAsked, this,
            [this, &control] { turn(control, control.restValue(*m_document.job())); });
    connect(dial, &KnobDial::sumAsked, this, [this, dial, &control] {
        if (findKnob(m_document.job()->stock, control.id().toStdString()) != nullptr) {
            emit sumsAsked({"pot_" + control.id()}, {dial->mapToGlobal(QPoint(0, 0)), dial->size()});
        }
    });
    connect(dial, &KnobDial::typingBegun, this,
            [this, &control] { m_valueBeforeTyping = control.value(*m_document.job()); });
    connect(dial, &KnobDial::typedSoFar, this, [this, &control](const QString& text) {
        const Result<double> value = control.read(text);
        if (control.takesWhileTyping() && value) {
            turn(control, *value);
        }
    });
    connect(dial, &KnobDial::typed, this, [this, &control](const QString& text) { takeTyped(control, text); });
    connect(dial, &KnobDial::typingDropped, this, [this, &control] { turn(control, m_valueBeforeTyping); });
    return dial;
}

void KnobRow::showFaces() {
    const Job& job = *m_document.job();
    for (std::size_t index = 0; index < m_dials.size(); ++index) {
        m_dials[index]->setFace(m_controls[index]->face(job));
    }
    for (std::size_t index = 0; index < m_choosers.size(); ++index) {
        const QString stands = text(throwOf(job.setting.throws, m_switches[index].id));
        m_choosers[index]->setChosen(std::max(0, static_cast<int>(m_choosers[index]->throwNames().indexOf(stands))));
    }
}

void KnobRow::markSelected() {
    const Knob* knob = knobOf(m_document.job()->stock, m_selection.part());
    for (KnobDial* dial : m_dials) {
        dial->setMarked(knob && dial->objectName() == QString::fromStdString(knob->id));
    }
}

void KnobRow::turn(const Control& control, double value) {
    const Job& job = *m_document.job();
    if (control.value(job) == value) {
        return;
    }
    Result<Job> turned = control.turned(job, value);
    const QString text = turned ? control.editText(*turned) : QString();
    m_document.edit(std::move(turned), text, JobAspect::electrical, MergeKind::knob, control.id());
}

void KnobRow::takeTyped(const Control& control, const QString& text) {
    const Result<double> value = control.read(text);
    if (value) {
        turn(control, *value);
    } else {
        m_document.edit(value.error(), {});  // announces the sentence
        turn(control, m_valueBeforeTyping);
    }
}

void KnobRow::paintEvent(QPaintEvent*) {
    const ThemeColours& colours = Theme::current().colours();
    QPainter painter(this);
    painter.fillRect(rect(), colours.hair);
    painter.fillRect(0, 0, width(), 1, colours.edge);
    painter.fillRect(0, height() - 1, width(), 1, colours.edge);
    // The unit ends here; what follows is the player's and the next box's.
    const Circuit& stock = m_document.job()->stock;
    for (std::size_t index = 1; index < m_dials.size(); ++index) {
        if (m_controls[index - 1]->isOfUnit(stock) && !m_controls[index]->isOfUnit(stock)) {
            painter.fillRect(m_dials[index]->x() - 1, 0, 1, height(), colours.edge);
        }
    }
}

}  // namespace ohmwright
