// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/consequences/claim_row.h"

#include "app/consequences/figure_line.h"
#include "app/look/note_card.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/base/number_text.h"
#include "core/plan/sum_text.h"

#include <QPainter>
#include <QPushButton>
#include <QVBoxLayout>

namespace ohmwright {

namespace {

constexpr int signRoom = 22;
constexpr int wrapFlags = Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap;

int scaled(int pixels) {
    return qRound(pixels * Theme::current().textScale());
}

QString valueWords(const ClaimFigure& figure, double value) {
    const bool isFine = figure.unit == "dB per dB" || figure.unit == "ratio";
    return text(isFine ? formatFixed(value, 2) : formatFigure(value));
}

/// "82 Hz: −10.5 → −4.71 dB, +5.77"
std::vector<FigureRun> runsOf(const ClaimFigure& figure) {
    const auto words = [&](const std::optional<double>& value) {
        return value ? valueWords(figure, *value) : QObject::tr("none");
    };
    const QString unit = figure.unit == "ratio" ? QString() : " " + saidText(figure.unit);
    auto runs = stockToNow(saidText(figure.name) + ": ", words(figure.stock), words(figure.now), unit);
    if (figure.unit == "dB" && figure.change()) {
        runs.push_back({", ", FigureRun::Kind::plain});
        runs.push_back({text(formatFigure(*figure.change(), Sign::always)), FigureRun::Kind::change});
    }
    if (figure.bandDb) {
        runs.push_back(
            {", " + QObject::tr("spread ±%1").arg(text(formatFigure(*figure.bandDb))), FigureRun::Kind::plain});
    }
    return runs;
}

Note sumOf(const ClaimFigure& figure) {
    return {saidText(figure.name), text(claimFigureText(figure)), text(claimSpreadText(figure))};
}

}  // namespace

SignKind signOf(ClaimVerdict verdict) {
    switch (verdict) {
        case ClaimVerdict::yes:
            return SignKind::tick;
        case ClaimVerdict::partly:
        case ClaimVerdict::no:
            return SignKind::note;
        case ClaimVerdict::theOtherWay:
            return SignKind::care;
        case ClaimVerdict::noAnswer:
            break;
    }
    return SignKind::none;
}

QString verdictWords(const ClaimAnswer& answer) {
    return QObject::tr("“%1”: %2").arg(saidText(answer.word), saidText(verdictWord(answer.verdict)));
}

// Head ------------------------------------------------------------------------------------------------------------

ClaimHead::ClaimHead(QWidget* parent) : QAbstractButton(parent) {
    setCheckable(true);
    setCursor(Qt::PointingHandCursor);
    setFocusPolicy(Qt::StrongFocus);
    setProperty("focusOutline", true);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    connect(&Theme::current(), &Theme::changed, this, [this] { updateGeometry(); });
}

void ClaimHead::show(const QString& words, SignKind sign) {
    setText(words);
    m_sign = sign;
    setAccessibleName(words);
    updateGeometry();
    update();
}

int ClaimHead::heightForWidth(int width) const {
    const QFontMetrics metrics(Theme::current().font(TextRole::body));
    const QRect room(0, 0, qMax(40, width - scaled(signRoom)), 10000);
    return qMax(metrics.height(), metrics.boundingRect(room, wrapFlags, text()).height()) + 4;
}

void ClaimHead::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(Theme::current().font(TextRole::body));
    const int side = painter.fontMetrics().height();
    paintSign(painter, QRectF(0, 2, side, side).adjusted(1, 1, -1, -1), m_sign);
    painter.setPen(Theme::current().colours().ink);
    painter.drawText(rect().adjusted(scaled(signRoom), 2, 0, 0), wrapFlags, text());
}

// Row -------------------------------------------------------------------------------------------------------------

ClaimRow::ClaimRow(const QString& word, const QString& rule, QWidget* parent)
    : QWidget(parent),
      m_word(word),
      m_head(new ClaimHead(this)),
      m_figures(new QWidget(this)),
      m_details(new QWidget(this)) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->setSpacing(1);
    layout->addWidget(m_head);
    layout->addWidget(m_figures);
    layout->addWidget(m_details);
    auto* figures = new QVBoxLayout(m_figures);
    figures->setContentsMargins(scaled(signRoom), 0, 0, 0);
    figures->setSpacing(0);

    auto* details = new QVBoxLayout(m_details);
    details->setContentsMargins(scaled(signRoom), 4, 0, 6);
    details->setSpacing(4);
    const auto addLine = [&](const QString& words, QColor ThemeColours::*colour) {
        auto* line = new ThemedLabel(TextRole::caption, false, colour, m_details);
        line->setWordWrap(true);
        line->setText(words);
        details->addWidget(line);
    };
    addLine(rule.isEmpty() ? tr("This word is not in the shop's table: take it out, or add it to words.json.") : rule,
            &ThemeColours::ink2);
    if (!rule.isEmpty()) {
        addLine(tr("Limits of the shop's table of words; of the house: common practice, no source."),
                &ThemeColours::ink3);
    }
    auto* remove = new QPushButton(tr("Take out"), m_details);
    remove->setAccessibleName(tr("Take out “%1”").arg(saidText(word.toStdString())));
    details->addWidget(remove, 0, Qt::AlignLeft);
    m_details->hide();
    connect(m_head, &ClaimHead::toggled, m_details, &QWidget::setVisible);
    connect(remove, &QPushButton::clicked, this, [this] { emit removeAsked(m_word); });
    showWithout(tr("solving"));
}

void ClaimRow::clearFigures() {
    while (QLayoutItem* item = m_figures->layout()->takeAt(0)) {
        delete item->widget();
        delete item;
    }
}

void ClaimRow::show(const WordAnswer& answer) {
    clearFigures();
    m_head->show(verdictWords(answer.claim), signOf(answer.claim.verdict));
    for (const ClaimFigure& figure : answer.claim.figures) {
        auto* line = new FigureLine(m_figures);
        line->setRuns(runsOf(figure));
        line->setPressable(true);
        connect(line, &FigureLine::pressed, line, [line, figure] { NoteCard::show({sumOf(figure)}, *line); });
        m_figures->layout()->addWidget(line);
    }
    const auto add = [this](const QString& words) {
        auto* line = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink3, m_figures);
        line->setWordWrap(true);
        line->setText(words);
        m_figures->layout()->addWidget(line);
    };
    if (answer.claim.isHeldBack) {
        add(tr("no more than partly: within the spread"));
    }
    if (answer.claim.figures.empty() && !answer.claim.sentence.empty()) {
        add(text(answer.claim.sentence));
    }
    if (!answer.better.empty()) {
        add(text(answer.better));
    }
}

void ClaimRow::showWithout(const QString& reason) {
    clearFigures();
    m_head->show(tr("“%1”: %2").arg(saidText(m_word.toStdString()), reason), SignKind::none);
}

}  // namespace ohmwright
