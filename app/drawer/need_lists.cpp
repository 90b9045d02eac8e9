// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/drawer/need_lists.h"

#include "app/background/own_lane.h"
#include "app/document/job_document.h"
#include "app/document/selection.h"
#include "app/document/shop_document.h"
#include "app/look/panel_title.h"
#include "app/look/sign_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/plan/apply.h"
#include "core/plan/device_pick.h"
#include "core/plan/pick_list.h"
#include "core/plan/substitutes.h"

#include <QHBoxLayout>
#include <QPainter>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include <optional>

namespace ohmwright {

namespace {

constexpr int margin = 14;

struct Sentence {
    QString words;
    SignKind sign = SignKind::none;
};

void fill(QVBoxLayout& layout, const std::vector<Sentence>& sentences) {
    while (QLayoutItem* item = layout.takeAt(0)) {
        delete item->widget();
        delete item;
    }
    for (const Sentence& sentence : sentences) {
        auto* line = new SignText;
        line->setSentence(sentence.words, sentence.sign);
        layout.addWidget(line);
        line->show();  // At once: the panel may be on the screen already.
    }
}

std::vector<Sentence> pickSentences(const Job& job, const Drawer& drawer) {
    const auto lines = pickList(job, drawer);
    if (!lines) {
        return {{text(lines.error().message), SignKind::care}};
    }
    std::vector<Sentence> sentences;
    for (const PickLine& line : *lines) {
        sentences.push_back(
            {text(line.modLetter) + "  " + text(line.sentence), line.lot.empty() ? SignKind::care : SignKind::tick});
    }
    return sentences.empty() ? std::vector<Sentence>{{QObject::tr("No mod is on that needs a part."), SignKind::none}}
                             : sentences;
}

std::vector<Sentence> shortageSentences(const std::vector<ShopJob>& files, const Drawer& drawer) {
    std::vector<Job> open;
    std::vector<Sentence> sentences;
    for (const ShopJob& file : files) {
        if (!file.job) {
            sentences.push_back({text(file.fault), SignKind::care});
        } else if (isOpen(file.job->visit.state)) {
            open.push_back(*file.job);
        }
    }
    std::vector<std::string> unfit;
    for (const Shortage& shortage : shortageList(open, drawer, &unfit)) {
        sentences.push_back({text(shortage.sentence), SignKind::care});
    }
    for (const std::string& job : unfit) {
        sentences.push_back({QObject::tr("%1: its plan cannot be fitted").arg(text(job)), SignKind::care});
    }
    if (sentences.empty()) {
        sentences.push_back({open.empty() ? QObject::tr("No job of the shop is quoted, on the bench or proven.")
                                          : QObject::tr("Nothing is short for %1 open jobs.").arg(open.size()),
                             open.empty() ? SignKind::none : SignKind::tick});
    }
    return sentences;
}

}  // namespace

struct NeedLists::Answer {
    std::shared_ptr<const Job> job;
    PartId part;
    std::vector<Sentence> sentences;
};

NeedLists::NeedLists(JobDocument& document, Selection& selection, ShopDocument& shop, QWidget* parent)
    : QWidget(parent),
      m_lane(std::make_unique<OwnLane<Answer>>(*this, [this](const Answer& answer) { take(answer); })),
      m_document(document),
      m_selection(selection),
      m_shop(shop),
      m_picks(new QVBoxLayout),
      m_shortages(new QVBoxLayout),
      m_subject(new ThemedLabel(TextRole::body, false, &ThemeColours::ink2, this)),
      m_substitutes(new QPushButton(tr("What can stand for it"), this)),
      m_devices(new QPushButton(tr("Which measured device"), this)),
      m_answers(new QVBoxLayout) {
    auto* page = new QWidget;
    auto* inner = new QVBoxLayout(page);
    inner->setContentsMargins(margin, 12, margin, 12);
    inner->setSpacing(6);
    const auto section = [&](const QString& title, QVBoxLayout* lines) {
        inner->addWidget(new PanelTitle(title, page));
        inner->addLayout(lines);
        inner->addSpacing(10);
    };
    section(tr("Pick list of the open job"), m_picks);
    section(tr("Short over the shop's open jobs"), m_shortages);
    inner->addWidget(new PanelTitle(tr("For the selected part"), page));
    m_subject->setWordWrap(true);
    inner->addWidget(m_subject);
    inner->addWidget(m_substitutes);
    inner->addWidget(m_devices);
    inner->addLayout(m_answers);
    inner->addStretch(1);
    auto* scroll = new QScrollArea(this);
    scroll->setAccessibleName(tr("What is needed"));
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setWidgetResizable(true);
    scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    scroll->setWidget(page);
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(scroll);

    connect(&m_document, &JobDocument::jobChanged, this, [this] {
        showLists();
        showAsked();
    });
    connect(&m_shop, &ShopDocument::shopChanged, this, [this] {
        showLists();
        showAsked();
    });
    connect(&m_selection, &Selection::partChanged, this, &NeedLists::showAsked);
    connect(m_substitutes, &QPushButton::clicked, this, &NeedLists::askSubstitutes);
    connect(m_devices, &QPushButton::clicked, this, &NeedLists::askDevices);
    showLists();
    showAsked();
}

NeedLists::~NeedLists() = default;

void NeedLists::showLists() {
    if (m_shop.shop()->isStockAssumed()) {
        fill(*m_picks, {{tr("Stock is assumed: there is nothing to pick from."), SignKind::none}});
        fill(*m_shortages, {{tr("Stock is assumed: nothing is counted."), SignKind::none}});
        return;
    }
    fill(*m_picks, pickSentences(*m_document.job(), m_shop.onHand()));
    // Against the file's own drawer: what the open jobs reserve here is what they are asked for.
    fill(*m_shortages, shortageSentences(m_shop.jobs(), m_shop.shop()->drawer.value_or(Drawer())));
}

/// Another part, job or drawer: what was found is no longer an answer.
void NeedLists::showAsked() {
    m_lane->stop();
    fill(*m_answers, {});
    const Result<Circuit> now = nowCircuit(*m_document.job());
    const Part* part = now ? findPart(*now, m_selection.part()) : nullptr;
    m_subject->setText(part != nullptr ? text(displayName(*part)) : tr("Select a part on the map first."));
    const bool isActive = part != nullptr && (part->kind == PartKind::bipolar || part->kind == PartKind::jfet);
    m_substitutes->setEnabled(part != nullptr && !m_shop.shop()->isStockAssumed());
    m_devices->setVisible(isActive);
    m_devices->setEnabled(isActive && !m_shop.shop()->isStockAssumed());
}

void NeedLists::askSubstitutes() {
    fill(*m_answers, {{tr("solving"), SignKind::none}});
    SubstituteRequest request;
    request.part = m_selection.part();
    request.drawer = m_shop.onHand();
    m_lane->start([job = m_document.job(), request](const std::stop_token& stop) {
        Answer answer{job, request.part, {}};
        const auto found = findSubstitutes(*job, request, stop);
        if (!found) {
            answer.sentences.push_back({text(found.error().message), SignKind::care});
            return answer;
        }
        for (const Substitute& each : *found) {
            answer.sentences.push_back({text(each.consequence), SignKind::none});
            for (const std::string& warning : each.warnings) {
                answer.sentences.push_back({text(warning), SignKind::care});
            }
        }
        if (found->empty()) {
            answer.sentences.push_back({tr("Nothing in the drawer comes within a factor of 2 of it."), SignKind::none});
        }
        return answer;
    });
}

void NeedLists::askDevices() {
    fill(*m_answers, {{tr("solving"), SignKind::none}});
    m_lane->start(
        [job = m_document.job(), part = m_selection.part(), drawer = m_shop.onHand()](const std::stop_token& stop) {
            Answer answer{job, part, {}};
            const Result<Circuit> now = nowCircuit(*job);
            const auto picks = now ? pickDevices(*now, job->setting, part, drawer, {}, {}, stop)
                                   : Result<std::vector<DevicePick>>(now.error());
            if (!picks) {
                answer.sentences.push_back({text(picks.error().message), SignKind::care});
                return answer;
            }
            for (const DevicePick& pick : *picks) {
                answer.sentences.push_back({text(pick.sentence), SignKind::none});
            }
            return answer;
        });
}

void NeedLists::take(const Answer& answer) {
    if (answer.job == m_document.job() && answer.part == m_selection.part()) {
        fill(*m_answers, answer.sentences);
    }
}

void NeedLists::paintEvent(QPaintEvent*) {
    QPainter(this).fillRect(rect(), Theme::current().colours().panel);
}

}  // namespace ohmwright
