// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/found_form.h"

#include "app/look/panel_title.h"
#include "app/look/sign_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/base/value_text.h"
#include "core/bench/net_words.h"
#include "core/plan/findings.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QLocale>
#include <QPushButton>
#include <QRadioButton>
#include <QVBoxLayout>

#include <algorithm>
#include <set>

namespace ohmwright {

namespace {

constexpr double percent = 100.0;

std::string bytes(const QLineEdit& field) {
    return field.text().trimmed().toStdString();
}

Error wrong(const QString& sentence) {
    return {ErrorCode::invalidInput, sentence.toStdString(), {}};
}

/// The nets with what one finds there, in the circuit's order.
void fillNets(QComboBox& box, const Circuit& stock, const PartId& part) {
    const QSignalBlocker quiet(&box);
    box.clear();
    std::set<NetName> met;
    for (const Part& each : stock.parts) {
        for (const NetName& net : each.nets) {
            if (met.insert(net).second) {
                const QString name = net == groundNet ? QObject::tr("ground") : text(net);
                box.addItem(QString("%1: %2").arg(name, text(joinsWords(stock, net, part))), text(net));
            }
        }
    }
}

}  // namespace

FoundForm::FoundForm(QWidget* parent)
    : QWidget(parent),
      m_head(new ThemedLabel(TextRole::body, true, &ThemeColours::ink, this)),
      m_thing(new QComboBox(this)),
      m_choice(new QComboBox(this)),
      m_net(new QComboBox(this)),
      m_otherNet(new QComboBox(this)),
      m_reading(new QLineEdit(this)),
      m_printed(new QLineEdit(this)),
      m_note(new QLineEdit(this)),
      m_message(new SignText(this)),
      m_take(new QPushButton(tr("Correct it"), this)) {
    build();
    connect(m_thing, &QComboBox::currentIndexChanged, this, &FoundForm::showThing);
    for (QComboBox* box : {m_choice, m_net, m_otherNet}) {
        connect(box, &QComboBox::currentIndexChanged, this, &FoundForm::echo);
    }
    for (QLineEdit* field : {m_reading, m_printed}) {
        connect(field, &QLineEdit::textChanged, this, &FoundForm::echo);
    }
    connect(m_take, &QPushButton::clicked, this, &FoundForm::take);
    for (QLineEdit* field : {m_reading, m_printed, m_note}) {
        connect(field, &QLineEdit::returnPressed, this, &FoundForm::take);
    }
}

void FoundForm::build() {
    m_thing->setAccessibleName(tr("What differs"));
    m_choice->setAccessibleName(tr("On the board"));
    m_net->setAccessibleName(tr("Where the leg sits"));
    m_otherNet->setAccessibleName(tr("Where its other leg sits"));
    for (QComboBox* box : {m_net, m_otherNet}) {
        box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    }
    m_reading->setAccessibleName(tr("What the board has"));
    m_printed->setAccessibleName(tr("Printed on the body"));
    m_note->setAccessibleName(tr("Note"));
    m_note->setPlaceholderText(tr("note, if any"));
    m_head->setWordWrap(true);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(6);
    layout->addWidget(new PanelTitle(tr("On this board"), this));
    layout->addWidget(m_head);
    for (QWidget* field : std::initializer_list<QWidget*>{m_thing, m_choice, m_net, m_otherNet, m_reading, m_printed}) {
        layout->addWidget(field);
    }
    layout->addWidget(new PanelTitle(tr("Why the drawing differs"), this));
    for (const QString& words :
         {tr("The &board differs: built so"), tr("An ea&rlier mod by somebody"), tr("The &drawing was misread here")}) {
        m_reasons.push_back(new QRadioButton(words, this));
        layout->addWidget(m_reasons.back());
    }
    layout->addWidget(m_note);
    layout->addWidget(m_message);
    auto* leave = new QPushButton(tr("Leave as drawn"), this);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(8);
    buttons->addWidget(m_take);
    buttons->addWidget(leave);
    layout->addLayout(buttons);
    connect(leave, &QPushButton::clicked, this, &FoundForm::left);
    for (QWidget* each : findChildren<QWidget*>()) {
        each->installEventFilter(this);
    }
}

void FoundForm::setModels(std::vector<Model> models) {
    m_models = std::move(models);
}

void FoundForm::begin(const Circuit& stock, const PartId& part) {
    m_stock = stock;
    m_part = *findPart(stock, part);
    m_head->setText(m_part.printed.empty()
                        ? tr("%1: the drawing says %2").arg(text(displayName(m_part)), text(valueWords(m_part)))
                        : tr("%1: the drawing says %2, printed %3")
                              .arg(text(displayName(m_part)), text(valueWords(m_part)), text(m_part.printed)));
    m_reading->clear();
    m_printed->clear();
    m_note->clear();
    m_reasons.front()->setChecked(true);
    fillThings();
    showThing();
    (m_reading->isVisibleTo(this) ? static_cast<QWidget*>(m_reading) : m_thing)->setFocus(Qt::OtherFocusReason);
}

void FoundForm::fillThings() {
    const QSignalBlocker quiet(m_thing);
    m_thing->clear();
    const auto add = [this](Thing thing, const QString& words) { m_thing->addItem(words, static_cast<int>(thing)); };
    if (hasValue(m_part.kind)) {
        add(Thing::value, tr("Another value"));
    }
    if (hasModel(m_part.kind)) {
        add(Thing::type, tr("Another type"));
    }
    add(Thing::missing, tr("The part is not there"));
    add(Thing::leg, tr("A leg sits elsewhere"));
    add(Thing::more, tr("A part more sits beside it"));
    if (m_part.kind == PartKind::potentiometer) {
        add(Thing::law, tr("Another law"));
    }
    if (hasValue(m_part.kind)) {
        add(Thing::tolerance, tr("Another tolerance"));
    }
    add(Thing::reference, tr("Another reference is printed"));
    add(Thing::place, tr("Where it sits"));
}

FoundForm::Thing FoundForm::thing() const {
    return static_cast<Thing>(m_thing->currentData().toInt());
}

void FoundForm::fillChoices(Thing thing) {
    const QSignalBlocker quiet(m_choice);
    m_choice->clear();
    if (thing == Thing::type) {
        std::vector<Model> known = m_stock.models;
        known.insert(known.end(), m_models.begin(), m_models.end());
        for (const Model& model : known) {
            if (model.kind == m_part.kind && model.name != m_part.model && m_choice->findText(text(model.name)) < 0) {
                m_choice->addItem(text(model.name));
            }
        }
    } else if (thing == Thing::law) {
        m_choice->addItems({tr("linear"), tr("log, percent at half"), tr("reverse log, percent at half")});
    } else if (thing == Thing::leg) {
        for (int pin = 0; pin < static_cast<int>(m_part.nets.size()); ++pin) {
            m_choice->addItem(tr("%1 (leg %2)").arg(text(pinWords(m_part, pin)), QString::number(pin + 1)));
        }
        fillNets(*m_net, m_stock, m_part.id);
        // Where it sits is what is asked: no net is taken for an answer.
        m_net->setCurrentIndex(-1);
    } else if (thing == Thing::more) {
        m_choice->addItems({tr("resistor"), tr("capacitor")});
        for (QComboBox* box : {m_net, m_otherNet}) {
            fillNets(*box, m_stock, {});
        }
        // Across the part, as most are.
        m_net->setCurrentIndex(m_net->findData(text(m_part.nets.front())));
        m_otherNet->setCurrentIndex(m_otherNet->findData(text(m_part.nets.back())));
    }
}

void FoundForm::showThing() {
    const Thing which = thing();
    fillChoices(which);
    const bool isMore = which == Thing::more;
    m_choice->setVisible(which == Thing::type || which == Thing::law || which == Thing::leg || isMore);
    m_net->setVisible(which == Thing::leg || isMore);
    m_otherNet->setVisible(isMore);
    m_printed->setPlaceholderText(isMore ? tr("its reference, as in R40") : tr("printed on the body, if anything"));
    m_reading->setVisible(which != Thing::type && which != Thing::leg && which != Thing::missing);
    m_printed->setVisible(which == Thing::value || which == Thing::type || isMore);
    switch (which) {
        case Thing::tolerance:
        case Thing::law:
            m_reading->setPlaceholderText(tr("percent"));
            break;
        case Thing::reference:
            m_reading->setPlaceholderText(tr("reference, as in R5"));
            break;
        case Thing::place:
            m_reading->setPlaceholderText(tr("in words"));
            break;
        default:
            m_reading->setPlaceholderText(tr("value on the board, as in 4k7"));
    }
    echo();
}

Result<Finding> FoundForm::valueFinding() const {
    const auto read = parsePartValue(bytes(*m_reading), unitOf(m_part.kind));
    if (!read) {
        return read.error();
    }
    return Finding(ValueFound{read->si, bytes(*m_printed)});
}

/// A tolerance, or a pot's law.
Result<Finding> FoundForm::shareFinding() const {
    const int law = m_choice->currentIndex();
    if (thing() == Thing::law && law == 0) {
        return Finding(LawFound{});
    }
    bool isNumber = false;
    const double share = QLocale::c().toDouble(m_reading->text().trimmed().replace(',', '.'), &isNumber) / percent;
    if (!isNumber) {
        return wrong(tr("Type the percent as a number."));
    }
    if (thing() == Thing::tolerance) {
        return Finding(ToleranceFound{share});
    }
    return Finding(LawFound{law == 1 ? Taper::logarithmic : Taper::reverseLogarithmic, share});
}

Result<Finding> FoundForm::partMore() const {
    Part part;
    part.kind = m_choice->currentIndex() == 0 ? PartKind::resistor : PartKind::capacitor;
    const auto read = parsePartValue(bytes(*m_reading), unitOf(part.kind));
    if (!read) {
        return read.error();
    }
    part.value = read->si;
    part.reference = bytes(*m_printed);
    part.knowledge = Knowledge::seen;
    for (const QComboBox* box : {m_net, m_otherNet}) {
        part.nets.push_back(box->currentData().toString().toStdString());
    }
    if (part.reference.empty() || part.nets[0] == part.nets[1]) {
        return wrong(part.reference.empty() ? tr("Give it a reference, such as the one that is printed beside it.")
                                            : tr("Its two legs sit at one net: choose another for one of them."));
    }
    PresenceFound found;
    found.part = part;
    found.beside = m_part.id;
    return Finding(found);
}

Result<Finding> FoundForm::finding() const {
    switch (thing()) {
        case Thing::value:
            return valueFinding();
        case Thing::type: {
            const std::string name = m_choice->currentText().toStdString();
            const Model* known = findModel(m_stock, name);
            const auto other =
                std::find_if(m_models.begin(), m_models.end(), [&](const Model& model) { return model.name == name; });
            if (known == nullptr && other == m_models.end()) {
                return wrong(tr("There is no other type of this kind in the part library."));
            }
            return Finding(TypeFound{known != nullptr ? *known : *other, bytes(*m_printed)});
        }
        case Thing::tolerance:
        case Thing::law:
            return shareFinding();
        case Thing::leg:
            if (m_net->currentIndex() < 0) {
                return wrong(tr("Choose where the leg sits on the board."));
            }
            return Finding(LegFound{m_choice->currentIndex(), m_net->currentData().toString().toStdString()});
        case Thing::missing:
            return Finding(PresenceFound{});
        case Thing::more:
            return partMore();
        case Thing::reference:
            return Finding(ReferenceFound{bytes(*m_reading)});
        case Thing::place:
            break;
    }
    return Finding(BoardNoteFound{bytes(*m_reading)});
}

void FoundForm::echo() {
    m_reading->setEnabled(thing() != Thing::law || m_choice->currentIndex() != 0);
    if (m_reading->isVisibleTo(this) && m_reading->text().trimmed().isEmpty()) {
        m_message->setSentence({});
        return;
    }
    const Result<Finding> found = finding();
    if (!found) {
        m_message->setSentence(text(found.error().message), SignKind::care);
        return;
    }
    const auto* value = std::get_if<ValueFound>(&*found);
    m_message->setSentence(value != nullptr ? text(formatQuantity({value->value, unitOf(m_part.kind)}))
                                            : text(findingWords(*found, m_part.kind)));
}

void FoundForm::showError(const QString& sentence) {
    m_message->setSentence(sentence, SignKind::stop);
}

void FoundForm::take() {
    const Result<Finding> found = finding();
    if (!found) {
        m_message->setSentence(text(found.error().message), SignKind::care);
        return;
    }
    Correction correction;
    correction.part = thing() == Thing::more ? PartId() : m_part.id;
    correction.found = *found;
    const auto chosen =
        std::find_if(m_reasons.begin(), m_reasons.end(), [](const QRadioButton* each) { return each->isChecked(); });
    correction.reason = static_cast<CorrectionReason>(chosen - m_reasons.begin());
    correction.note = bytes(*m_note);
    emit entered(correction);
}

bool FoundForm::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::KeyPress) {
        const int key = static_cast<QKeyEvent*>(event)->key();
        if (key == Qt::Key_Escape) {
            emit left();
            return true;
        }
        const bool isEnter = key == Qt::Key_Return || key == Qt::Key_Enter;
        if (isEnter && (qobject_cast<QRadioButton*>(watched) != nullptr || watched == m_thing || watched == m_choice ||
                        watched == m_net || watched == m_otherNet)) {
            take();
            return true;
        }
    }
    return QWidget::eventFilter(watched, event);
}

}  // namespace ohmwright
