/// A value or the reason why there is none; spelt like std::expected, which C++20 lacks.
// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/base/error.h"

#include <cassert>
#include <optional>
#include <utility>
#include <variant>

namespace ohmwright {

template <class T>
class [[nodiscard]] Result {
public:
    Result(T value) : m_state(std::in_place_index<0>, std::move(value)) {}
    Result(Error error) : m_state(std::in_place_index<1>, std::move(error)) {}

    [[nodiscard]] bool hasValue() const { return m_state.index() == 0; }
    explicit operator bool() const { return hasValue(); }

    /// REQUIRES: hasValue().
    [[nodiscard]] T& value() & {
        assert(hasValue());
        return *std::get_if<0>(&m_state);
    }
    [[nodiscard]] const T& value() const& {
        assert(hasValue());
        return *std::get_if<0>(&m_state);
    }
    [[nodiscard]] T&& value() && {
        assert(hasValue());
        return std::move(*std::get_if<0>(&m_state));
    }
    T& operator*() & { return value(); }
    const T& operator*() const& { return value(); }
    T&& operator*() && { return std::move(*this).value(); }
    T* operator->() { return &value(); }
    const T* operator->() const { return &value(); }

    /// REQUIRES: !hasValue().
    [[nodiscard]] const Error& error() const {
        assert(!hasValue());
        return *std::get_if<1>(&m_state);
    }

private:
    std::variant<T, Error> m_state;
};

/// Success without a value, or the reason of the failure.
template <>
class [[nodiscard]] Result<void> {
public:
    Result() = default;
    Result(Error error) : m_error(std::move(error)) {}

    [[nodiscard]] bool hasValue() const { return !m_error; }
    explicit operator bool() const { return hasValue(); }
    /// REQUIRES: !hasValue().
    [[nodiscard]] const Error& error() const {
        assert(m_error);
        return *m_error;
    }

private:
    std::optional<Error> m_error;
};

}  // namespace ohmwright
