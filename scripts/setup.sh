# shellcheck shell=bash
# Installs what a goal needs, and only what is missing: Debian packages, and node with npm.
# Sourced by ./try, ./check and scripts/build_page.sh. Needs bash, Debian 12, root, and the Debian package registry.

say() { printf '== %s\n' "$*"; }

BUILD_PACKAGES="g++ cmake ninja-build pkg-config libcli11-dev libtomlplusplus-dev nlohmann-json3-dev
  libeigen3-dev libfmt-dev librsvg2-dev libcairo2-dev fonts-dejavu-core libgeographiclib-dev libpugixml-dev libsqlite3-dev"
PAGE_PACKAGES="$BUILD_PACKAGES emscripten"
# shellcheck disable=SC2034  # for those that source this
TEST_PACKAGES="$PAGE_PACKAGES libgtest-dev libbenchmark-dev calculix-ccx libsundials-dev poppler-utils parallel
  chromium"
OLDEST_NODE=18

# As root only; $1 says what is missing, the rest are the packages that bring it.
install_from_debian() {
  local missing=$1
  shift
  if [ "$(id -u)" -ne 0 ]; then
    echo "Only root can install what is missing: $missing" >&2
    exit 2
  fi
  say "packages: installing $*"
  export DEBIAN_FRONTEND=noninteractive
  apt-get update -qq
  apt-get install -y -qq --no-install-recommends "$@" >/dev/null
}

install_packages() {
  local missing=()
  for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing+=("$package")
  done
  if [ ${#missing[@]} -eq 0 ]; then
    say "packages: all there"
    return
  fi
  install_from_debian "Debian packages ${missing[*]}" "${missing[@]}"
}

# Node and npm may come from elsewhere than Debian, and then Debian's would not install beside them: what counts is
# whether they are there.
install_node() {
  local missing=()
  command -v node >/dev/null || missing+=(nodejs)
  command -v npm >/dev/null || missing+=(npm)
  [ ${#missing[@]} -eq 0 ] || install_from_debian "node $OLDEST_NODE or later, and npm" "${missing[@]}"
  local major
  major=$(node -p 'process.versions.node.split(".")[0]')
  if [ "$major" -lt "$OLDEST_NODE" ]; then
    echo "node $(node --version) is too old to build the page: $OLDEST_NODE or later is needed" >&2
    exit 2
  fi
}

# quietly COMMAND...: shows what it printed only where it fails.
quietly() {
  local log status=0
  log=$(mktemp)
  "$@" >"$log" 2>&1 || status=$?
  [ "$status" -eq 0 ] || cat "$log" >&2
  rm -f "$log"
  return "$status"
}

# configure PRESET DIR [cmake arguments]: only when not done before with the same arguments.
configure() {
  local preset=$1 dir=$2
  shift 2
  if [ -f "$dir/build.ninja" ] && [ "$(cat "$dir/.configured" 2>/dev/null)" = "$*" ]; then
    return
  fi
  say "configuring ($preset)"
  quietly cmake --preset "$preset" "$@"
  printf '%s' "$*" >"$dir/.configured"
}
