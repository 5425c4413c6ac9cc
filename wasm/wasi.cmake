# The toolchain that builds core/ to WebAssembly: Debian's clang-22, wasi-libc and libc++.
set(CMAKE_SYSTEM_NAME Generic) # CMake 3.25 knows no WASI
set(CMAKE_SYSTEM_PROCESSOR wasm32)
set(CMAKE_CXX_COMPILER clang++-22)
set(CMAKE_CXX_COMPILER_TARGET wasm32-wasi)
set(CMAKE_AR llvm-ar-22)
set(CMAKE_RANLIB llvm-ranlib-22)
set(CMAKE_TRY_COMPILE_TARGET_TYPE STATIC_LIBRARY)

# -Wno-deprecated: clang calls this target's name deprecated, Debian's libraries are found by no other.
# -nostdlibinc: clang would search /usr/include, whose headers are this machine's and not the module's.
# No exceptions: what a user can cause is a Problem; anything else stops the module.
set(CMAKE_CXX_FLAGS_INIT "-Wno-deprecated -fno-exceptions -nostdlibinc \
-isystem /usr/include/wasm32-wasi/c++/v1 -idirafter /usr/include/wasm32-wasi")
