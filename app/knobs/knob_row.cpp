// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/knobs/knob_row.h"

#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/knobs/knob_dial.h"
#include "app/look/theme.h"

#include <QHBoxLayout>
#include <QPainter>

namespace ohmwright {

KnobRow::KnobRow(JobDocument& document, Selection& selection, SolverService&, QWidget* parent)
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
        showFaces();
    });
    connect(&selection, &Selection::partChanged, this, &KnobRow::markSelected);
    connect(&Theme::current(), &Theme::changed, this, [this] {
        for (KnobDial* dial : m_dials) {
            dial->updateGeometry();
            dial->update();
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
    showFaces();
    markSelected();
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
