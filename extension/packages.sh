# Sourced by extension/demo, extension/install and tests/run: the Debian packages each needs, named in one place.

packages_office="libreoffice-calc python3-uno fonts-liberation"
packages_build="g++ cmake ninja-build libboost-math-dev libgtest-dev libbenchmark-dev nlohmann-json3-dev zip libreoffice-dev"
packages_test="python3-scipy poppler-utils xvfb"
packages_other="debootstrap"

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
    echo "Installing from Debian: ${missing[*]}"
    if ! command -v apt-get >/dev/null; then
        echo "This machine has no apt-get. Please install what matches these Debian packages, then run this again." >&2
        return 1
    fi
    if [ ${#as_root[@]} -gt 0 ] && ! command -v sudo >/dev/null; then
        echo "That needs root, and there is no sudo here. As root: apt-get install ${missing[*]}" >&2
        return 1
    fi
    local apt=("${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -o DPkg::Lock::Timeout=300)
    "${apt[@]}" update && "${apt[@]}" install -y --no-install-recommends "${missing[@]}" || {
        echo "The packages above could not be installed; nothing was built." >&2
        return 1
    }
}
