# Linux on arm64, built on another machine with Debian's cross compiler; programs of the build run in an emulator. The
# office's own libraries for arm64 are in a Debian of that kind: OFFICE_ROOT, made by tests/other-office bookworm:arm64.
set(CMAKE_SYSTEM_NAME Linux)
set(CMAKE_SYSTEM_PROCESSOR aarch64)
set(CMAKE_C_COMPILER aarch64-linux-gnu-gcc)
set(CMAKE_CXX_COMPILER aarch64-linux-gnu-g++)
set(CMAKE_CROSSCOMPILING_EMULATOR qemu-aarch64-static -L /usr/aarch64-linux-gnu)
