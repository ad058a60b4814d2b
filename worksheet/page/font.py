# Makes stix-two-math-subset.woff2: of STIX Two Math (SIL Open Font License, without a
# reserved name; its text lies beside this) the characters of font.txt, with the MATH
# table. Of each sign that grows with what is inside of it the first four sizes are
# kept; beyond, a browser builds it of its parts, which are kept, too. Hinting, kerning
# and marks go: formulas are set without them.
#
#   npm pack @fontsource/stix-two-math@5.3.0 && tar -xzf fontsource-*.tgz
#   python3 font.py package/files/stix-two-math-latin-400-normal.woff2
#
# It needs fonttools with brotli: Debian's python3-fonttools and python3-brotli.
import pathlib
import sys

from fontTools import subset

here = pathlib.Path(__file__).parent
characters = [ord(c) for c in (here / "font.txt").read_text(encoding="utf-8") if c != "\n"]
growing = "()[]|{√∫⌈⌉⌊⌋"
sizes = 4

options = subset.Options()
options.flavor, options.hinting, options.layout_features, options.notdef_outline = "woff2", False, [], True
font = subset.load_font(sys.argv[1], options)

names = {font.getBestCmap()[ord(c)] for c in growing}
variants = font["MATH"].table.MathVariants
kept = [(g, c) for g, c in zip(variants.VertGlyphCoverage.glyphs, variants.VertGlyphConstruction) if g in names]
for _, construction in kept:
    if construction.GlyphAssembly:
        construction.MathGlyphVariantRecord = construction.MathGlyphVariantRecord[:sizes]
        construction.VariantCount = len(construction.MathGlyphVariantRecord)
variants.VertGlyphCoverage.glyphs = [g for g, _ in kept]
variants.VertGlyphConstruction = [c for _, c in kept]
variants.VertGlyphCount = len(kept)
variants.HorizGlyphCoverage, variants.HorizGlyphConstruction, variants.HorizGlyphCount = None, [], 0

subsetter = subset.Subsetter(options)
subsetter.populate(unicodes=characters)
subsetter.subset(font)
for table in ("gasp", "GSUB", "GPOS", "GDEF"):
    if table in font:
        del font[table]
subset.save_font(font, here / "stix-two-math-subset.woff2", options)
