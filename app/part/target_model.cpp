// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/part/target_model.h"

#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/part/value_steps.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/plan/apply.h"

#include <QKeyEvent>
#include <QPainter>

#include <algorithm>
#include <iterator>

namespace ohmwright {

namespace {

constexpr int margin = 14;
constexpr int lineGap = 3;
constexpr int rowPadding = 7;

QString figureText(const Figure& figure, const std::string& unit) {
    return figure.value ? text(formatFigureValue(figure)) + " " + saidText(unit) : QObject::tr("none");
}

int lineHeight(TextRole role) {
    return QFontMetrics(Theme::current().font(role)).height();
}

/// The parts wrap: nothing of them may be cut.
QRect partsBox(const QStyleOptionViewItem& option, const QModelIndex& index) {
    const int width = (option.rect.width() > 0 ? option.rect.width() : space::rightRail) - 2 * margin;
    return QFontMetrics(Theme::current().font(TextRole::body, true))
        .boundingRect(QRect(0, 0, width, 1000), Qt::TextWordWrap, index.data().toString());
}

}  // namespace

void TargetModel::setOutcome(std::shared_ptr<const TargetOutcome> outcome) {
    if (outcome == m_outcome) {
        return;
    }
    beginResetModel();
    m_outcome = std::move(outcome);
    m_answers.clear();
    if (m_outcome && m_outcome->list) {
        const Result<Circuit> now = nowCircuit(*m_outcome->job);
        const auto repeatsAPart = [&now](const TargetAnswer& answer) {
            return std::any_of(answer.choices.begin(), answer.choices.end(), [&now](const PartChoice& choice) {
                const Part* part = now ? findPart(*now, choice.part) : nullptr;
                return part != nullptr && !choice.stays && isSameValue(part->value, choice.combination.value);
            });
        };
        std::remove_copy_if(m_outcome->list->answers.begin(), m_outcome->list->answers.end(),
                            std::back_inserter(m_answers), repeatsAPart);
    }
    endResetModel();
}

int TargetModel::rowCount(const QModelIndex&) const {
    return static_cast<int>(m_answers.size());
}

const TargetAnswer* TargetModel::answerAt(const QModelIndex& index) const {
    return index.isValid() && index.row() < rowCount() ? &m_answers[static_cast<std::size_t>(index.row())] : nullptr;
}

TargetAnswer TargetModel::asPrinted(const TargetAnswer& answer) const {
    TargetAnswer printed = answer;
    for (PartChoice& choice : printed.choices) {
        for (ValueOnHand& member : choice.combination.members) {
            if (const DrawerLot* lot = findLot(m_outcome->request.drawer, member.lot)) {
                member.value = lot->value;
            }
        }
    }
    return printed;
}

QString TargetModel::partsText(const TargetAnswer& answer) const {
    const Result<Circuit> now = nowCircuit(*m_outcome->job);
    QStringList words;
    const TargetAnswer printed = asPrinted(answer);
    for (std::size_t i = 0; i < answer.choices.size(); ++i) {
        const PartChoice& choice = answer.choices[i];
        const Part* part = now && !choice.stays ? findPart(*now, choice.part) : nullptr;
        if (part == nullptr) {
            continue;
        }
        QString each =
            text(part->reference) + " " + text(describeCombination(part->kind, printed.choices[i].combination));
        for (std::size_t member = 0; member < choice.combination.members.size(); ++member) {
            const double measured = choice.combination.members[member].value;
            if (!isSameValue(measured, printed.choices[i].combination.members[member].value)) {
                each = tr("%1 (measured %2)").arg(each, text(formatPartValue({measured, unitOf(part->kind)})));
            }
        }
        words << each;
    }
    return words.isEmpty() ? tr("nothing changes") : words.join("; ");
}

QVariant TargetModel::data(const QModelIndex& index, int role) const {
    const TargetAnswer* answer = answerAt(index);
    if (answer == nullptr) {
        return {};
    }
    switch (role) {
        case Qt::DisplayRole:
            return partsText(*answer);
        case figuresRole: {
            QStringList words;
            for (std::size_t i = 0; i < answer->figures.size(); ++i) {
                words << figureText(answer->figures[i], m_outcome->request.wants[i].figure.unit);
            }
            return words.join(", ");
        }
        case stockRole: {
            const QString swaps = answer->swaps == 1 ? tr("1 swap") : tr("%1 swaps").arg(answer->swaps);
            if (!answer->isInStock) {
                return tr("%1, assumed stock").arg(swaps);
            }
            return answer->leftToBuild == 1
                       ? tr("%1, in the drawer once").arg(swaps)
                       : tr("%1, in the drawer %2 times").arg(swaps, QString::number(answer->leftToBuild));
        }
        case Qt::AccessibleTextRole:
            return QStringList{index.data().toString(), index.data(figuresRole).toString(),
                               index.data(stockRole).toString()}
                .join("; ");
        default:
            return {};
    }
}

QSize TargetDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
    return {160, partsBox(option, index).height() + lineHeight(TextRole::body) + lineHeight(TextRole::caption) +
                     2 * lineGap + 2 * rowPadding};
}

void TargetDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const {
    const Theme& theme = Theme::current();
    const ThemeColours& colours = theme.colours();
    painter->save();
    painter->fillRect(option.rect, colours.panel);
    QRect box = option.rect.adjusted(margin, rowPadding, -margin, -rowPadding);
    const auto put = [&](TextRole role, bool bold, const QColor& ink, const QString& words, int height) {
        painter->setFont(theme.font(role, bold));
        painter->setPen(ink);
        painter->drawText(QRect(box.left(), box.top(), box.width(), height), Qt::TextWordWrap, words);
        box.setTop(box.top() + height + lineGap);
    };
    put(TextRole::body, true, colours.now, index.data().toString(), partsBox(option, index).height());
    put(TextRole::body, false, colours.ink, index.data(TargetModel::figuresRole).toString(),
        lineHeight(TextRole::body));
    put(TextRole::caption, false, colours.ink2, index.data(TargetModel::stockRole).toString(),
        lineHeight(TextRole::caption));
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setBrush(Qt::NoBrush);
    if (option.state.testFlag(QStyle::State_Selected)) {
        // The one that is tried: a ghost.
        QPen dashes(colours.ghost, 1.4);
        dashes.setDashPattern({3.0, 2.0});
        painter->setPen(dashes);
        painter->drawRect(QRectF(option.rect).adjusted(4.5, 2.5, -4.5, -2.5));
    }
    if (option.state.testFlag(QStyle::State_HasFocus)) {
        painter->setPen(QPen(colours.focus, line::focus));
        painter->drawRect(QRectF(option.rect).adjusted(1, 1, -1, -1));
    }
    painter->restore();
}

TargetAnswers::TargetAnswers(QWidget* parent) : QListView(parent) {
    setItemDelegate(new TargetDelegate(this));
    setFrameShape(QFrame::NoFrame);
    setSelectionMode(QAbstractItemView::SingleSelection);
    setEditTriggers(QAbstractItemView::NoEditTriggers);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setResizeMode(QListView::Adjust);
    setAccessibleName(tr("Answers from the drawer"));
    connect(&Theme::current(), &Theme::changed, this, [this] { doItemsLayout(); });
}

void TargetAnswers::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
    QListView::currentChanged(current, previous);
    emit tried(current);
}

void TargetAnswers::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        emit accepted();
        return;
    }
    QListView::keyPressEvent(event);
}

}  // namespace ohmwright
