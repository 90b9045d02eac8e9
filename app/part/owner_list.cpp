// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/owner_list.h"

#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/look/owned_scale.h"
#include "app/look/panel_title.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "app/part/panel_section.h"
#include "app/part/part_words.h"
#include "core/plan/apply.h"

#include <QPainter>
#include <QStyledItemDelegate>
#include <QVBoxLayout>

namespace ohmwright {

namespace {

constexpr int gap = 8;
constexpr int rim = 4;

enum Role { idRole = Qt::UserRole, roleWordsRole, decibelsRole };

/// The figure on the colour that the map gives the part, then its name, then what it is there for.
class OwnerDelegate : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& /*option*/, const QModelIndex& /*index*/) const override {
        return {160, qRound(space::row * Theme::current().textScale())};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        const Theme& theme = Theme::current();
        const ThemeColours& colours = theme.colours();
        const double decibels = index.data(decibelsRole).toDouble();
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        const bool isPointedAt = option.state & QStyle::State_MouseOver;
        painter->fillRect(option.rect, isPointedAt ? colours.nowSoft : colours.panel);
        painter->setFont(theme.font(TextRole::body, true));
        const int figureWidth = QFontMetrics(painter->font()).horizontalAdvance(ownedFigure(-9.99)) + 2 * rim;
        QRect box = option.rect.adjusted(partMargin, 3, -partMargin, -3);
        const QRect plate(box.topLeft(), QSize(figureWidth, box.height()));
        painter->setPen(Qt::NoPen);
        painter->setBrush(plateColour(decibels));
        painter->drawRoundedRect(plate, radius::plate, radius::plate);
        painter->setPen(colours.ink);
        painter->drawText(plate.adjusted(rim, 0, -rim, 0), Qt::AlignRight | Qt::AlignVCenter, ownedFigure(decibels));
        box.setLeft(plate.right() + gap);
        box.setLeft(box.left() + write(*painter, box, index.data().toString()) + gap);
        painter->setFont(theme.font(TextRole::body));
        painter->setPen(colours.ink2);
        write(*painter, box, index.data(roleWordsRole).toString());
        if (option.state & QStyle::State_HasFocus) {
            painter->setBrush(Qt::NoBrush);
            painter->setPen(QPen(colours.focus, line::focus));
            painter->drawRoundedRect(option.rect.adjusted(4, 1, -4, -1), radius::field, radius::field);
        }
        painter->restore();
    }

private:
    /// As much as there is room for; answers the width [px].
    static int write(QPainter& painter, const QRect& box, const QString& words) {
        const QFontMetrics metrics(painter.font());
        const QString shown = metrics.elidedText(words, Qt::ElideRight, box.width());
        painter.drawText(box, Qt::AlignLeft | Qt::AlignVCenter, shown);
        return metrics.horizontalAdvance(shown);
    }
};

}  // namespace

OwnerList::OwnerList(JobDocument& document, Selection& selection, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_selection(selection),
      m_owners(document, selection),
      m_hint(new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this)),
      m_answer(new QWidget(this)),
      m_question(new PanelTitle({}, m_answer)),
      m_note(new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, m_answer)),
      m_rows(new QListWidget(m_answer)) {
    m_hint->setText(tr("No part selected. Press a part, or walk through them with the arrow keys."));
    m_hint->setWordWrap(true);
    m_note->setWordWrap(true);
    m_rows->setItemDelegate(new OwnerDelegate(m_rows));
    m_rows->setFrameShape(QFrame::NoFrame);
    m_rows->setMouseTracking(true);
    m_rows->viewport()->setCursor(Qt::PointingHandCursor);
    m_rows->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_rows->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_rows->viewport()->setAutoFillBackground(false);
    auto* head = new QVBoxLayout;
    head->setContentsMargins(partMargin, 0, partMargin, 4);
    head->setSpacing(2);
    head->addWidget(m_question);
    head->addWidget(m_note);
    auto* answer = new QVBoxLayout(m_answer);
    answer->setContentsMargins(0, 0, 0, 10);
    answer->setSpacing(0);
    answer->addLayout(head);
    answer->addWidget(m_rows, 1);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(0);
    auto* hint = new QVBoxLayout;
    hint->setContentsMargins(partMargin, 16, partMargin, 14);
    hint->addWidget(m_hint);
    layout->addLayout(hint);
    layout->addWidget(m_answer, 1);
    layout->addStretch(0);

    connect(m_rows, &QListWidget::itemClicked, this, &OwnerList::choose);
    connect(m_rows, &QListWidget::itemActivated, this, &OwnerList::choose);
    connect(&m_owners, &OwnerService::changed, this, &OwnerList::showOwners);
    connect(&m_document, &JobDocument::jobChanged, this, &OwnerList::showWhetherThereAreParts);
    connect(&Theme::current(), &Theme::changed, m_rows, [this] { m_rows->doItemsLayout(); });
    showWhetherThereAreParts();
}

void OwnerList::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    showOwners();
    m_owners.setWanted(true);
}

void OwnerList::hideEvent(QHideEvent* event) {
    QWidget::hideEvent(event);
    m_owners.setWanted(false);
}

/// An empty drawing has no owners to ask for.
void OwnerList::showWhetherThereAreParts() {
    m_answer->setVisible(!m_document.job()->stock.parts.empty());
}

void OwnerList::showOwners() {
    const std::shared_ptr<const OwnersAnswer> answer = m_owners.answer();
    m_question->setTitle(answer ? ownersQuestion(answer->hertz, answer->isStock)
                                : ownersQuestion(m_selection.cursorHz(), m_selection.holdsStock()));
    m_rows->setAccessibleName(m_question->title());
    fill(answer ? answer->owners : std::vector<Owner>());
    m_note->setText(!answer                    ? tr("solving")
                    : !answer->fault.isEmpty() ? answer->fault
                    : answer->owners.empty()   ? tr("No part moves it by 0.02 dB.")
                                               : tr("dB for +10 % of the part"));
}

/// The row under the keyboard stays the same part, wherever it is now.
void OwnerList::fill(const std::vector<Owner>& owners) {
    const QListWidgetItem* before = m_rows->currentItem();
    const QString current = before ? before->data(idRole).toString() : QString();
    const Result<Circuit> now = nowCircuit(*m_document.job());
    m_rows->clear();
    for (const Owner& owner : owners) {
        const Part* part = now ? findPart(*now, owner.part) : nullptr;
        auto* row = new QListWidgetItem(QString::fromStdString(owner.name), m_rows);
        const QString role = part ? roleText(*part) : QString();
        row->setData(idRole, QString::fromStdString(owner.part));
        row->setData(roleWordsRole, role);
        row->setData(decibelsRole, owner.dbPerTenPercent);
        row->setData(Qt::AccessibleTextRole,
                     tr("%1, %2, %3 dB for +10 %").arg(row->text(), role, ownedFigure(owner.dbPerTenPercent)));
        row->setToolTip(QString("<p>%1</p>").arg(row->data(Qt::AccessibleTextRole).toString().toHtmlEscaped()));
        if (row->data(idRole) == current) {
            m_rows->setCurrentItem(row);
        }
    }
}

void OwnerList::choose(const QListWidgetItem* row) {
    emit partChosen(row->data(idRole).toString().toStdString());
}

}  // namespace ohmwright
