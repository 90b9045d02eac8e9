# The fuzzing targets of tests/fuzz, core instrumented:
#   cmake -C .cmake/fuzz.cmake -S . -B build-fuzz -G Ninja
set(CMAKE_CXX_COMPILER clang++ CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS "-O1 -fsanitize=fuzzer-no-link,address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer"
    CACHE STRING "")
set(OHMWRIGHT_APP OFF CACHE BOOL "")
set(OHMWRIGHT_BENCHMARKS OFF CACHE BOOL "")
set(OHMWRIGHT_TESTS OFF CACHE BOOL "")
set(OHMWRIGHT_FUZZ ON CACHE BOOL "")
