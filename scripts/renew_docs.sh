#!/usr/bin/env bash
# Writes docs/commands.md from the program itself: scripts/renew_docs.sh [PROGRAM], usually that of the release build.
set -euo pipefail
root=$(cd "$(dirname "$0")/.." && pwd)
program=${1:-$root/build/release/cli/spanloom}
page=$(mktemp "$root/docs/commands.md.XXXXXX")
trap 'rm -f "$page"' EXIT
"$program" manual --markdown >"$page"
chmod 644 "$page"
mv "$page" "$root/docs/commands.md"
