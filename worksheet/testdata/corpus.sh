#!/bin/sh
# Holds Markdown from npm that nobody here wrote to the worksheet's promises:
# the CommonMark specification's text, large changelogs and READMEs, CRLF files.
# Needs npm; works in a folder of its own.
#
#   sh worksheet/testdata/corpus.sh
set -eu
cd "$(dirname "$0")/.."
here=$PWD
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
for package in commonmark-spec@0.31.2 karma@6.4.4 highlight.js@11.12.0 xlsx@0.18.5 color-name@1.1.4 npm@11.21.2 vant@4.10.2; do
	archive=$(npm pack --silent "$package")
	mkdir -p "files/$package"
	tar xzf "$archive" -C "files/$package" --wildcards '*.md' '*/spec.txt' 2>/dev/null || true
	rm "$archive"
done
find files -name spec.txt -exec mv {} {}.md \;
echo "$(find files -name '*.md' | wc -l) files, $(find files -name '*.md' -exec cat {} + | wc -c) bytes"
cd "$here" && go test -vet=off . -count=1 -run 'TestCorpus$' -corpus "$work/files" -v
