// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/background/consequence_service.h"

#include "app/background/latest_wins.h"
#include "app/background/solver_service.h"
#include "app/document/job_document.h"
#include "app/document/shop_document.h"

#include <QTimer>

#include <array>
#include <utility>

namespace ohmwright {

namespace {

/// Until then an old figure may stay as it is; after it, it is called old.
constexpr int patienceMilliseconds = 300;
/// All sections together: the solver's own lanes come first.
constexpr int threads = 2;

using Section = ConsequenceService::Section;
constexpr std::array allSections{Section::together, Section::words,    Section::translations,
                                 Section::effects,  Section::switches, Section::sums};

/// Which of its states a section is asked for, and which it has.
struct Standing {
    int wanted = 0;
    int started = 0;
    int have = 0;  ///< An answer or a trouble.
    QString trouble;
};

template <class Answer>
class SectionLane {
public:
    using Find = Result<Answer> (*)(const ConsequenceRequest&, const std::stop_token&);
    using Settled = std::function<void()>;

    SectionLane(QObject& receiver, QThreadPool& pool, Standing& standing, Find find, Settled settled)
        : m_standing(standing), m_find(find), m_work(receiver, pool, [this, settled](Result<Answer> answer) {
              m_standing.have = m_standing.started;
              m_standing.trouble = answer ? QString() : QString::fromStdString(answer.error().message);
              if (answer) {
                  last = std::make_shared<const Answer>(*std::move(answer));
              }
              settled();
          }) {}

    void start(const ConsequenceRequest& request) {
        m_work.start([find = m_find, request](const std::stop_token& stop) { return find(request, stop); });
    }
    void stop() { m_work.stop(); }

    std::shared_ptr<const Answer> last;

private:
    Standing& m_standing;
    Find m_find;
    LatestWins<Result<Answer>> m_work;
};

}  // namespace

struct ConsequenceService::Lanes {
    explicit Lanes(ConsequenceService& service)
        : together(service, pool, of(Section::together), findTogether, told(service, Section::together)),
          words(service, pool, of(Section::words), findWords, told(service, Section::words)),
          translations(service, pool, of(Section::translations), findTranslations,
                       told(service, Section::translations)),
          effects(service, pool, of(Section::effects), findEffects, told(service, Section::effects)),
          switches(service, pool, of(Section::switches), findSwitches, told(service, Section::switches)),
          sums(service, pool, of(Section::sums), findSums, told(service, Section::sums)) {
        pool.setMaxThreadCount(threads);
        patience.setSingleShot(true);
        gather.setSingleShot(true);
    }

    static std::function<void()> told(ConsequenceService& service, Section section) {
        return [&service, section] { service.settle(section); };
    }
    Standing& of(Section section) { return standings[static_cast<std::size_t>(section)]; }
    [[nodiscard]] const Standing& of(Section section) const { return standings[static_cast<std::size_t>(section)]; }

    void stopAll() {
        together.stop();
        words.stop();
        translations.stop();
        effects.stop();
        switches.stop();
        sums.stop();
    }

    void wantAll() {
        for (Standing& standing : standings) {
            ++standing.wanted;
        }
    }

    void forget() {
        together.last.reset();
        words.last.reset();
        translations.last.reset();
        effects.last.reset();
        switches.last.reset();
        sums.last.reset();
    }

    void start(Section section, const ConsequenceRequest& request) {
        switch (section) {
            case Section::together:
                return together.start(request);
            case Section::words:
                return words.start(request);
            case Section::translations:
                return translations.start(request);
            case Section::effects:
                return effects.start(request);
            case Section::switches:
                return switches.start(request);
            case Section::sums:
                return sums.start(request);
        }
    }

