# core under the address and undefined-behaviour sanitizers, with the fuzzing targets of tests/fuzz:
#   cmake -C .cmake/asan.cmake -S . -B build-asan -G Ninja
set(CMAKE_CXX_COMPILER clang++ CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS "-O1 -fsanitize=address,undefined,fuzzer-no-link -fno-sanitize-recover=all -fno-omit-frame-pointer"
    CACHE STRING "")
set(OHMWRIGHT_APP OFF CACHE BOOL "")
set(OHMWRIGHT_BENCHMARKS OFF CACHE BOOL "")
set(OHMWRIGHT_REFERENCE OFF CACHE BOOL "")
set(OHMWRIGHT_FUZZ ON CACHE BOOL "")
