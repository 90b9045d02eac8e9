// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/measured_entry.h"

#include "app/look/text_link.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/base/value_text.h"

#include <QKeyEvent>
#include <QLineEdit>
#include <QVBoxLayout>

namespace ohmwright {

MeasuredEntry::MeasuredEntry(QWidget* parent)
    : QWidget(parent),
      m_link(new TextLink({}, this)),
      m_field(new QLineEdit(this)),
      m_fault(new ThemedLabel(TextRole::caption, false, &ThemeColours::stop, this)) {
    m_field->setAccessibleName(tr("Measured value"));
    m_field->installEventFilter(this);
    m_fault->setWordWrap(true);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(3);
    layout->addWidget(m_link, 0, Qt::AlignLeft);
    layout->addWidget(m_field);
    layout->addWidget(m_fault);
    connect(m_link, &TextLink::clicked, this, &MeasuredEntry::beginTyping);
    connect(m_field, &QLineEdit::returnPressed, this, &MeasuredEntry::take);
    endTyping();
}

void MeasuredEntry::show(const Part& part) {
    m_kind = part.kind;
    m_value = part.measured ? QString::fromStdString(formatPartValue({*part.measured, unitOf(part.kind)})) : QString();
    const bool isTrack = part.kind == PartKind::potentiometer;
    m_link->setText(!m_value.isEmpty() ? tr("measured %1").arg(m_value)
                    : isTrack          ? tr("Enter the measured whole track")
                                       : tr("Enter the measured value"));
    m_link->setAccessibleName(m_link->text());
    m_link->updateGeometry();
    endTyping();
}

void MeasuredEntry::beginTyping() {
    m_link->hide();
    m_field->setText(m_value);
    m_field->show();
    m_field->selectAll();
    m_field->setFocus(Qt::OtherFocusReason);
}

void MeasuredEntry::endTyping() {
    const bool hadFocus = m_field->hasFocus();
    m_link->QWidget::show();
    m_field->hide();
    m_fault->hide();
    if (hadFocus) {
        m_link->setFocus(Qt::OtherFocusReason);
    }
}

void MeasuredEntry::take() {
    const QString typed = m_field->text().trimmed();
    if (typed.isEmpty()) {
        emit entered(std::nullopt);
        return;
    }
    const Result<Quantity> read = parsePartValue(typed.toStdString(), unitOf(m_kind));
    if (!read) {
        m_fault->setText(QString::fromStdString(read.error().message));
        m_fault->show();
        return;
    }
    emit entered(read->si);
}

bool MeasuredEntry::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_field && event->type() == QEvent::KeyPress &&
        static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
        endTyping();
        return true;
    }
    return QWidget::eventFilter(watched, event);
}

}  // namespace ohmwright