    QThreadPool pool;
    std::array<Standing, allSections.size()> standings;
    SectionLane<TogetherAnswer> together;
    SectionLane<std::vector<WordAnswer>> words;
    SectionLane<std::vector<KnobTranslation>> translations;
    SectionLane<EffectsAnswer> effects;
    SectionLane<std::vector<SwitchAnswer>> switches;
    SectionLane<SumsAnswer> sums;
    QTimer patience;
    QTimer gather;
    std::shared_ptr<const Shop> shop;
    std::shared_ptr<const Job> job;  ///< Whose electrical state is wanted.
    /// Whose stock the readings of `effects` were taken from.
    std::shared_ptr<const Job> readingsOf;
};

ConsequenceService::ConsequenceService(JobDocument& document, SolverService& solver, ShopDocument& shop,
                                       QObject* parent)
    : QObject(parent), m_lanes(std::make_unique<Lanes>(*this)), m_document(document), m_solver(solver), m_shop(shop) {
    m_lanes->shop = shop.shop();
    m_lanes->job = document.job();
    connect(&m_lanes->patience, &QTimer::timeout, this, &ConsequenceService::stateChanged);
    connect(&m_lanes->gather, &QTimer::timeout, this, &ConsequenceService::startDue);
    connect(&document, &JobDocument::jobChanged, this, [this](JobAspect aspect) {
        if (aspect == JobAspect::everything) {
            m_lanes->stopAll();
            m_lanes->forget();
        }
        if (aspect != JobAspect::words) {
            m_lanes->stopAll();
            m_lanes->wantAll();
        } else if (m_lanes->job->visit.words != m_document.job()->visit.words) {
            ++m_lanes->of(Section::words).wanted;
        }
        m_lanes->job = m_document.job();
        follow();
    });
    connect(&solver, &SolverService::largeSignalReady, this, &ConsequenceService::follow);
    connect(&solver, &SolverService::stateChanged, this, &ConsequenceService::follow);
    connect(&shop, &ShopDocument::shopChanged, this, [this] {
        const std::shared_ptr<const Shop> before = std::exchange(m_lanes->shop, m_shop.shop());
        const bool isSame = before->words == m_lanes->shop->words && before->limits == m_lanes->shop->limits;
        if (!isSame) {
            m_lanes->readingsOf.reset();
            ++m_lanes->of(Section::words).wanted;
            ++m_lanes->of(Section::effects).wanted;
            follow();
        }
    });
    if (!document.job()->stock.parts.empty()) {
        m_lanes->wantAll();
        follow();
    }
}

ConsequenceService::~ConsequenceService() {
    m_lanes->stopAll();
    m_lanes->pool.waitForDone();
}

void ConsequenceService::follow() {
    if (!m_solver.fault().isEmpty()) {
        emit stateChanged();  // nothing will come
        return;
    }
    if (!isCurrent() && !m_lanes->patience.isActive()) {
        m_lanes->patience.start(patienceMilliseconds);
    }
    m_lanes->gather.start(0);
}

/// Only once the solver has found that the job can be solved: its answers come first.
void ConsequenceService::startDue() {
    if (!m_solver.isCurrent() || m_document.job()->stock.parts.empty()) {
        return;
    }
    const std::shared_ptr<const Job>& job = m_lanes->job;
    ConsequenceRequest request;
    request.job = job;
    request.words = m_lanes->shop->words;
    request.limits = m_lanes->shop->limits;
    const std::shared_ptr<const Job>& before = m_lanes->readingsOf;
    const bool isKnown =
        before && m_lanes->effects.last && before->stock == job->stock && before->setting == job->setting;
    request.stockReadings = isKnown ? m_lanes->effects.last->stockReadings : nullptr;
    for (const Section section : allSections) {
        Standing& standing = m_lanes->of(section);
        if (standing.started != standing.wanted) {
            standing.started = standing.wanted;
            m_lanes->start(section, request);
        }
    }
}

void ConsequenceService::settle(Section section) {
    if (section == Section::effects && trouble(section).isEmpty()) {
        m_lanes->readingsOf = m_lanes->job;
    }
    emit ready(section);
    if (isCurrent()) {
        m_lanes->patience.stop();
        emit stateChanged();
    }
}

std::shared_ptr<const TogetherAnswer> ConsequenceService::together() const {
    return m_lanes->together.last;
}

std::shared_ptr<const std::vector<WordAnswer>> ConsequenceService::words() const {
    return m_lanes->words.last;
}

std::shared_ptr<const std::vector<KnobTranslation>> ConsequenceService::translations() const {
    return m_lanes->translations.last;
}

std::shared_ptr<const EffectsAnswer> ConsequenceService::effects() const {
    return m_lanes->effects.last;
}

std::shared_ptr<const std::vector<SwitchAnswer>> ConsequenceService::switches() const {
    return m_lanes->switches.last;
}

std::shared_ptr<const SumsAnswer> ConsequenceService::sums() const {
    return m_lanes->sums.last;
}

bool ConsequenceService::isCurrent(Section section) const {
    const Standing& standing = m_lanes->of(section);
    return standing.have == standing.wanted && standing.trouble.isEmpty();
}

bool ConsequenceService::isCurrent() const {
    for (const Section section : allSections) {
        if (m_lanes->of(section).have != m_lanes->of(section).wanted) {
            return false;
        }
    }
    return true;
}

QString ConsequenceService::trouble(Section section) const {
    if (!m_solver.fault().isEmpty()) {
        return m_solver.fault();
    }
    const Standing& standing = m_lanes->of(section);
    return standing.have == standing.wanted ? standing.trouble : QString();
}

const ClaimLimits& ConsequenceService::wordTable() const {
    return m_lanes->shop->words;
}

}  // namespace ohmwright
