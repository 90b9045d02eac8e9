// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/history/recipe_bench.h"

#include "app/document/job_document.h"
#include "app/document/shop_document.h"
#include "app/history/sentence_list.h"
#include "app/look/choice_button.h"
#include "app/look/panel_title.h"
#include "app/look/said_text.h"
#include "app/look/text.h"
#include "app/look/theme.h"
#include "app/look/themed_label.h"
#include "core/plan/pick_list.h"

#include <QCheckBox>
#include <QDate>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include <algorithm>
#include <initializer_list>
#include <utility>

namespace ohmwright {

namespace {

QString lettersOf(const Plan& plan) {
    QStringList letters;
    for (const Mod& mod : plan) {
        if (mod.on) {
            letters << text(mod.letter);
        }
    }
    return letters.join('+');
}

SignKind signOf(MatchCertainty certainty) {
    switch (certainty) {
        case MatchCertainty::sure:
            return SignKind::tick;
        case MatchCertainty::likely:
            return SignKind::note;
        case MatchCertainty::none:
            break;
    }
    return SignKind::care;
}

QString partText(const RecipePart& part) {
    const QString role = text(part.role);
    if (part.match.certainty == MatchCertainty::none) {
        return QObject::tr("%1, none here: %2").arg(text(part.known), text(part.match.sentence));
    }
    const QString found = QObject::tr("%1 is %2 here, %3")
                              .arg(text(part.known), text(part.here), saidText(certaintyWord(part.match.certainty)));
    return part.match.certainty == MatchCertainty::sure ? found + ": " + role
                                                        : found + ": " + text(part.match.sentence);
}

QString modText(const RecipeMod& mod) {
    return mod.applied.empty()
               ? text(mod.sentence)
               : QObject::tr("Mod %1 becomes %2 here: %3").arg(text(mod.letter), text(mod.applied), text(mod.sentence));
}

std::vector<SignedSentence> linesOf(const HeldRecipe& held) {
    std::vector<SignedSentence> lines;
    for (const RecipePart& part : held.fit->parts) {
        lines.push_back({partText(part), signOf(part.match.certainty)});
    }
    for (const SettlingReading& reading : held.settling) {
        lines.push_back({text(reading.sentence) + ".", SignKind::note});
    }
    for (const RecipeMod& mod : held.fit->mods) {
        lines.push_back({modText(mod), mod.applied.empty() ? SignKind::care : SignKind::none});
    }
    return lines;
}

std::vector<SignedSentence> differencesOf(const RecipeFit& fit) {
    std::vector<SignedSentence> lines;
    const auto add = [&](const QString& head, std::initializer_list<DifferenceKind> kinds) {
        bool isFirst = true;
        for (const RecipeDifference& each : fit.differences) {
            if (std::find(kinds.begin(), kinds.end(), each.kind) == kinds.end()) {
                continue;
            }
            if (std::exchange(isFirst, false)) {
                lines.push_back({head, SignKind::note});
            }
            lines.push_back({text(each.sentence), SignKind::none});
        }
    };
    add(QObject::tr("Parts and their values"), {DifferenceKind::trim, DifferenceKind::value, DifferenceKind::part});
    add(QObject::tr("Readings at rest, with the mods"), {DifferenceKind::reading});
    add(QObject::tr("Figures at the recipe's setting, with the mods"), {DifferenceKind::figure});
    if (lines.empty()) {
        lines.push_back(
            {QObject::tr("Nothing differs: values, figures and readings are as on that unit."), SignKind::tick});
    }
    return lines;
}

void clear(QVBoxLayout& layout) {
    while (QLayoutItem* item = layout.takeAt(0)) {
        if (item->widget() != nullptr) {
            item->widget()->hide();
            item->widget()->deleteLater();
        }
        delete item;
    }
}

}  // namespace

RecipeBench::RecipeBench(JobDocument& document, ShopDocument& shop, QWidget* parent)
    : QWidget(parent), m_document(document), m_shop(shop), m_service(document) {
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(14, 12, 14, 12);
    layout->setSpacing(6);
    buildTake(*layout);
    layout->addSpacing(8);
    layout->addWidget(new PanelTitle(tr("Recipes of the shop"), this));
    m_none = new SentenceList(this);
    layout->addWidget(m_none);
    m_list = new QVBoxLayout;
    m_list->setSpacing(6);
    layout->addLayout(m_list);
    buildHeld(*layout);
    layout->addStretch(1);
    connect(&m_document, &JobDocument::jobChanged, this, &RecipeBench::followJob);
    connect(&m_shop, &ShopDocument::shopChanged, this, &RecipeBench::readRecipes);
    connect(&m_service, &RecipeService::held, this, &RecipeBench::showHeld);
    connect(&m_service, &RecipeService::taken, this,
            [this](const std::shared_ptr<const Recipe>& recipe) { keep(*recipe); });
    connect(&m_service, &RecipeService::refused, this, [this](const QString& sentence) {
        m_taken->setSentences({{sentence, SignKind::care}});
        m_take->setEnabled(true);
    });
    followJob();
    readRecipes();
}

void RecipeBench::buildTake(QVBoxLayout& layout) {
    layout.addWidget(new PanelTitle(tr("Take a recipe"), this));
    m_name = new QLineEdit(this);
    m_name->setAccessibleName(tr("Name of the recipe"));
    m_trimList = new QVBoxLayout;
    m_trimList->setSpacing(4);
    m_take = new QPushButton(this);
    m_taken = new SentenceList(this);
    m_chooseShop = new QPushButton(tr("Choose the shop's folder"), this);
    layout.addWidget(m_name);
    layout.addLayout(m_trimList);
    layout.addWidget(m_take);
    layout.addWidget(m_taken);
    layout.addWidget(m_chooseShop);
    connect(m_take, &QPushButton::clicked, this, &RecipeBench::take);
    connect(m_chooseShop, &QPushButton::clicked, this, &RecipeBench::shopFolderAsked);
}

void RecipeBench::buildHeld(QVBoxLayout& layout) {
    m_heldPart = new QWidget(this);
    auto* held = new QVBoxLayout(m_heldPart);
    held->setContentsMargins(0, 8, 0, 0);
    held->setSpacing(6);
    m_heldTitle = new PanelTitle(tr("On this unit"), m_heldPart);
    m_heldLines = new SentenceList(m_heldPart);
    m_differences = new SentenceList(m_heldPart);
    m_accept = new QPushButton(tr("Put it into the plan"), m_heldPart);
    m_leave = new QPushButton(tr("Leave it"), m_heldPart);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(m_accept);
    buttons->addWidget(m_leave);
    buttons->addStretch(1);
    held->addWidget(m_heldTitle);
    held->addLayout(buttons);
    held->addWidget(m_heldLines);
    held->addWidget(new PanelTitle(tr("What differs from that unit"), m_heldPart));
    held->addWidget(m_differences);
    layout.addWidget(m_heldPart);
    m_heldPart->hide();
    connect(m_accept, &QPushButton::clicked, this, &RecipeBench::accept);
    connect(m_leave, &QPushButton::clicked, this, &RecipeBench::leave);
}

void RecipeBench::followJob() {
    const Job& job = *m_document.job();
    const QString letters = lettersOf(job.plan);
    m_name->setPlaceholderText(letters.isEmpty() ? tr("Name") : text(job.unit.name) + " " + letters);
    m_take->setText(letters.isEmpty() ? tr("No mod is on to take a recipe of")
                                      : tr("Take a recipe of %1").arg(letters));
    m_take->setEnabled(!letters.isEmpty());
    showTrims();
    leave();
}

/// A choice for every value that a device's output hangs on.
void RecipeBench::showTrims() {
    clear(*m_trimList);
    m_trims.clear();
    const Job& job = *m_document.job();
    for (const Mod& mod : job.plan) {
        const Result<Trim> trim = mod.on ? readTrim(job, mod.letter, "half-way") : Error{};
        if (!trim) {
            continue;
        }
        auto* box = new QCheckBox(tr("Solve %1 anew for every unit").arg(text(mod.letter)), this);
        box->setAccessibleName(tr("Trim of mod %1: %2").arg(text(mod.letter), text(trimWords(job.stock, *trim))));
        auto* words = new ThemedLabel(TextRole::caption, false, &ThemeColours::ink2, this);
        words->setText(text(trimWords(job.stock, *trim)));
        words->setWordWrap(true);
        m_trimList->addWidget(box);
        m_trimList->addWidget(words);
        box->show();
        words->show();
        m_trims.emplace_back(box, *trim);
    }
}

void RecipeBench::take() {
    RecipeOptions options{
        m_name->text().trimmed().toStdString(), QDate::currentDate().toString(Qt::ISODate).toStdString(), {}};
    for (const auto& [box, trim] : m_trims) {
        if (box->isChecked()) {
            options.trims.push_back(trim);
        }
    }
    m_take->setEnabled(false);
    m_taken->setSentences({{tr("solving"), SignKind::none}});
    m_service.take(options);
}

void RecipeBench::keep(const Recipe& recipe) {
    m_take->setEnabled(true);
    const auto path = saveRecipe(recipe, m_shop.folder().toStdString());
    if (!path) {
        m_taken->setSentences({{text(path.error().message), SignKind::care}});
        return;
    }
    m_taken->setSentences({{tr("Kept as %1").arg(QString::fromStdString(path->string())), SignKind::tick}});
    m_name->clear();
    readRecipes();
}

void RecipeBench::readRecipes() {
    const bool hasShop = !m_shop.folder().isEmpty();
    m_chooseShop->setVisible(!hasShop);
    clear(*m_list);
    std::vector<SignedSentence> said;
    const std::vector<ShopRecipe> recipes =
        hasShop ? readShopRecipes(m_shop.folder().toStdString()) : std::vector<ShopRecipe>();
    for (const ShopRecipe& each : recipes) {
        if (!each.recipe) {
            said.push_back({text(each.fault), SignKind::care});
            continue;
        }
        const auto recipe = std::make_shared<const Recipe>(*each.recipe);
        auto* button = new ChoiceButton(
            text(recipe->name),
            tr("%1 from %2 %3, %4")
                .arg(lettersOf(recipe->plan), text(recipe->from.name), text(recipe->from.serial), text(recipe->taken)),
            this);
        button->setAccessibleName(tr("Recipe %1").arg(text(recipe->name)));
        m_list->addWidget(button);
        button->show();
        connect(button, &QAbstractButton::clicked, this, [this, recipe] { hold(recipe); });
    }
    if (recipes.empty()) {
        said.push_back(
            {hasShop ? tr("There is none yet.") : tr("Recipes are kept in the shop's folder."), SignKind::none});
    }
    m_none->setSentences(said);
}

void RecipeBench::hold(std::shared_ptr<const Recipe> recipe) {
    m_held = nullptr;
    m_heldTitle->setTitle(tr("%1 on this unit").arg(text(recipe->name)));
    m_heldLines->setSentences({{tr("solving"), SignKind::none}});
    m_differences->setSentences({});
    m_accept->setEnabled(false);
    m_heldPart->show();
    m_service.hold(std::move(recipe), {m_shop.onHand(), reservationName(*m_document.job())});
}

void RecipeBench::showHeld(std::shared_ptr<const HeldRecipe> held) {
    m_held = std::move(held);
    if (!m_held->fit) {
        m_heldLines->setSentences({{m_held->fault, SignKind::care}});
        return;
    }
    m_heldLines->setSentences(linesOf(*m_held));
    m_differences->setSentences(differencesOf(*m_held->fit));
    m_accept->setEnabled(m_held->fit->job != *m_held->job);
}

void RecipeBench::accept() {
    if (!m_held || !m_held->fit) {
        return;
    }
    const auto held = m_held;
    m_document.edit(held->fit->job, tr("Apply the recipe %1").arg(text(held->recipe->name)));
}

void RecipeBench::leave() {
    m_held = nullptr;
    m_heldPart->hide();
}

}  // namespace ohmwright
