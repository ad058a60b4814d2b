#!/bin/sh
# Fetches axe-core, which looks for what keeps readers out of a page, and says where
# its script lies. It is kept in the user's cache, and no part of the module.
set -eu
version=4.14.1
dir="${XDG_CACHE_HOME:-$HOME/.cache}/inkwing/axe-core-$version"
if [ ! -f "$dir/axe.min.js" ]; then
  mkdir -p "$dir"
  tmp=$(mktemp -d)
  trap 'rm -rf "$tmp"' EXIT
  (cd "$tmp" && npm pack --silent "axe-core@$version" >/dev/null && tar -xzf axe-core-*.tgz)
  cp "$tmp/package/LICENSE" "$dir/"
  cp "$tmp/package/axe.min.js" "$dir/axe.min.js.part"
  mv "$dir/axe.min.js.part" "$dir/axe.min.js"
fi
printf '%s\n' "$dir/axe.min.js"
