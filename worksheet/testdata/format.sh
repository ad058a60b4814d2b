#!/bin/sh
# Proves that the common Markdown formatter and linter, from npm, leave alone
# what a run writes. Needs node and npm; works in a folder of its own.
#
#   sh worksheet/testdata/format.sh [version of the formatter …]
#
# short-*.md: no formatter mode changes a byte, and the linter's defaults find
# nothing. long-*.md: a formatter may wrap, join or compact lines; a run then
# leaves the file as it is. The linter's line length is off for these, since a
# callout's paragraph is one line.
#
# Versions before 3.9 rewrite an underscore in free text that stands near a
# letter beyond ASCII, whatever is escaped; what a run writes of itself puts
# names into code, which they leave alone.
set -eu
cd "$(dirname "$0")/.."
versions=${*:-3.9.10 3.10.1}
here=$PWD
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/made"
go test -vet=off -c -o "$work/worksheet.test" .
"$work/worksheet.test" -test.run 'TestSamples$' -samples "$work/made" >"$work/log" || { cat "$work/log"; exit 1; }

cd "$work"
npm install --silent --no-audit --no-fund --prefix lint markdownlint-cli2@0.24.1 >/dev/null
echo '{ "config": {} }' >made/.markdownlint-cli2.jsonc
(cd made && "$work/lint/node_modules/.bin/markdownlint-cli2" 'short-*.md') >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
echo '{ "config": { "MD013": false } }' >made/.markdownlint-cli2.jsonc
(cd made && "$work/lint/node_modules/.bin/markdownlint-cli2" 'long-*.md') >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
echo "linter: nothing found"

for version in $versions; do
	npm install --silent --no-audit --no-fund --prefix "f$version" "prettier@$version" >/dev/null
	for mode in '--prose-wrap preserve' '--prose-wrap always' '--prose-wrap never' '--tab-width 4'; do
		rm -rf formatted && cp -r made formatted
		"f$version/node_modules/.bin/prettier" $mode --write 'formatted/*.md' >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
		# A tab width of 4 moves lists, in which only meaning is kept.
		if [ "$mode" != '--tab-width 4' ]; then
			for f in made/short-*.md; do diff -u "$f" "formatted/${f#made/}"; done
		fi
		(cd "$here" && "$work/worksheet.test" -test.run 'TestFormatted$' -formatted "$work/formatted") >"$work/log" || { cat "$work/log"; exit 1; }
		echo "formatter $version $mode: left alone"
	done
done

# The samples, in the last of the versions: their prose may be wrapped, what a
# run wrote stays fresh.
cp -r "$here/../samples" journals
echo '{ "config": { "MD013": false } }' >journals/.markdownlint-cli2.jsonc
(cd journals && "$work/lint/node_modules/.bin/markdownlint-cli2" '**/*.md') >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
"f$version/node_modules/.bin/prettier" --check 'journals/**/*.md' >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
(cd "$here/.." && go build -o "$work/inkwing" ./cmd/inkwing)
for mode in always never; do
	rm -rf wrapped && cp -r journals wrapped
	"f$version/node_modules/.bin/prettier" --prose-wrap $mode --write 'wrapped/**/*.md' >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
	./inkwing check --root wrapped wrapped >"$work/log" 2>&1 || { cat "$work/log"; exit 1; }
done
echo "samples: left alone"
