# The whole program under the address and undefined-behaviour sanitizers, quick enough for a million random events:
#   cmake -C .cmake/asan-window.cmake -S . -B build-asan-window -G Ninja && ninja -C build-asan-window app_window_tests
#   OHMWRIGHT_EVENTS=1000000 QT_QPA_PLATFORM=offscreen ASAN_OPTIONS=detect_leaks=0:handle_abort=1:malloc_context_size=1:\
#   quarantine_size_mb=32:allocator_release_to_os_interval_ms=-1 \
#     build-asan-window/tests/app/window/app_window_tests --gtest_filter='RandomUse*'
# Leaks are not looked for: what Qt and the font libraries keep to the end would hide them. With whole stacks of every
# allocation, which Qt's frames make long and all different, the same takes three times as long.
set(CMAKE_CXX_COMPILER clang++ CACHE STRING "")
set(CMAKE_BUILD_TYPE Debug CACHE STRING "")
set(CMAKE_CXX_FLAGS_DEBUG "" CACHE STRING "")
string(JOIN " " flags -O2 -gline-tables-only -fsanitize=address,undefined -fno-sanitize=vptr -fno-sanitize-recover=all
  -fno-omit-frame-pointer -D_GLIBCXX_ASSERTIONS)
set(CMAKE_CXX_FLAGS "${flags}" CACHE STRING "")
set(OHMWRIGHT_BENCHMARKS OFF CACHE BOOL "")
set(OHMWRIGHT_REFERENCE OFF CACHE BOOL "")
