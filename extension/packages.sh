# Sourced by extension/demo, extension/install and tests/run: the Debian packages each needs, named in one place.

packages_office="libreoffice-calc python3-uno fonts-liberation"
packages_build="g++ cmake ninja-build libboost-math-dev libgtest-dev libbenchmark-dev nlohmann-json3-dev zip advancecomp libreoffice-dev"
packages_office_test="python3-pytest python3-scipy poppler-utils xvfb xdotool imagemagick binutils"
packages_test="clang libclang-rt-dev $packages_office_test"
packages_other="debootstrap"
packages_emulator="qemu-user-static g++-aarch64-linux-gnu"
packages_style="clang-format clang-tidy llvm"

# need GROUP...: installs what those groups name and this machine lacks. Asks the network only if something is missing.
need() {
    local group list name missing=()
    for group in "$@"; do
        list=packages_$group
        for name in ${!list}; do
            dpkg-query -W -f='${Status}' "$name" 2>/dev/null | grep -q ' installed$' || missing+=("$name")
        done
    done
    [ ${#missing[@]} -gt 0 ] || return 0

    local as_root=()
    if [ "$(id -u)" != 0 ]; then
        as_root=(sudo)
        [ -t 0 ] || as_root+=(-n)
    fi
    echo "Installing from Debian, which takes a few minutes: ${missing[*]}"
    if ! command -v apt-get >/dev/null; then
        echo "This machine has no apt-get. Please install what matches these Debian packages, then run this again." >&2
        return 1
    fi
    if [ ${#as_root[@]} -gt 0 ] && ! command -v sudo >/dev/null; then
        echo "That needs root, and there is no sudo here. As root: apt-get install ${missing[*]}" >&2
        return 1
    fi
    local log apt=("${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -o DPkg::Lock::Timeout=300)
    log=$(mktemp)
    if ! { "${apt[@]}" update && "${apt[@]}" install -y --no-install-recommends "${missing[@]}"; } >"$log" 2>&1; then
        tail -n 20 "$log" >&2
        echo "Nothing was built. The whole log: $log. By hand, as root: apt-get install ${missing[*]}" >&2
        return 1
    fi
    rm -f "$log"
}
