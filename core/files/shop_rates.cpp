// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/files/shop_rates.h"

#include "core/base/said.h"
#include "core/files/file_head.h"
#include "core/files/json_reader.h"

namespace ohmwright {

namespace {

constexpr std::string_view ratesFormat = "ohmwright-rates";

double rate(JsonReader& reader, std::string_view key, double house) {
    const double found = reader.number(key, house);
    if (!reader.failed() && found < 0.0) {
        reader.member(key).fail(said("a rate is a number from 0 up."));
    }
    return found;
}

ShopRates readMembers(JsonReader& reader) {
    ShopRates rates;
    rates.currency = reader.text("currency", rates.currency);
    rates.perHour = rate(reader, "perHour", rates.perHour);
    rates.benchFee = rate(reader, "benchFee", rates.benchFee);
    rates.partMarkup = rate(reader, "partMarkup", rates.partMarkup);
    rates.unknownPartPrice = rate(reader, "unknownPartPrice", rates.unknownPartPrice);
    if (auto minutes = reader.memberIfThere("minutes")) {
        for (auto& [kind, entry] : minutes->namedMembers()) {
            rates.minutes[kind] = entry.asNumber();
            if (!reader.failed() && rates.minutes[kind] < 0.0) {
                entry.fail(said("a rate is a number from 0 up."));
            }
        }
    }
    rates.otherMinutes = rate(reader, "otherMinutes", rates.otherMinutes);
    rates.riskShare = rate(reader, "riskShare", rates.riskShare);
    reader.refuseUnknown();
    return rates;
}

}  // namespace

Result<ShopRates> readShopRates(std::string_view text) {
    return readOfKind(text, ratesFormat, shopRatesVersion, readMembers);
}

std::string writeShopRates(const ShopRates& rates) {
    JsonNode root = writeHead(ratesFormat, shopRatesVersion);
    root.add("currency", JsonNode::ofText(rates.currency));
    root.add("perHour", JsonNode::ofNumber(rates.perHour));
    root.add("benchFee", JsonNode::ofNumber(rates.benchFee));
    root.add("partMarkup", JsonNode::ofNumber(rates.partMarkup));
    root.add("unknownPartPrice", JsonNode::ofNumber(rates.unknownPartPrice));
    JsonNode minutes = JsonNode::object();
    for (const auto& [kind, count] : rates.minutes) {
        minutes.add(kind, JsonNode::ofNumber(count));
    }
    root.add("minutes", std::move(minutes));
    root.add("otherMinutes", JsonNode::ofNumber(rates.otherMinutes));
    root.add("riskShare", JsonNode::ofNumber(rates.riskShare));
    return printJson(root);
}

}  // namespace ohmwright
