// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/look/value_field.h"

#include "app/look/choice_button.h"
#include "app/look/said_text.h"
#include "app/look/sign_text.h"
#include "app/look/value_box.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>
#include <utility>

namespace ohmwright {
namespace {

QString shopText(Quantity value) {
    return QString::fromStdString(formatPartValue(value));
}

QString unitText(Quantity value) {
    return QString::fromStdString(formatQuantity(value));
}

/// Typed values are read from decimal text: anything nearer than this is the same value.
bool isSameValue(double a, double b) {
    constexpr double relative = 1e-9;
    return std::abs(a - b) <= relative * std::max(std::abs(a), std::abs(b));
}

double factorBetween(double a, double b) {
    return std::max(a, b) / std::min(a, b);
}

QString echoOf(const ValueReading& reading) {
    QString value = unitText(reading.value);
    if (!reading.toleranceFraction) {
        return value;
    }
    return QStringLiteral("%1 ±%2 %").arg(value, numberText(*reading.toleranceFraction * 100.0, 'g', 3));
}

}  // namespace

ValueField::ValueField(QWidget* parent) : QWidget(parent) {
    m_box = new ValueBox(this);
    m_message = new SignText(this);
    m_choiceArea = new QWidget(this);
    m_choiceLayout = new QVBoxLayout(m_choiceArea);
    m_choiceLayout->setContentsMargins(0, 4, 0, 0);
    m_choiceLayout->setSpacing(8);
    m_choiceArea->hide();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(6);
    layout->addWidget(m_box);
    layout->addWidget(m_message);
    layout->addWidget(m_choiceArea);
    setFocusProxy(m_box);
    connect(m_box, &ValueBox::edited, this, &ValueField::readLive);
    connect(m_box, &ValueBox::entered, this, &ValueField::enter);
    connect(m_box, &ValueBox::abandoned, this, &ValueField::restore);
    connect(m_box, &ValueBox::stepped, this, [this](int direction, Qt::KeyboardModifiers modifiers) {
        restore();
        emit stepped(direction, modifiers);
    });
}

void ValueField::setSubject(const ValueSubject& subject) {
    if (subject == m_subject && (m_box->entry()->isModified() || isAsking())) {
        return;
    }
    if (subject.name != m_subject.name) {
        m_confirmed.reset();
    }
    m_subject = subject;
    m_box->entry()->setAccessibleName(tr("New value of %1").arg(subject.name));
    restore();
}

void ValueField::setNote(const QString& note) {
    m_note = note;
    if (!isAsking() && !m_box->entry()->isModified() && m_message->sign() == SignKind::none) {
        showNote();
    }
}

void ValueField::showError(const QString& sentence) {
    stopAsking();
    m_message->setSentence(sentence, SignKind::stop);
    selectEntry();
}

void ValueField::startTyping(const QString& text) {
    QLineEdit* entry = m_box->entry();
    entry->setFocus(Qt::OtherFocusReason);
    entry->selectAll();
    entry->insert(text);
    readLive(entry->text());
}

QString ValueField::text() const {
    return m_box->entry()->text();
}

QString ValueField::message() const {
    return m_message->text();
}

/// Says what would be understood; an unfinished text is no error yet.
void ValueField::readLive(const QString& text) {
    stopAsking();
    m_box->setPlanned(true);
    const auto readings = readValue(text.toStdString(), m_subject.stock.unit);
    if (!readings) {
        m_message->setSentence(QString());
    } else if (readings->size() == 1) {
        m_message->setSentence(echoOf(readings->front()));
    } else {
        m_message->setSentence(tr("%1 can be read in %2 ways: Enter to choose.").arg(text).arg(readings->size()));
    }
}

void ValueField::enter() {
    const QString typed = text().trimmed();
    if (!m_box->entry()->isModified()) {
        selectEntry();
        return;
    }
    const auto readings = readValue(typed.toStdString(), m_subject.stock.unit);
    if (!readings) {
        showError(QString::fromStdString(readings.error().message));
        return;
    }
    if (readings->size() == 1) {
        consider(readings->front().value, typed);
        return;
    }
    std::vector<Choice> choices;
    for (const ValueReading& reading : *readings) {
        choices.push_back({echoOf(reading), QString::fromStdString(reading.because), reading.value});
    }
    ask(tr("%1 can be read in %2 ways. Which is meant?").arg(typed).arg(readings->size()), std::move(choices), typed);
}

/// Asks once when the value is far from stock, else takes it.
void ValueField::consider(Quantity value, const QString& text) {
    const double factor = factorBetween(value.si, m_subject.stock.si);
    const bool agreed = m_confirmed && isSameValue(*m_confirmed, value.si);
    if (m_subject.stock.si <= 0.0 || factor < doubtfulFactor * (1.0 - 1e-9) || agreed ||
        isSameValue(value.si, m_subject.now.si)) {
        accept(value, text);
        return;
    }
    const QString times = numberText(factor, 'g', 3);
    const QString sentence =
        value.si > m_subject.stock.si
            ? tr("%1 is %2 times the stock %3.").arg(unitText(value), times, unitText(m_subject.stock))
            : tr("%1 is the stock %3 divided by %2.").arg(unitText(value), times, unitText(m_subject.stock));
    ask(sentence,
        {{tr("Take %1").arg(shopText(value)), tr("it is meant"), value},
         {tr("Type again"), tr("keep %1").arg(shopText(m_subject.now)), {}}},
        text);
}

void ValueField::accept(Quantity value, const QString& text) {
    stopAsking();
    const bool changed = !isSameValue(value.si, m_subject.now.si);
    m_box->entry()->setText(shopText(value));
    m_box->setPlanned(!isSameValue(value.si, m_subject.stock.si));
    m_message->setSentence(unitText(value));
    selectEntry();
    if (changed) {
        emit valueEntered(value, text);
        selectEntry();
    }
}

void ValueField::ask(const QString& sentence, std::vector<Choice> choices, const QString& text) {
    stopAsking();
    m_askedText = text;
    m_choices = std::move(choices);
    m_message->setSentence(sentence, SignKind::care);
    for (std::size_t index = 0; index < m_choices.size(); ++index) {
        auto* button = new ChoiceButton(m_choices[index].title, m_choices[index].reason, m_choiceArea);
        button->installEventFilter(this);
        connect(button, &QAbstractButton::clicked, this, [this, index] { choose(index); });
        m_choiceLayout->addWidget(button);
    }
    m_choiceArea->show();
    m_choiceLayout->itemAt(0)->widget()->setFocus(Qt::OtherFocusReason);
}

void ValueField::choose(std::size_t index) {
    const Choice choice = m_choices.at(index);
    const bool wasFactorQuestion = !m_choices.back().value;
    const QString text = m_askedText;
    if (!choice.value) {
        restore();
        selectEntry();
        return;
    }
    if (wasFactorQuestion) {
        m_confirmed = choice.value->si;
        accept(*choice.value, text);
    } else {
        consider(*choice.value, text);
    }
}

void ValueField::stopAsking() {
    if (m_choices.empty()) {
        return;
    }
    m_choices.clear();
    // A choice may be what is being clicked right now: let it finish first.
    while (QLayoutItem* item = m_choiceLayout->takeAt(0)) {
        item->widget()->hide();
        item->widget()->deleteLater();
        delete item;
    }
    m_choiceArea->hide();
}

/// Back to what the plan says.
void ValueField::restore() {
    stopAsking();
    const bool planned = !isSameValue(m_subject.now.si, m_subject.stock.si);
    const bool hadFocus = m_box->entry()->hasFocus();
    m_box->setTexts(planned ? shopText(m_subject.stock) : QString(), shopText(m_subject.now));
    m_box->setPlanned(planned);
    showNote();
    if (hadFocus) {
        selectEntry();
    }
}

void ValueField::showNote() {
    m_message->setSentence(m_note.isEmpty() ? unitText(m_subject.now) : m_note);
}

void ValueField::selectEntry() {
    m_box->entry()->setFocus(Qt::OtherFocusReason);
    m_box->entry()->selectAll();
}

/// Arrows walk the choices, Enter takes one, Esc goes back to typing.
bool ValueField::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::ShortcutOverride && static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
        event->accept();
        return true;
    }
    if (event->type() != QEvent::KeyPress) {
        return QWidget::eventFilter(watched, event);
    }
    auto* button = qobject_cast<ChoiceButton*>(watched);
    const int index = m_choiceLayout->indexOf(button);
    const auto move = [&](int to) {
        m_choiceLayout->itemAt(std::clamp(to, 0, m_choiceLayout->count() - 1))->widget()->setFocus(Qt::TabFocusReason);
    };
    if (button == nullptr || index < 0) {
        return QWidget::eventFilter(watched, event);
    }
    switch (static_cast<QKeyEvent*>(event)->key()) {
        case Qt::Key_Up:
        case Qt::Key_Left:
            move(index - 1);
            return true;
        case Qt::Key_Down:
        case Qt::Key_Right:
            move(index + 1);
            return true;
        case Qt::Key_Return:
        case Qt::Key_Enter:
            button->click();
            return true;
        case Qt::Key_Escape:
            restore();
            selectEntry();
            return true;
        default:
            return QWidget::eventFilter(watched, event);
    }
}

}  // namespace ohmwright
