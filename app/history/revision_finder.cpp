// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/history/revision_finder.h"

#include "app/document/job_document.h"
#include "app/document/shop_document.h"
#include "app/history/sentence_list.h"
#include "app/look/hint_field.h"
#include "app/look/panel_title.h"
#include "app/look/sign_text.h"
#include "app/look/text.h"
#include "app/look/text_link.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/base/number_text.h"
#include "core/base/value_text.h"
#include "core/bench/meter.h"

#include <QCompleter>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <cmath>

namespace ohmwright {

namespace {

/// "Q1 collector: 4.43 V"
QString readingText(const SpotReading& reading) {
    return text(spotWords(reading)) + ": " + text(readingWords(reading.value, reading.unit));
}

}  // namespace

RevisionFinder::RevisionFinder(JobDocument& document, ShopDocument& shop, QWidget* parent)
    : QWidget(parent),
      m_document(document),
      m_shop(shop),
      m_red(new HintField(tr("as in Q1 collector"), this)),
      m_black(new HintField(tr("to, for ohms"), this)),
      m_value(new HintField(tr("as in 4.43"), this)),
      m_message(new SignText(this)),
      m_add(new QPushButton(tr("Add"), this)),
      m_list(new QVBoxLayout),
      m_compare(new QPushButton(tr("Compare with the shop's drawings"), this)),
      m_answer(new SentenceList(this)) {
    build();
    for (QLineEdit* field : {m_red, m_black, m_value}) {
        connect(field, &QLineEdit::returnPressed, this, &RevisionFinder::add);
    }
    connect(m_add, &QPushButton::clicked, this, &RevisionFinder::add);
    connect(m_compare, &QPushButton::clicked, this, &RevisionFinder::ask);
    connect(&m_document, &JobDocument::jobChanged, this, &RevisionFinder::followJob);
    connect(&m_service, &RevisionService::ranked, this,
            [this](const std::shared_ptr<const RankedRevisions>& answer) { showAnswer(*answer); });
    followJob(JobAspect::everything);
}

void RevisionFinder::build() {
    m_red->setAccessibleName(tr("Place read"));
    m_black->setAccessibleName(tr("To, for ohms"));
    m_value->setAccessibleName(tr("Reading"));
    auto* note = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, this);
    note->setText(
        tr("Four voltages at pins, powered; three resistances in the circuit, unpowered and discharged, with a "
           "second place. Places are named as on this drawing. Enter adds the reading."));
    note->setWordWrap(true);
    auto* places = new QHBoxLayout;
    places->setSpacing(6);
    places->addWidget(m_red, 1);
    places->addWidget(m_black, 1);
    auto* reading = new QHBoxLayout;
    reading->setSpacing(6);
    reading->addWidget(m_value, 1);
    reading->addWidget(m_add, 1);
    m_list->setSpacing(2);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(14, 14, 14, 6);
    layout->setSpacing(8);
    layout->addWidget(new PanelTitle(tr("Which revision is this?"), this));
    layout->addWidget(note);
    layout->addLayout(places);
    layout->addLayout(reading);
    layout->addWidget(m_message);
    m_message->hide();
    layout->addLayout(m_list);
    layout->addWidget(m_compare);
    layout->addWidget(m_answer);
    layout->addStretch(1);
}

void RevisionFinder::followJob(JobAspect aspect) {
    const Circuit& stock = m_document.job()->stock;
    const bool isOtherUnit = aspect == JobAspect::everything;
    if (isOtherUnit) {
        m_readings.clear();
    }
    if (!isOtherUnit && stock == m_stock) {
        return;
    }
    m_stock = stock;
    m_service.stop();
    m_answer->setSentences({});
    offerPlaces();
    showReadings();
}

void RevisionFinder::offerPlaces() {
    QStringList places;
    for (const std::string& name : spotNames(m_stock)) {
        places << text(name);
    }
    if (places == m_places) {
        return;
    }
    m_places = places;
    for (QLineEdit* field : {m_red, m_black}) {
        delete field->completer();
        auto* completer = new QCompleter(places, field);
        completer->setCaseSensitivity(Qt::CaseInsensitive);
        field->setCompleter(completer);
    }
}

void RevisionFinder::add() {
    const Circuit& stock = m_document.job()->stock;
    SpotReading reading;
    reading.red = m_red->text().trimmed().toStdString();
    reading.black = m_black->text().trimmed().toStdString();
    reading.unit = reading.black.empty() ? Unit::volt : Unit::ohm;
    for (const std::string& place : {reading.red, reading.black.empty() ? std::string("ground") : reading.black}) {
        if (const Result<NetName> net = netOfSpot(stock, place); !net) {
            m_message->setSentence(text(net.error().message), SignKind::care);
            m_message->show();
            return;
        }
    }
    const QString typed = m_value->text().trimmed();
    if (typed.compare("none", Qt::CaseInsensitive) != 0 && typed.compare(tr("none"), Qt::CaseInsensitive) != 0) {
        const Result<Quantity> read = parsePartValue(typed.toStdString(), reading.unit);
        if (!read) {
            m_message->setSentence(text(read.error().message), SignKind::care);
            m_message->show();
            return;
        }
        reading.value = read->si;
    }
    m_readings.push_back(reading);
    m_message->setSentence({});
    m_message->hide();
    for (QLineEdit* field : {m_red, m_black, m_value}) {
        field->clear();
    }
    m_red->setFocus(Qt::OtherFocusReason);
    showReadings();
    ask();
}

void RevisionFinder::remove(std::size_t index) {
    m_readings.erase(m_readings.begin() + static_cast<std::ptrdiff_t>(index));
    showReadings();
    ask();
}

void RevisionFinder::showReadings() {
    while (QLayoutItem* item = m_list->takeAt(0)) {
        item->widget()->deleteLater();
        delete item;
    }
    for (std::size_t k = 0; k < m_readings.size(); ++k) {
        auto* link = new TextLink(tr("%1: take out").arg(readingText(m_readings[k])), this);
        connect(link, &TextLink::clicked, this, [this, k] { remove(k); });
        m_list->addWidget(link, 0, Qt::AlignLeft);
        link->show();
    }
    m_compare->setEnabled(!m_readings.empty());
}

void RevisionFinder::ask() {
    if (m_readings.empty()) {
        m_service.stop();
        m_answer->setSentences({});
        return;
    }
    std::vector<Job> stored;
    for (const ShopJob& file : m_shop.jobs()) {
        if (file.job) {
            stored.push_back(*file.job);
        }
    }
    m_service.ask(m_document.job(), std::move(stored), m_readings);
}

void RevisionFinder::showAnswer(const RankedRevisions& answer) {
    if (!answer.ranking) {
        m_answer->setSentences({{answer.fault, SignKind::care}});
        return;
    }
    const RevisionRanking& ranking = *answer.ranking;
    const bool isPlain = ranking.isLikely && ranking.isSeparated;
    std::vector<SignedSentence> sentences{{text(ranking.sentence), isPlain ? SignKind::tick : SignKind::care}};
    for (const SpotFit& spot : ranking.fits.front().spots) {
        sentences.push_back({text(spot.sentence), std::abs(spot.pull) <= 1.0 ? SignKind::tick : SignKind::care});
    }
    for (std::size_t k = 1; k < ranking.fits.size(); ++k) {
        const RevisionFit& fit = ranking.fits[k];
        sentences.push_back(
            {tr("%1: misfit %2").arg(text(answer.candidates[fit.candidate].name), text(formatFigure(fit.misfit))),
             SignKind::none});
    }
    m_answer->setSentences(sentences);
}

}  // namespace ohmwright
