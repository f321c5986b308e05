# Sourced by whatever of scripts needs something: asks for Debian packages, and installs what is missing where that is allowed.

window_packages="gcc libc6-dev pkg-config libgl1-mesa-dev libx11-dev libxcursor-dev libxrandr-dev libxinerama-dev libxi-dev libxxf86vm-dev libasound2-dev"
screen_packages="xvfb xauth libgl1-mesa-dri"
paper_packages="poppler-utils librsvg2-bin qpdf" # read what was printed
bus_packages="dbus-daemon"                        # a bus of a desktop, for what a desktop says
page_packages="chromium brotli"                   # the page, in a browser as people have it, and packed
machine_packages="qemu-user-static"              # a second kind of machine, for the same bytes
rig_packages="qemu-system-x86 kmod xz-utils zstd"
cross_packages="gcc-aarch64-linux-gnu libc6-dev-arm64-cross" # the window for the other kind of machine
[ "$(dpkg --print-architecture 2>/dev/null)" != arm64 ] || cross_packages="gcc-x86-64-linux-gnu libc6-dev-amd64-cross"
trial_packages="desktop-file-utils appstream udev x11-utils librsvg2-bin" # packages are looked at, installed and run
wine_packages="wine64 gcc-mingw-w64-x86-64"                              # the Windows program

# need PACKAGES… : installs the ones that are missing. Without root it says the one command that is missing and fails.
need() {
  local missing="" p
  command -v dpkg-query >/dev/null 2>&1 || return 0 # not Debian: the build will say what it lacks
  for p in "$@"; do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$p" 2>/dev/null)" = installed ] || missing="$missing $p"
  done
  [ -n "$missing" ] || return 0
  if [ "$(id -u)" != 0 ]; then
    echo "Some packages are missing. This one command installs them; then start me again:" >&2
    echo "  sudo apt-get update && sudo apt-get install -y --no-install-recommends$missing" >&2
    return 1
  fi
  echo "installing:$missing" >&2
  apt-get update -qq >&2 || true
  DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >&2
}
