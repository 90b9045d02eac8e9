# The compile commands that clang-tidy reads; nothing is built here. Without precompiled headers, which are
# written by one compiler and read by no other.
#   cmake -C .cmake/tidy.cmake -S . -B build-tidy -G Ninja
set(CMAKE_CXX_COMPILER clang++ CACHE STRING "")
set(CMAKE_DISABLE_PRECOMPILE_HEADERS ON CACHE BOOL "")
set(OHMWRIGHT_TESTS OFF CACHE BOOL "")
