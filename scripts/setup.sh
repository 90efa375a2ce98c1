# Installs the Debian packages a goal needs, and only those that are missing.
# Sourced by ./try and ./check. Needs bash, Debian 12, root, and the Debian package registry.

say() { printf '== %s\n' "$*"; }

BUILD_PACKAGES="g++ cmake ninja-build pkg-config libcli11-dev libtomlplusplus-dev nlohmann-json3-dev
  libeigen3-dev libfmt-dev librsvg2-dev libcairo2-dev fonts-dejavu-core"
TEST_PACKAGES="$BUILD_PACKAGES libgtest-dev libbenchmark-dev calculix-ccx libsundials-dev poppler-utils parallel"

install_packages() {
  local missing=()
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
  done
  if [ ${#missing[@]} -eq 0 ]; then
    say "packages: all there"
    return
  fi
  if [ "$(id -u)" -ne 0 ]; then
    echo "These Debian packages are missing, and only root can install them: ${missing[*]}" >&2
    exit 2
  fi
  say "packages: installing ${missing[*]}"
  export DEBIAN_FRONTEND=noninteractive
  apt-get update -qq
  apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
}

# configure PRESET DIR [cmake arguments]: only when not done before with the same arguments.
configure() {
  local preset=$1 dir=$2
  shift 2
  if [ -f "$dir/build.ninja" ] && [ "$(cat "$dir/.configured" 2>/dev/null)" = "$*" ]; then
    return
  fi
  say "configuring ($preset)"
  cmake --preset "$preset" "$@" >"/tmp/spanloom-configure.$$" 2>&1 ||
    { cat "/tmp/spanloom-configure.$$"; rm -f "/tmp/spanloom-configure.$$"; exit 1; }
  rm -f "/tmp/spanloom-configure.$$"
  printf '%s' "$*" >"$dir/.configured"
}
