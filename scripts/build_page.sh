#!/usr/bin/env bash
# Builds the page: the engine in WebAssembly, and everything in one file, put beside each built `spanloom`.
# Run it, or source it for build_page(). Nothing that is up to date is built again.
set -euo pipefail

PAGE_FOLDER=$(cd "$(dirname "${BASH_SOURCE[0]}")/../page" && pwd)
PAGE_ROOT=$(dirname "$PAGE_FOLDER")
BUILT_PAGE=$PAGE_ROOT/build/page/spanloom.html

# shellcheck source=scripts/setup.sh
. "$PAGE_ROOT/scripts/setup.sh"

build_engine() {
  local build=$PAGE_ROOT/build/wasm
  # Debian's emscripten looks for its JavaScript packages where node does not.
  local -x NODE_PATH=/usr/share/nodejs
  if [ ! -f "$build/build.ninja" ]; then
    say "configuring (wasm)"
    quietly emcmake cmake -G Ninja -S "$PAGE_ROOT" -B "$build" -DCMAKE_BUILD_TYPE=Release
  fi
  say "building the engine for the page"
  cmake --build "$build" --target spanloom_page_engine
  copy_if_other "$build/page/engine/engine.mjs" "$PAGE_FOLDER/src/engine/engine.mjs"
}

# Keeps the time of a file that would not change.
copy_if_other() {
  cmp -s "$1" "$2" || cp "$1" "$2"
}

install_modules() {
  [ "$PAGE_FOLDER/node_modules/.package-lock.json" -nt "$PAGE_FOLDER/package-lock.json" ] && return
  say "installing what the page is made with (npm)"
  (cd "$PAGE_FOLDER" && quietly npm ci --no-audit --no-fund)
  touch "$PAGE_FOLDER/node_modules/.package-lock.json"
}

# True if anything that goes into the page is newer than the page; folders too, which tell of files taken away.
page_is_old() {
  [ -f "$BUILT_PAGE" ] || return 0
  local newer
  newer=$(find "$PAGE_FOLDER/src" "$PAGE_FOLDER/index.html" "$PAGE_FOLDER/vite.config.ts" "$PAGE_FOLDER/tsconfig.json" \
    "$PAGE_FOLDER/package-lock.json" "$PAGE_ROOT/examples" -newer "$BUILT_PAGE" -print -quit)
  [ -n "$newer" ]
}

bundle_page() {
  page_is_old || return 0
  say "building the page"
  local out began
  out=$(dirname "$BUILT_PAGE")
  began=$(mktemp)
  (cd "$PAGE_FOLDER" && quietly npm run --silent types &&
    quietly npm run --silent build -- --outDir "$out" --emptyOutDir --logLevel warn)
  touch -r "$began" "$out/index.html"   # what changed while it was built is newer than it
  mv "$out/index.html" "$BUILT_PAGE"
  rm -f "$began"
}

put_beside_commands() {
  local preset
  for preset in try release sanitize; do
    [ ! -x "$PAGE_ROOT/build/$preset/cli/spanloom" ] || copy_if_other "$BUILT_PAGE" "$PAGE_ROOT/build/$preset/cli/spanloom.html"
  done
}

build_page() {
  install_node
  install_modules
  build_engine
  bundle_page
  put_beside_commands
}

if [ "${BASH_SOURCE[0]}" = "$0" ]; then
  # shellcheck disable=SC2086
  install_packages $PAGE_PACKAGES
  build_page
fi
