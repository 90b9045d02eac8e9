# core under the address and undefined-behaviour sanitizers and the assertions of the standard library, with the
# fuzzing targets of tests/fuzz:
#   cmake -C .cmake/asan.cmake -S . -B build-asan -G Ninja
set(CMAKE_CXX_COMPILER clang++ CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
string(JOIN " " flags -O1 -fsanitize=address,undefined,fuzzer-no-link -fno-sanitize-recover=all
  -fno-omit-frame-pointer -D_GLIBCXX_ASSERTIONS)
set(CMAKE_CXX_FLAGS "${flags}" CACHE STRING "")
set(OHMWRIGHT_APP OFF CACHE BOOL "")
set(OHMWRIGHT_BENCHMARKS OFF CACHE BOOL "")
set(OHMWRIGHT_REFERENCE OFF CACHE BOOL "")
set(OHMWRIGHT_FUZZ ON CACHE BOOL "")
