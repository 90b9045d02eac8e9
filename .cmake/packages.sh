# shellcheck shell=bash disable=SC2034
# SPDX-License-Identifier: GPL-3.0-or-later
# Sourced by app/run, tests/run and .ci/run: Debian packages, and the configuring of a build folder.

# What a program needs to be built, and what its tests need beside that.
app_packages=(g++ cmake ninja-build pkg-config libeigen3-dev nlohmann-json3-dev libcli11-dev
    qt6-base-dev qt6-svg-dev qt6-l10n-tools qt6-translations-l10n libqcustomplot-dev fonts-dejavu-core)
test_packages=("${app_packages[@]}" libgtest-dev libgmock-dev libbenchmark-dev libngspice0-dev poppler-utils python3 gettext)
ci_packages=("${test_packages[@]}" git clang clang-tidy clang-format libclang-rt-14-dev)

# Installs those of the named packages that are not there; touches nothing when all are.
install_missing() {
    if ! command -v dpkg-query >/dev/null; then
        echo "This is no Debian system: the packages needed are called $* there." >&2
        return 0
    fi
    local missing=() package
    local -A installed=()
    while read -r package; do
        installed[$package]=yes
    done < <(dpkg-query --show --showformat '${db:Status-Status} ${Package}\n' "$@" 2>/dev/null |
        sed -n 's/^installed //p')
    for package in "$@"; do
        [[ -n ${installed[$package]:-} ]] || missing+=("$package")
    done
    ((${#missing[@]} > 0)) || return 0

    local as_root=()
    if ((EUID != 0)); then
        if ! command -v sudo >/dev/null; then
            echo "Packages are missing, and there is no sudo. As root, run:" >&2
            echo "    apt-get install --no-install-recommends ${missing[*]}" >&2
            return 1
        fi
        as_root=(sudo)
    fi
    echo "Installing: ${missing[*]}"
    "${as_root[@]}" apt-get update -qq &&
        "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
            apt-get install -y -qq --no-install-recommends "${missing[@]}"
}

# configure SOURCE BUILD OPTION...: runs cmake where it was not run yet, or where the tree was moved. A build
# folder that stands is left to ninja, which runs cmake again when a CMakeLists.txt has changed.
configure() {
    local source=$1 build=$2
    shift 2
    if [[ -f $build/build.ninja ]] && grep -qxF "CMAKE_HOME_DIRECTORY:INTERNAL=$source" "$build/CMakeCache.txt" &&
        [[ "$(cat "$build/options" 2>/dev/null)" == "$*" ]]; then
        return 0
    fi
    cmake --fresh -S "$source" -B "$build" -G Ninja "$@" && echo "$*" >"$build/options"
}
