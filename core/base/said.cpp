// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/said.h"

#include "core/base/said_meaning.h"

#include <atomic>
#include <utility>

namespace ohmwright {

namespace {

std::atomic<Translation> processTranslation = nullptr;
std::atomic<MeaningTranslation> processMeanings = nullptr;
thread_local bool speaksEnglish = false;

std::string filled(const std::string& sentence, std::initializer_list<Filling> fillings) {
    std::string words;
    for (std::size_t i = 0; i < sentence.size(); ++i) {
        const bool isPlace =
            sentence[i] == '%' && i + 1 < sentence.size() && sentence[i + 1] >= '1' && sentence[i + 1] <= '9';
        const auto place = isPlace ? static_cast<std::size_t>(sentence[i + 1] - '1') : fillings.size();
        if (place < fillings.size()) {
            words += fillings.begin()[place].words();
            ++i;
        } else {
            words += sentence[i];
        }
    }
    return words;
}

}  // namespace

void setTranslation(Translation translation) {
    processTranslation = translation;
}

void setMeaningTranslation(MeaningTranslation translation) {
    processMeanings = translation;
}

InEnglish::InEnglish() : m_before(std::exchange(speaksEnglish, true)) {}

InEnglish::~InEnglish() {
    speaksEnglish = m_before;
}

bool InEnglish::isSpoken() {
    return speaksEnglish;
}

std::string said(const char* english, std::initializer_list<Filling> fillings) {
    const Translation translate = InEnglish::isSpoken() ? nullptr : processTranslation.load();
    return filled(translate == nullptr || *english == '\0' ? english : translate(english), fillings);
}

std::string saidMeaning(const char* meaning, const char* english, std::initializer_list<Filling> fillings) {
    const MeaningTranslation translate = InEnglish::isSpoken() ? nullptr : processMeanings.load();
    return translate == nullptr ? said(english, fillings) : filled(translate(english, meaning), fillings);
}

std::string saidList(const std::vector<std::string>& names) {
    std::string all;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (i > 0 && i + 1 == names.size()) {
            return said("%1 and %2", all, names[i]);
        }
        all.append(i > 0 ? ", " : "").append(names[i]);
    }
    return all;
}

}  // namespace ohmwright
